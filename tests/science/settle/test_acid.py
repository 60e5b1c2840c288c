"""The acid wash: demand, parts, gas, what is left."""

import chemicals
import numpy as np
import phreeqc
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from thermo.electrochem import Laliberte_density

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.settle.acid import acid_demand_mmol, acid_mol_per_l, acid_wash
from bluewright.science.settle.acid_record import Acid, AcidAnswer, AcidRecord
from tests.published import rows

CALCITE, LIME, ACETIC, HYDROCHLORIC = (chemicals.MW(c) for c in ("471-34-1", "1305-62-0", "64-19-7", "7647-01-0"))
TEN_PERCENT = {"kind": "hydrochloric", "percent_w_w": 10.0}


def answer(**fields: object) -> AcidAnswer:
    return acid_wash(read(AcidRecord, {"calcite_g": 9.0} | fields), rng=np.random.default_rng(1))


def test_a_gram_of_calcite_takes_24_ml_of_vinegar() -> None:
    """Reference library: molar masses of `chemicals`: 2/100.09 mol in 50/60.05 mol/L = 24.0 mL."""
    per_gram = acid_demand_mmol(calcite_g=1.0, lime_g=0.0) / acid_mol_per_l(Acid(percent_w_v=5.0))
    assert per_gram == pytest.approx(2000 / CALCITE / (50 / ACETIC), rel=1e-4)
    assert per_gram == pytest.approx(24.0, abs=0.05)


def test_a_gram_of_lime_takes_32_ml_of_vinegar() -> None:
    """Reference library: molar masses of `chemicals`: 2/74.09 mol in 50/60.05 mol/L = 32.4 mL."""
    per_gram = acid_demand_mmol(calcite_g=0.0, lime_g=1.0) / acid_mol_per_l(Acid())
    assert per_gram == pytest.approx(2000 / LIME / (50 / ACETIC), rel=1e-4)


@pytest.mark.parametrize("percent", [5.0, 10.0, 20.0, 30.0, 37.0])
def test_the_strength_of_hydrochloric_acid(percent: float) -> None:
    """Reference library: density of HCl solutions at 20 C in `thermo` (Laliberte 2009), within 0.4 %."""
    density = Laliberte_density(293.15, [percent / 100], ["7647-01-0"]) / 1000
    found = acid_mol_per_l(Acid(kind="hydrochloric", percent_w_w=percent))
    assert found == pytest.approx(10 * percent * density / HYDROCHLORIC, rel=0.004)


def test_a_gram_of_calcite_takes_7_ml_of_tenth_hydrochloric_acid() -> None:
    """Own hand: 20.0 mmol / 2.87 mol/L = 7.0 mL."""
    assert answer(calcite_g=1.0, acid=TEN_PERCENT).exact_ml.p50 == pytest.approx(7.0, rel=0.02)


def test_the_gas_is_that_of_the_calcite() -> None:
    """Own hand: 9 g / 100.09 = 0.0899 mol, at 24.06 L/mol (20 C, 1 atm) 2.16 L; lime gives none."""
    assert answer().co2_l.p50 == pytest.approx(2.16, rel=0.02)
    lime = answer(calcite_g=0.0, lime_g=5.0)
    assert lime.co2_l.p95 == 0.0
    assert "fizz" not in {c.code for c in lime.cautions}


def test_vinegar_in_excess_reads_what_a_geochemical_model_reads() -> None:
    """Reference library: PHREEQC (minteq.v4) with 0.1 mol/L calcite dissolved in 35 % more acetic acid than it needs,
    under CO2 of 0.01 atm: the calcite is gone, and the pH is near the mark, not below 4.
    """
    model = phreeqc.Phreeqc()
    assert model.LoadBuiltInDatabase("minteq.v4.dat") == 0
    errors = model.RunString(
        "SOLUTION 1\n temp 20\n units mmol/kgw\n pH 3 charge\n Acetate 270\n"
        "EQUILIBRIUM_PHASES 1\n CO2(g) -2.0 10\nREACTION 1\n Calcite 1\n 0.1 moles\n"
        "SELECTED_OUTPUT\n -reset false\n -pH true\n -saturation_indices Calcite\nEND\n"
    )
    assert errors == 0
    last = model.GetSelectedOutputRowCount() - 1
    ph, saturation = (model.GetSelectedOutputValue(last, column) for column in (0, 1))
    assert saturation < -2
    assert answer().done_below_ph == pytest.approx(ph, abs=0.3)
    assert ph > 4.5


