"""Trials as their pages meet them."""

import pytest

from bluewright.journal.models import Garden, Trial
from tests import cast


@pytest.fixture
def laid(garden: Garden) -> Trial:
    """Two pairs, laid down, no envelope open."""
    return cast.a_trial(garden)


@pytest.fixture
def theirs(other_garden: Garden) -> Trial:
    """A trial of the garden that is not open, one lot set."""
    return cast.a_trial(other_garden, open_lots=1)
