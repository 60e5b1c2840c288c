"""What every journey has: a server for each file of tests, a phone for each test."""

# Before anything imports a model.
import tests.django_ready  # noqa: F401, I001

from tests.journeys.phone import browser, empty_home, home, phone, server
from tests.web.homes import season

__all__ = ["browser", "empty_home", "home", "phone", "season", "server"]
