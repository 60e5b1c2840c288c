"""Doses against PHREEQC 3 (reference library; Parkhurst & Appelo 2013): same liquor, its own equations and activities.

Tolerances: 3 % of a dose (6 % for soda at pH 10.5, where the liquor is a brine that PHREEQC pairs ions in), 0.02 pH.
"""

import numpy as np
import pytest

from bluewright.science.base.sourced import Floats
from bluewright.science.media.alkali_kind import Kind
from bluewright.science.media.alkalis import KINDS
from bluewright.science.media.calcite import LIME_G_PER_MOL, lime_solubility_g_per_l, lime_water_ph
from bluewright.science.media.charge import Liquid, constants, solve, strong_at_ph
from bluewright.science.media.dosing import mol_for_ph, with_added
from tests.science.alkali.phreeqc_reference import lime_dissolved_mol, mol_to_ph, ph_of

AMMONIA_5_PERCENT = "Amm(H2O)17.963"
WATER_LITRES_PER_MOL = 1 / 2.868
FORMULAS: dict[Kind, str] = {
    "lye": "NaOH",
    "potassium_lye": "KOH",
    "soda_ash": "Na2CO3",
    "potash": "K2CO3",
    "slaked_lime": "Ca(OH)2",
}


def alone(value: float) -> Floats:
    return np.array([float(value)])


def liquor(*, temp_c: float, calcite_frac: float = 0.0, calcium_mmol: float = 0.0) -> Liquid:
    """The liquor of comparison of `phreeqc_reference`."""
    empty = Liquid(
        constants=constants(alone(temp_c), families=("carbonic", "lactic", "ammonia")),
        totals_mol_per_l={"carbonic": alone(3.2e-3), "lactic": alone(10e-3), "ammonia": alone(0.0)},
        strong_mol_per_l=alone(0.0),
        calcium_mol_per_l=alone(calcium_mmol / 1000),
        calcite_frac=alone(calcite_frac),
    )
    return Liquid(
        constants=empty.constants,
        totals_mol_per_l=empty.totals_mol_per_l,
        strong_mol_per_l=strong_at_ph(empty, ph=alone(5.2)),
        calcium_mol_per_l=empty.calcium_mol_per_l,
        calcite_frac=empty.calcite_frac,
    )


def own(
    kind: Kind, *, ph: float, temp_c: float = 25.0, litres_per_mol: float = 0.0, calcite_frac: float = 0.0
) -> float:
    made = liquor(temp_c=temp_c, calcite_frac=calcite_frac)
    return float(mol_for_ph(made, kind=KINDS[kind], ph=ph, litres_per_mol=litres_per_mol)[0])


@pytest.mark.parametrize("temp_c", [5.0, 15.0, 25.0, 40.0, 50.0])
@pytest.mark.parametrize("ph", [9.0, 9.5, 10.0, 10.5])
def test_the_ammonia_dose_agrees_at_every_temperature(temp_c: float, ph: float) -> None:
    """Reference library: 5 % ammonia from 5 to 50 C, a hundredfold range of doses."""
    reference = mol_to_ph(AMMONIA_5_PERCENT, ph=ph, temp_c=temp_c)
    assert own("ammonia", ph=ph, temp_c=temp_c, litres_per_mol=WATER_LITRES_PER_MOL) == pytest.approx(
        reference, rel=0.03
    )


@pytest.mark.parametrize("ph", [9.0, 9.5, 10.0, 10.5, 11.0])
@pytest.mark.parametrize("kind", ["lye", "potassium_lye", "slaked_lime"])
def test_the_dose_of_a_strong_alkali_agrees(kind: Kind, ph: float) -> None:
    """Reference library: sodium, potassium and calcium hydroxide, no chalk allowed to fall."""
    assert own(kind, ph=ph) == pytest.approx(mol_to_ph(FORMULAS[kind], ph=ph, temp_c=25.0), rel=0.03)


