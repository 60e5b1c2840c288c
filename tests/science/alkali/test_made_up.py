"""Solutions made up from the dry alkali."""

import pytest

from bluewright.science.alkali.titrant import made_up_mol_per_l
from bluewright.science.base.errors import InputError


def test_grams_in_litres_become_moles_by_mass_and_purity() -> None:
    """25 g of soda ash (105.99 g/mol, 98 % pure) in half a litre: 25 / 105.99 / 0.5 * 0.98 = 0.4623 mol/L."""
    assert made_up_mol_per_l(25.0, solution_l=0.5, kind="soda_ash") == pytest.approx(0.4623, rel=1e-3)


def test_flakes_of_potassium_lye_are_an_eighth_water() -> None:
    """56.11 g in a litre would be one mole if they were pure; 87 % of them is."""
    assert made_up_mol_per_l(56.11, solution_l=1.0, kind="potassium_lye") == pytest.approx(0.87)


@pytest.mark.parametrize("kind", ["ammonia", "ash_lye"])
def test_what_is_not_weighed_out_dry_says_so(kind: str) -> None:
    with pytest.raises(InputError, match="not made up from a dry alkali"):
        made_up_mol_per_l(25.0, solution_l=0.5, kind=kind)  # type: ignore[arg-type]
