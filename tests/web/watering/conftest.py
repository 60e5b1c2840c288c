"""A bed whose water can be told."""

import pytest

from bluewright.journal.models import Bed, Garden
from tests import cast


@pytest.fixture
def bed(garden: Garden) -> Bed:
    """A loam of 12 square metres in a garden at 51 degrees north, with dry days written down."""
    return a_known_bed(garden)


def a_known_bed(garden: Garden) -> Bed:
    garden.latitude_deg = 51.0
    garden.save()
    for days_ago in range(1, 12):
        cast.a_rain(garden, 0.0, days_ago=days_ago)
    return cast.a_bed(garden, name="Wall bed", soil="loam", area_m2=12.0, area_typed="12 m2")