@pytest.mark.parametrize("ph", [9.0, 9.5, 10.0])
@pytest.mark.parametrize("calcite", [False, True], ids=["chalk held up", "chalk fallen"])
def test_the_ammonia_dose_in_hard_water_agrees(ph: float, calcite: bool) -> None:
    """Reference library: 2 mmol of calcium in a kilogram; the dissolved pair of calcium and carbonate counts."""
    reference = mol_to_ph(AMMONIA_5_PERCENT, ph=ph, temp_c=25.0, calcite=calcite, calcium_mmol=2.0)
    hard = liquor(temp_c=25.0, calcite_frac=float(calcite), calcium_mmol=2.0)
    found = mol_for_ph(hard, kind=KINDS["ammonia"], ph=ph, litres_per_mol=WATER_LITRES_PER_MOL)
    assert found[0] == pytest.approx(reference, rel=0.03)


@pytest.mark.parametrize(("ph", "rel"), [(9.0, 0.03), (9.5, 0.03), (10.0, 0.03), (10.5, 0.06)])
@pytest.mark.parametrize("kind", ["soda_ash", "potash"])
def test_the_dose_of_a_carbonate_agrees(kind: Kind, ph: float, rel: float) -> None:
    """Reference library: the ceiling of a carbonate above pH 10 is where activities matter most."""
    assert own(kind, ph=ph) == pytest.approx(mol_to_ph(FORMULAS[kind], ph=ph, temp_c=25.0), rel=rel)


@pytest.mark.parametrize("ph", [9.0, 9.5, 10.0, 10.5])
def test_the_lime_dose_with_all_chalk_fallen_agrees(ph: float) -> None:
    """Reference library: calcite kept at equilibrium takes half as much lime again."""
    reference = mol_to_ph(FORMULAS["slaked_lime"], ph=ph, temp_c=25.0, calcite=True)
    assert own("slaked_lime", ph=ph, calcite_frac=1.0) == pytest.approx(reference, rel=0.03)


@pytest.mark.parametrize("temp_c", [15.0, 25.0])
@pytest.mark.parametrize("ammonia_mmol", [2.0, 10.0, 50.0])
def test_the_ph_of_ammonia_in_bicarbonate_agrees(temp_c: float, ammonia_mmol: float) -> None:
    """Reference library: 3.2 mmol/kg potassium bicarbonate with ammonia."""
    reference = ph_of(
        f"SOLUTION 1\n temp {temp_c}\n pH 10 charge\n units mmol/kgw\n C(4) 3.2\n K 3.2\n Amm {ammonia_mmol}"
    )
    made = Liquid(
        constants=constants(alone(temp_c), families=("carbonic", "ammonia")),
        totals_mol_per_l={"carbonic": alone(3.2e-3), "ammonia": alone(ammonia_mmol / 1000)},
        strong_mol_per_l=alone(3.2e-3),
        calcium_mol_per_l=alone(0.0),
        calcite_frac=alone(0.0),
    )
    assert solve(made, start_ph=alone(8.0))[0][0] == pytest.approx(reference, abs=0.02)


@pytest.mark.parametrize("temp_c", [10.0, 20.0, 25.0, 40.0])
def test_lime_water_agrees(temp_c: float) -> None:
    """Reference library: grams dissolved within 8 % (handbooks differ by as much), pH within 0.1."""
    dissolved_mol, ph = lime_dissolved_mol(temp_c)
    assert lime_solubility_g_per_l(temp_c) == pytest.approx(dissolved_mol * LIME_G_PER_MOL.value, rel=0.08)
    assert lime_water_ph(temp_c) == pytest.approx(ph, abs=0.1)


@pytest.mark.parametrize("kind", list(FORMULAS))
def test_the_dose_found_gives_the_wanted_ph_when_it_is_added(kind: Kind) -> None:
    """Law: the closed form for the dose and the root finder for pH are each other's inverse, chalk included."""
    made = liquor(temp_c=18.0, calcite_frac=0.7)
    mol = mol_for_ph(made, kind=KINDS[kind], ph=9.7, litres_per_mol=0.0)
    dosed = with_added(made, kind=KINDS[kind], mol_per_l=mol, growth=1.0)
    assert solve(dosed, start_ph=alone(7.0))[0][0] == pytest.approx(9.7, abs=0.003)
