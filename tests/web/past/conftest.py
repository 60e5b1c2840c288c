"""A bed without a past."""

import pytest

from bluewright.journal.models import Bed, Garden
from tests import cast


@pytest.fixture
def bed(garden: Garden) -> Bed:
    return cast.a_bed(garden, name="East")
