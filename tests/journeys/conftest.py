"""What every journey has: a server for each file of tests, a phone for each test."""

# Before anything imports a model.
import tests.django_ready  # noqa: F401, I001

from tests.journeys.phone import home, phone, server

__all__ = ["home", "phone", "server"]
