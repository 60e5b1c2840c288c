"""What every journey has: a server for each file of tests, a phone for each test."""

from tests.journeys.phone import home, phone, server

__all__ = ["home", "phone", "server"]
