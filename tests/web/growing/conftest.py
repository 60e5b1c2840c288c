"""A bed whose growth can be told."""

import pytest

from bluewright.journal.models import Bed, Garden
from tests import cast


@pytest.fixture
def bed(garden: Garden) -> Bed:
    """Twenty square metres at 51 degrees, where it is spring or summer, sown 90 days ago, picked 40 and 5 days ago."""
    return a_grown_bed(garden)


def a_grown_bed(garden: Garden) -> Bed:
    garden.latitude_deg = 51.0 if 3 <= cast.a_day().month <= 8 else -51.0
    garden.save()
    bed = cast.a_bed(garden, name="Wall bed", area_m2=20.0, area_typed="20 m2")
    cast.a_bed_look(bed, days_ago=90, began="sown")
    for days_ago, leaf_kg in ((40, 12.0), (5, 9.0)):
        cast.a_picking(garden, beds_of=[bed], picked_at=cast.moment(24 * days_ago), leaf_kg=leaf_kg)
    return bed
