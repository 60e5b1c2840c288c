"""Weak acids: pK against temperature, water, activity, and the pH of the standard buffers."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from thermo.electrochem import Kweq_IAPWS

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.media.acids import FAMILIES, STUDIED_C, pk, pkw
from bluewright.science.media.activity import davies, debye_slope, dielectric
from bluewright.science.media.charge import Liquid, balance, constants, gamma, solve, strong_at_ph
from bluewright.science.media.water import density_kg_per_m3
from tests.published import Row, rows


def alone(value: float) -> Floats:
    return np.array([float(value)])


def buffer(totals: dict[str, float], *, strong_mol_per_l: float, temp_c: float, calcium: float = 0.0) -> Liquid:
    families = tuple({"carbonic": 0.0} | totals)
    return Liquid(
        constants=constants(alone(temp_c), families=families),
        totals_mol_per_l={name: alone(totals.get(name, 0.0)) for name in families},
        strong_mol_per_l=alone(strong_mol_per_l),
        calcium_mol_per_l=alone(calcium),
        calcite_frac=alone(1.0 if calcium else 0.0),
    )


GOLDBERG = [row for name in ("ammonia", "carbonic", "acetic", "citric") for row in rows("goldberg-2002", name)]


@pytest.mark.parametrize("row", GOLDBERG, ids=lambda r: f"{r.what}-{r.given['step']}-{r.given['temp_c']:g}C")
def test_pk_agrees_with_the_critical_review(row: Row) -> None:
    """Published: Goldberg, Kishore & Lennen 2002."""
    assert row.agrees(pk(row.what, step=int(row.given["step"]), temp_c=row.given["temp_c"]))


@pytest.mark.parametrize("row", rows("martin-tartar"), ids=lambda r: f"{r.given['temp_c']:g}C")
def test_lactic_acid_agrees_with_conductance(row: Row) -> None:
    """Published: Martin & Tartar 1937, another method than the cells the curve rests on."""
    assert row.agrees(pk("lactic", temp_c=row.given["temp_c"]))


@pytest.mark.parametrize("temp_c", [5.0, 15.0, 20.0, 25.0, 40.0, 50.0])
def test_the_ion_product_of_water_agrees_with_the_modern_standard(temp_c: float) -> None:
    """Reference library: `thermo.Kweq_IAPWS` (Bandura & Lvov 2006); the curve was measured seventy years before."""
    reference = -np.log10(Kweq_IAPWS(temp_c + 273.15, density_kg_per_m3(temp_c)))
    assert pkw(temp_c) == pytest.approx(reference, abs=0.005)


def test_every_curve_gives_its_stated_value_at_25_c() -> None:
    for family in FAMILIES.values():
        for step in family.steps:
            assert step.pk(25.0) == pytest.approx(step.at_25.value, abs=0.002), family.name


def test_steps_of_a_family_follow_each_other() -> None:
    for family in FAMILIES.values():
        values = [step.pk(20.0) for step in family.steps]
        assert values == sorted(values), family.name


@given(temp_c=st.floats(STUDIED_C.low, STUDIED_C.high - 1.0))
def test_warmth_weakens_ammonia(temp_c: float) -> None:
    """Own hand: 51.9 kJ/mol is 0.031 in pK for each degree near 25 C."""
    drop = pk("ammonia", temp_c=temp_c) - pk("ammonia", temp_c=temp_c + 1.0)
    assert 0.02 < drop < 0.04


def test_ice_is_refused() -> None:
    with pytest.raises(InputError, match="temp_c: -40 C is not liquid water"):
        pk("ammonia", temp_c=-40.0)


@pytest.mark.parametrize(("temp_c", "slope"), [(5.0, 0.495), (15.0, 0.503), (25.0, 0.511), (40.0, 0.524)])
def test_the_limiting_slope(temp_c: float, slope: float) -> None:
    """Own hand: 1.82483e6 sqrt(rho) / (eps T)^1.5 at 25 C = 1.82483e6 * 0.99852 / (78.30 * 298.15)^1.5 = 0.511."""
    assert debye_slope(temp_c) == pytest.approx(slope, abs=0.001)
    assert dielectric(25.0) == pytest.approx(78.30, abs=0.02)


def ph_of(liquid: Liquid, *, start_ph: Floats) -> Floats:
    return solve(liquid, start_ph=start_ph)[0]


def test_davies_by_hand() -> None:
    """Own hand: I = 0.1: sqrt = 0.31623, 0.31623/1.31623 = 0.24025, less 0.03: 0.21025 * 0.511 = 0.10744."""
    assert davies(0.1, slope=0.511) == pytest.approx(0.10744, abs=1e-5)


@pytest.mark.parametrize("row", rows("jis-z-8802"), ids=lambda r: f"{r.given['temp_c']:g}C")
def test_the_phosphate_standard(row: Row) -> None:
    """Published: JIS Z 8802. Charge of the strong ions: one potassium and two sodium of 0.025 each."""
    found = ph_of(buffer({"phosphate": 0.05}, strong_mol_per_l=0.075, temp_c=row.given["temp_c"]), start_ph=alone(7.0))
    assert row.agrees(float(found[0]))


def test_the_carbonate_standard() -> None:
    """Published: Staples & Bates 1969; a meter is set by it."""
    (row,) = rows("staples-bates-1969")
    found = ph_of(buffer({"carbonic": 0.05}, strong_mol_per_l=0.075, temp_c=25.0), start_ph=alone(7.0))
    assert row.agrees(float(found[0]))


def test_pure_water_is_neutral() -> None:
    """Own hand: half of pKw."""
    assert ph_of(buffer({}, strong_mol_per_l=0.0, temp_c=25.0), start_ph=alone(9.0))[0] == pytest.approx(
        6.997, abs=0.01
    )


@given(
    ph=st.floats(4.0, 11.5),
    temp_c=st.floats(1.0, 50.0),
    acid=st.floats(1e-4, 0.05),
    carbonate=st.floats(1e-4, 0.03),
    calcium=st.floats(0.0, 0.01),
)
def test_strong_ions_and_ph_are_each_others_inverse(
    ph: float, temp_c: float, acid: float, carbonate: float, calcium: float
) -> None:
    """Law: from pH to strong ions and back, and the charge is balanced there."""
    made = buffer(
        {"lactic": acid, "carbonic": carbonate, "ammonia": 0.004}, strong_mol_per_l=0.0, temp_c=temp_c, calcium=calcium
    )
    strong = strong_at_ph(made, ph=alone(ph))
    closed = buffer(
        {"lactic": acid, "carbonic": carbonate, "ammonia": 0.004},
        strong_mol_per_l=float(strong[0]), temp_c=temp_c, calcium=calcium,
    )  # fmt: skip
    back = ph_of(closed, start_ph=alone(7.0))
    assert back[0] == pytest.approx(ph, abs=0.01)
    there = balance(closed, ph=back, activity=gamma(closed, alone(0.02)))
    there = balance(closed, ph=back, activity=gamma(closed, there.ionic_mol_per_l))
    assert abs(there.charge_mol_per_l[0]) < 0.02 * abs(there.per_ph_mol_per_l[0])


@given(low=st.floats(3.0, 10.0), more=st.floats(0.05, 3.0), calcium=st.floats(0.0, 0.01))
def test_the_balance_of_charge_falls_steadily_with_ph(low: float, more: float, calcium: float) -> None:
    """Law: one root only, whatever falls as chalk."""
    made = buffer({"lactic": 0.01, "carbonic": 0.005}, strong_mol_per_l=0.01, temp_c=20.0, calcium=calcium)
    below, above = (balance(made, ph=alone(ph), activity=alone(0.9)) for ph in (low, low + more))
    assert above.charge_mol_per_l[0] < below.charge_mol_per_l[0]
    step = 1e-4
    near = balance(made, ph=alone(low + step), activity=alone(0.9))
    slope = (near.charge_mol_per_l[0] - below.charge_mol_per_l[0]) / step
    if (near.calcite_mol_per_l[0] > 0) == (below.calcite_mol_per_l[0] > 0):
        assert below.per_ph_mol_per_l[0] == pytest.approx(slope, rel=0.01)


def test_many_members_are_solved_as_each_alone() -> None:
    """Law: an array of liquors gives what each of them gives by itself."""
    temps = np.array([5.0, 20.0, 40.0])
    together = Liquid(
        constants=constants(temps, families=("carbonic", "ammonia")),
        totals_mol_per_l={"carbonic": np.full(3, 0.004), "ammonia": np.full(3, 0.01)},
        strong_mol_per_l=np.full(3, 0.002),
        calcium_mol_per_l=np.zeros(3),
        calcite_frac=np.zeros(3),
    )
    one_by_one = [
        ph_of(buffer({"carbonic": 0.004, "ammonia": 0.01}, strong_mol_per_l=0.002, temp_c=t), start_ph=alone(8.0))[0]
        for t in temps
    ]
    assert ph_of(together, start_ph=np.full(3, 8.0)) == pytest.approx(np.array(one_by_one), abs=1e-4)
