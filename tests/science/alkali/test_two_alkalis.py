"""One alkali on top of another: what a dose reckoned from the pH as it stands leaves out, by simulation."""

import numpy as np
import pytest

from bluewright.science.alkali.liquor import latin_scores, liquors
from bluewright.science.alkali.record import Alkali, LiquorRecord
from bluewright.science.alkali.titrant import titrant
from bluewright.science.media.charge import Liquid
from bluewright.science.media.dosing import mol_for_ph, with_added
from tests.science.alkali.liquors import answer

SOURED = {"liquor_l": 30.0, "temp_c": 17.0, "ph": 5.8}


def mol_per_l(liquid: Liquid, alkali: Alkali, ph: float) -> np.ndarray:
    return mol_for_ph(liquid, kind=titrant(alkali).kind, ph=ph, litres_per_mol=0.0)


@pytest.mark.parametrize(
    ("first", "low", "high"),
    [
        (Alkali(kind="potassium_lye"), 0.75, 1.1),
        (Alkali(kind="soda_ash"), 1.05, 1.5),
        (Alkali(kind="ammonia", percent_w_w=9.5), 1.4, 2.2),
    ],
    ids=lambda value: value.kind if isinstance(value, Alkali) else "",
)
def test_lye_is_reckoned_about_right_after_lye_too_low_after_soda_and_ammonia(
    first: Alkali, low: float, high: float
) -> None:
    """Each possible liquor is brought to pH 8.2 with the first, then with lye to 9.5; the record knows 8.2 alone.

    What soda and ammonia leave in the liquor takes up lye that is not foreseen; another lye leaves nothing of the kind.
    """
    lye = Alkali(kind="lye")
    possible = liquors(LiquorRecord(**SOURED, alkali=lye), latin_scores(np.random.default_rng(7), 320)).liquid
    had = mol_per_l(possible, first, 8.2)
    mixed = with_added(possible, kind=titrant(first).kind, mol_per_l=had, growth=1.0)
    needed_g = np.median(mol_per_l(mixed, lye, 9.5)) * 30.0 / (titrant(lye).nominal_mol * titrant(lye).purity.centre)
    reckoned_g = answer(**SOURED | {"ph": 8.2}, alkali={"kind": "lye"}, water={}).dose.p50
    assert low < needed_g / reckoned_g < high
