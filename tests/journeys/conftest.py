"""What every journey has: a server for each file of tests, a phone for each test."""

from tests.journeys.phone import phone, server

__all__ = ["phone", "server"]
