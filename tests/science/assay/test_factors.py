"""Stoichiometric factors, against handbooks and against another library's molar masses."""

import chemicals
import pytest

from bluewright.science.assay import factors
from bluewright.science.assay.ash import CHALK_PER_CALCIUM, LIME_PER_CHALK
from bluewright.science.assay.priors import CARMINE_G_PER_MOL, INDIGO_G_PER_MOL, LITERATURE
from tests.published import Row, rows

FOUND = {
    "indigo for a gram of dithionite": lambda _: factors.indigo_g_per_g_dithionite(),
    "indigo in mg for a millilitre of 0.1 N permanganate": lambda row: factors.indigo_mg_per_ml(
        "permanganate", titrant_mol_per_l=row.given["mol_per_l"]
    ),
    "dye of 582.7 g/mol in mg for a millilitre of 0.1 N titanium": lambda row: (
        factors.indigo_mg_per_ml("titanium", titrant_mol_per_l=row.given["mol_per_l"]) * 582.7 / INDIGO_G_PER_MOL
    ),
}


@pytest.mark.parametrize("row", rows("assay-factors"), ids=lambda row: row.what)
def test_factors_are_those_that_handbooks_print(row: Row) -> None:
    assert row.agrees(FOUND[row.what](row))


def test_molar_masses_are_those_of_another_library() -> None:
    assert chemicals.MW("482-89-3") == pytest.approx(INDIGO_G_PER_MOL, rel=1e-4)
    assert chemicals.MW("7775-14-6") == pytest.approx(factors.DITHIONITE_G_PER_MOL.value, rel=2e-4)
    assert chemicals.MW("860-22-0") == pytest.approx(CARMINE_G_PER_MOL.value, rel=2e-4)
    assert chemicals.MW("471-34-1") / chemicals.MW("7440-70-2") == pytest.approx(CHALK_PER_CALCIUM, rel=1e-3)
    assert chemicals.MW("1305-78-8") / chemicals.MW("471-34-1") == pytest.approx(LIME_PER_CHALK.value, rel=1e-3)


def test_nitrogen_of_indigo_and_of_protein() -> None:
    """Own hand: 28.014 / 262.27 = 10.68 % nitrogen, so times 9.362; 1 % protein of 16 % nitrogen is 1.5 % of indigo."""
    assert factors.indigo_g_per_g_nitrogen() == pytest.approx(9.362, abs=0.001)
    assert factors.indigo_g_per_g_nitrogen() / factors.NITROGEN_PER_PROTEIN.value == pytest.approx(1.5, abs=0.01)


@pytest.mark.parametrize("row", rows("gordon-bubnis-2002"), ids=lambda row: row.what)
def test_an_absorptivity_in_a_mole_becomes_one_in_a_milligram(row: Row) -> None:
    """The same step as from 22 140 in a mole to 84.4 L/(g cm): divided by the molar mass."""
    assert row.agrees(row.given["per_mol"] / row.given["g_per_mol"] / 1000)
    dmf = LITERATURE["dmf"].l_per_g_cm
    assert dmf is not None
    assert dmf.centre * INDIGO_G_PER_MOL == pytest.approx(22140)


@pytest.mark.parametrize("row", rows("carmine-absorptivity"), ids=lambda row: row.what)
def test_one_per_cent_is_ten_grams_in_a_litre(row: Row) -> None:
    acid = LITERATURE["sulphuric_acid"].l_per_g_cm
    assert acid is not None
    assert row.agrees(acid.centre * INDIGO_G_PER_MOL)
    assert acid.centre * INDIGO_G_PER_MOL == pytest.approx(row.given["per_cent"] / 10 * CARMINE_G_PER_MOL.value)