def test_the_parts_add_up() -> None:
    found = answer()
    assert sum(part.add_ml for part in found.parts) == pytest.approx(found.parts[-1].total_ml)
    assert found.parts[3].total_ml == pytest.approx(found.exact_ml.p50, rel=0.01)
    assert found.total_low_ml == pytest.approx(1.2 * found.exact_ml.p50, rel=0.01)
    assert found.total_high_ml == pytest.approx(1.5 * found.exact_ml.p50, rel=0.01) == found.parts[-1].total_ml


def test_indigo_naturalis_is_mostly_calcite() -> None:
    """Published: calcium 28.1 % stands for 70 % calcite (molar masses of `chemicals`)."""
    calcium = rows("indigo-naturalis", "calcium percent")[0].value
    calcite = rows("indigo-naturalis", "calcite percent")[0]
    assert calcite.agrees(calcium * CALCITE / chemicals.MW("7440-70-2"))


def test_an_acid_wash_of_indigo_naturalis_leaves_at_most_an_eighth_indigo() -> None:
    """Published figures, own hand: 2.28 % indigo and 70.2 % calcite leave 2.28/29.8 = 7.65 % if only calcite goes."""
    found = answer(calcite_g=70.2, calcite_low_g=69.9, calcite_high_g=70.5, pigment_g=100.0, indigo_frac=0.0228)
    assert found.indigo_after_frac is not None and found.pigment_after_g is not None
    assert found.indigo_after_frac.p50 == pytest.approx(0.0765, abs=0.001)
    assert found.pigment_after_g.p50 == pytest.approx(29.8, abs=0.2)


@settings(max_examples=40)
@given(calcite_g=st.floats(0.01, 1e4), lime_g=st.floats(0.0, 1e4), factor=st.floats(1.1, 5.0))
def test_more_mineral_takes_more_acid(calcite_g: float, lime_g: float, factor: float) -> None:
    less, more = answer(calcite_g=calcite_g, lime_g=lime_g), answer(calcite_g=factor * calcite_g, lime_g=lime_g)
    assert less.exact_ml.p50 <= more.exact_ml.p50
    assert less.exact_ml.p5 < less.exact_ml.p50 < less.exact_ml.p95


def test_a_stated_range_is_kept() -> None:
    """Own hand: 5, 9 and 14 g of calcite take 120, 216 and 336 mL; the acid's own doubt adds a little."""
    found = answer(calcite_low_g=5.0, calcite_high_g=14.0).exact_ml
    assert (found.p5, found.p50, found.p95) == pytest.approx((120, 216, 336), rel=0.06)


def test_the_cautions_name_what_hurts_with_its_figure() -> None:
    weak, strong = answer(), answer(acid=TEN_PERCENT | {"percent_w_w": 30.0})
    assert {"never-bleach", "fizz", "acids-that-stay", "eyes"} == {c.code for c in weak.cautions}
    assert {"never-bleach", "strong-acid", "fizz", "acids-that-stay"} == {c.code for c in strong.cautions}
    assert "18.9 mL" in next(c.text for c in strong.cautions if c.code == "strong-acid")
    assert "outside-range" in {c.code for c in answer(pigment_g=9.5).cautions}


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"calcite_g": 0.0}, r"calcite_g: there is neither calcite nor lime"),
        ({"calcite_g": -1.0}, r"calcite_g: .* at least 0"),
        ({"acid": {"kind": "hydrochloric"}}, r"acid.percent_w_w: the strength .* is missing"),
        ({"acid": {"kind": "hydrochloric", "percent_w_w": 50.0}}, r"acid.percent_w_w: .* at most 38"),
        ({"acid": {"kind": "vinegar", "percent_w_w": 5.0}}, r"acid.percent_w_w: vinegar is not counted so"),
        ({"acid": {"kind": "citric"}}, r"acid.kind: 'citric' is not possible here"),
        ({"calcite_low_g": 10.0}, r"calcite_low_g: 9 g is not between 10 and 9 g"),
        ({"pigment_g": 9.0}, r"pigment_g: 9 g is not more than the calcite and lime in it"),
        ({"indigo_frac": 1.2}, r"indigo_frac: .* at most 1"),
    ],
)
def test_what_cannot_be_is_refused_by_name(fields: dict[str, object], message: str) -> None:
    with pytest.raises(InputError, match=message):
        answer(**fields)
