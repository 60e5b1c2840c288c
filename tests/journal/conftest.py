"""Django and the permanent cast."""

# Before anything imports a model.
import tests.django_ready  # noqa: F401, I001

from tests.cast import (
    garden, no_database_unasked, other_garden, planted_garden, steeping, strained, strangers_tub,
)  # fmt: skip
from tests.web.homes import season, season_rows

__all__ = [
    "garden",
    "no_database_unasked",
    "other_garden",
    "planted_garden",
    "season",
    "season_rows",
    "steeping",
    "strained",
    "strangers_tub",
]
