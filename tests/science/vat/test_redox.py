"""Half reactions: atoms, charge and electrons, and what of each reductant indigo and oxygen take."""

import itertools
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.media.stoichiometry import MOLAR_MASS_G_PER_MOL, atoms_of
from bluewright.science.vat.redox import REDUCTANTS, SPECIES, TO_LEUCO, TO_WATER, Half, ReductantName
from tests.published import Row, rows

HALVES = {
    "indigo": TO_LEUCO,
    "oxygen": TO_WATER,
    **{f"{name} on indigo": found.to_indigo for name, found in REDUCTANTS.items()},
    **{f"{name} on air": found.to_air for name, found in REDUCTANTS.items()},
}


def counted(species: dict[str, int]) -> tuple[Counter[str], int]:
    """Atoms and charge of so many of each."""
    atoms: Counter[str] = Counter()
    for name, count in species.items():
        for atom, of_it in atoms_of(SPECIES[name][0]).items():
            atoms[atom] += count * of_it
    return atoms, sum(count * SPECIES[name][1] for name, count in species.items())


@pytest.mark.parametrize("half", HALVES.values(), ids=HALVES)
def test_atoms_and_charges_close(half: Half) -> None:
    (before, charge_before), (after, charge_after) = counted(half.uses), counted(half.makes)
    assert before == after
    assert charge_before == charge_after - half.electrons


@given(indigo=st.integers(0, 50), oxygen=st.integers(0, 50), name=st.sampled_from(sorted(REDUCTANTS)))
def test_electrons_given_are_electrons_taken(indigo: int, oxygen: int, name: ReductantName) -> None:
    found = REDUCTANTS[name]
    given_e = (
        found.mol_per_indigo * indigo * found.to_indigo.electrons
        + found.mol_per_oxygen * oxygen * found.to_air.electrons
    )
    assert given_e == pytest.approx(-TO_LEUCO.electrons * indigo - TO_WATER.electrons * oxygen)


@pytest.mark.parametrize(
    ("name", "grams"),
    [("dithionite", 0.664), ("thiourea_dioxide", 0.412), ("fructose", 0.687), ("ferrous_sulphate", 2.120)],
)
def test_a_gram_of_indigo_takes_so_many_grams(name: ReductantName, grams: float) -> None:
    """Own hand: molar masses 174.10, 108.12, 180.16 and twice 278.01, over 262.27."""
    found = REDUCTANTS[name]
    assert found.mol_per_indigo * found.molar_g_per_mol / MOLAR_MASS_G_PER_MOL["indigo"] == pytest.approx(
        grams, abs=5e-4
    )


def test_a_milligram_of_oxygen_takes_its_dithionite() -> None:
    """Own hand: 174.10 / 31.998 = 5.44 mg, one molecule for each."""
    found = REDUCTANTS["dithionite"]
    assert found.mol_per_oxygen == 1
    assert found.molar_g_per_mol / MOLAR_MASS_G_PER_MOL["oxygen"] == pytest.approx(5.44, abs=0.005)


@pytest.mark.parametrize(
    ("name", "row"),
    [
        *itertools.product(["ferrous_sulphate"], rows("old-vats", "copperas mol/mol")),
        *itertools.product(["fructose"], rows("old-vats", "fructose mol/mol")),
    ],
    ids=lambda each: each if isinstance(each, str) else f"{each.given['case']:.0f}",
)
def test_printed_recipes_come_to_their_moles(name: ReductantName, row: Row) -> None:
    pure_mol = row.given["powder_g"] * row.given["purity_frac"] / MOLAR_MASS_G_PER_MOL["indigo"]
    assert row.agrees(row.given["reductant_g"] / REDUCTANTS[name].molar_g_per_mol / pure_mol)


def test_the_old_copperas_vat_has_less_iron_than_its_indigo_takes() -> None:
    """Mairet 1916, if the indigo was pure: 1.887 of the 2 moles that it takes; at 60 % it has enough."""
    pure, crude = (row.value for row in rows("old-vats", "copperas mol/mol")[:2])
    assert pure < REDUCTANTS["ferrous_sulphate"].mol_per_indigo < crude
