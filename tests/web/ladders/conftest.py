"""Ladders as their pages meet them."""

import pytest

from bluewright.journal.models import Garden, Ladder
from tests import cast


@pytest.fixture
def ladder(garden: Garden) -> Ladder:
    """A ladder of wool with strips of 1, 2 and 4 dips, nothing done yet."""
    found = cast.a_ladder(garden)
    for dips in (1, 2, 4):
        cast.a_rung(found, dips)
    return found


@pytest.fixture
def theirs(other_garden: Garden) -> Ladder:
    """A ladder of the garden that is not open, with a strip."""
    found = cast.a_ladder(other_garden)
    cast.a_rung(found, 2)
    return found
