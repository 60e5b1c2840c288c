"""A batch of liquor and the alkalis it is dosed with; and a stranger's."""

import pytest

from bluewright.journal.models import Alkali, Batch, Garden, Steep
from tests import cast


@pytest.fixture
def soda(garden: Garden) -> Alkali:
    """Half a mole of soda ash in a litre."""
    return cast.an_alkali(garden)


@pytest.fixture
def batch(strained: Steep) -> Batch:
    """38 L of the invented garden's liquor at pH 5.8 and 17 C, begun three hours ago."""
    made = cast.a_batch(strained.strains.get(), begun_at=cast.moment(3))
    cast.a_liquor_look(made, hours_ago=2.5, ph=5.8, temp_c=17.0, temp_typed="17 C")
    return made


@pytest.fixture
def strangers_batch(strangers_tub: Steep) -> Batch:
    """The batch of the garden that is not open."""
    return cast.a_batch(strangers_tub.strains.get(), begun_at=cast.moment(0.5))
