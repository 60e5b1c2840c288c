"""Stoichiometry of the precursors and of indigo."""

import pytest
from chemicals.elements import molecular_weight, simple_formula_parser
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.media.stoichiometry import (
    FORMULA,
    MOLAR_MASS_G_PER_MOL,
    OXYGEN_MG_PER_G_INDIGO,
    Compound,
    Precursor,
    indigo_g,
    indigo_g_per_g,
    molar_mass_g_per_mol,
    oxygen_mg,
    precursor_mmol,
)
from tests.published import Row, rows


@pytest.mark.parametrize("name", FORMULA)
def test_molar_masses_agree_with_a_reference_library(name: Compound) -> None:
    """Reference library: `chemicals`, which carries its own table of atomic weights."""
    expected = molecular_weight(simple_formula_parser(FORMULA[name]))
    assert MOLAR_MASS_G_PER_MOL[name] == pytest.approx(expected, abs=0.02)


@pytest.mark.parametrize("row", rows("plant-indigo-factors"), ids=lambda r: f"{r.given['indican_pct']}")
def test_indican_stands_for_the_indigo_that_was_published(row: Row) -> None:
    """Published: indican and indigo percent of the same dry matter, to two digits."""
    assert row.agrees(indigo_g_per_g("indican") * row.given["indican_pct"])


@pytest.mark.parametrize("row", rows("woad-dry-leaf-theory"), ids=lambda r: r.what)
def test_woad_dry_leaf_comes_to_the_theory_of_the_older_structure(row: Row) -> None:
    """Own hand on published contents: 240 g/kg at 3:1 is 180 g isatan B (as gluconate) and 60 g indican."""
    gluconate_g, indican_g = 0.75 * row.given["total_g_per_kg"], 0.25 * row.given["total_g_per_kg"]
    theory = gluconate_g * indigo_g_per_g("isatan_b_gluconate") + indican_g * indigo_g_per_g("indican")
    assert row.agrees(theory * row.given["made_frac"])


@pytest.mark.parametrize("row", rows("strobilanthes-theory"), ids=lambda r: r.what)
def test_published_yields_are_the_share_of_theory_that_indican_gives(row: Row) -> None:
    """Published indican and yields of indigo; own hand: 85.86 mg/g * 0.444 = 38.1; 20.0, 8.3 are 52, 22 %."""
    theory = row.given["indican_mg_per_g"] * indigo_g_per_g("indican")
    made = row.given.get("indigo_mg_per_g")
    assert row.agrees(theory if made is None else 100 * made / theory)


@pytest.mark.parametrize(
    ("precursor", "expected"),
    [("indoxyl", 0.985), ("indican", 0.444), ("isatan_b", 0.447), ("isatan_a", 0.346), ("isatan_b_gluconate", 0.424)],
)
def test_each_precursor_gives_its_share_of_indigo(precursor: Precursor, expected: float) -> None:
    """Own hand: 262.27 / (2 * 133.15, 295.29, 293.27, 379.32, 309.27)."""
    assert indigo_g_per_g(precursor) == pytest.approx(expected, abs=0.0005)


def test_a_millimole_gives_an_eighth_of_a_gram() -> None:
    """Own hand: 262.27 / 2 / 1000 = 0.1311 g; 10 mmol/kg of leaf are 1.31 g/kg."""
    assert indigo_g(1.0) == pytest.approx(0.1311, abs=0.0001)


def test_a_gram_of_indigo_takes_an_eighth_of_a_gram_of_oxygen() -> None:
    """Own hand: 31.998 / 262.27 = 122.0 mg to water, 244 mg to peroxide."""
    assert pytest.approx(122.0, abs=0.05) == OXYGEN_MG_PER_G_INDIGO
    assert oxygen_mg(1.0, peroxide_frac=1.0) == pytest.approx(244.0, abs=0.1)


def test_mass_closes_over_the_reaction() -> None:
    """2 indoxyl + O2 = indigo + 2 water; and 2 indoxyl + 2 O2 = indigo + 2 peroxide."""
    m = MOLAR_MASS_G_PER_MOL
    assert 2 * m["indoxyl"] + m["oxygen"] == pytest.approx(m["indigo"] + 2 * molar_mass_g_per_mol("H2O"))
    assert 2 * m["indoxyl"] + 2 * m["oxygen"] == pytest.approx(m["indigo"] + 2 * m["hydrogen_peroxide"])


@given(st.floats(0, 1e6))
def test_indigo_and_precursor_convert_both_ways(grams: float) -> None:
    assert indigo_g(precursor_mmol(grams)) == pytest.approx(grams)


@pytest.mark.parametrize(("formula", "said"), [("", "not a formula"), ("c8", "not a formula"), ("NaCl", "of Cl")])
def test_a_formula_that_cannot_be_is_refused(formula: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        molar_mass_g_per_mol(formula)
