"""The simple meter, titration, ash, the powder's colour, and results put together."""

from typing import Any

import numpy as np
import pytest

from bluewright.science.assay.ash import ash
from bluewright.science.assay.ash_record import AshAnswer, AshRecord
from bluewright.science.assay.combine import combine
from bluewright.science.assay.combine_record import CombineAnswer, CombineRecord
from bluewright.science.assay.led import led
from bluewright.science.assay.led_record import LedAnswer, LedRecord
from bluewright.science.assay.powder import powder
from bluewright.science.assay.powder_record import PowderAnswer, PowderRecord
from bluewright.science.assay.titration import titration
from bluewright.science.assay.titration_record import TitrationAnswer, TitrationRecord
from bluewright.science.base.errors import InputError, ModelError
from bluewright.science.base.records import read
from tests.published import rows


def rng() -> np.random.Generator:
    return np.random.default_rng(1)


def codes(found: Any) -> set[str]:
    return {caution.code for caution in found.cautions}


# --- a one-band meter -------------------------------------------------------------------------------------------


def met(reading: float, **fields: Any) -> LedAnswer:
    """A meter that bends: A = 0.08 c - 0.0012 c^2."""
    steps = [{"indigo_mg_per_l": c, "reading_absorbance": 0.08 * c - 0.0012 * c * c} for c in (0.0, 2, 4, 6, 8, 10)]
    record = {
        "solvent": "dmso", "sample_mg": 20.0, "volume_ml": 100.0, "dilution_factor": 10.0, "moisture_frac": 0.0,
        "steps": steps, "readings_absorbance": [reading - 0.002, reading, reading + 0.002],
    }  # fmt: skip
    return led(read(LedRecord, record | fields), rng=rng())


def test_a_bent_line_is_read_backwards() -> None:
    """Own hand: 6 mg/L reads 0.48 - 0.0432 = 0.4368, and is 6 x 0.1 x 10 / 20 = 30 %; the bend at 10 is 15 %."""
    found = met(0.4368)
    assert found.indigo_mg_per_l.p50 == pytest.approx(6.0, rel=0.005)
    assert found.indigo_pct.p50 == pytest.approx(30.0, rel=0.01)
    assert found.bend_pct == pytest.approx(15.0, rel=0.02)
    assert "one-band" in codes(found)


def test_a_reading_beyond_the_standards_is_refused() -> None:
    with pytest.raises(InputError, match=r"0\.800 lies beyond the standards, 0 to 0\.68; dilute"):
        met(0.8)


def test_standards_that_fall_are_refused() -> None:
    steps = [{"indigo_mg_per_l": c, "reading_absorbance": 0.5 - 0.04 * c} for c in (0.0, 2, 4, 6, 8, 10)]
    with pytest.raises(ModelError, match="do not rise with their strength"):
        met(0.3, steps=steps)


# --- titration and nitrogen -------------------------------------------------------------------------------------


def titrated(method: str, **fields: Any) -> TitrationAnswer:
    record = {"method": method, "sample_mg": 100.0, "titre_ml": 5.0, "titrant_mol_per_l": 0.02, "moisture_frac": 0.0}
    return titration(read(TitrationRecord, record | fields), rng=rng())


def test_permanganate_without_a_standard_is_an_upper_bound() -> None:
    """Own hand: 5 mL x 6.557 mg/mL = 32.8 mg of 100."""
    found = titrated("permanganate")
    assert found.apparent_pct == pytest.approx(32.8, abs=0.05)
    assert found.bound == "at_most"
    assert "too-high" in codes(found)
    assert any(caution.text.startswith("Laboratory only") for caution in found.cautions)


def test_a_standard_titrated_the_same_way_takes_the_place_of_the_theory() -> None:
    """Own hand: 50 mg x 0.96 took 6 mL, so a millilitre is 8 mg; 5 mL are 40 mg of 100."""
    known = {"standard_mg": 50.0, "standard_frac": 0.96, "standard_ml": 6.0}
    found = titrated("permanganate", standardised=known)
    assert found.indigo_pct.p50 == pytest.approx(40.0, rel=0.01)
    assert (found.bound, found.basis) == ("about", "readings")


def test_protein_is_taken_off_the_nitrogen() -> None:
    """Own hand: 5 mL x 0.06 mol/L x 14.007 = 4.2 mg N of 100 mg; times 9.362 39.3 %; 4 % protein takes 6.0."""
    found = titrated("kjeldahl", titrant_mol_per_l=0.06, protein_frac=0.04)
    assert found.indigo_pct.p50 == pytest.approx(39.3 - 6.0, abs=0.4)
    assert "protein-guessed" in codes(titrated("kjeldahl", titrant_mol_per_l=0.06))


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"method": "dithionite", "blank_titre_ml": 6.0}, "blank_titre_ml: 6 mL is as much as the sample took"),
        ({"method": "titanium", "protein_frac": 0.1}, "protein_frac: protein is only asked for nitrogen"),
        ({"method": "kjeldahl", "titrant_mol_per_l": 0.01, "protein_frac": 0.6}, "all of this nitrogen and more"),
        ({"method": "dithionite", "titrant_mol_per_l": 1.0}, "titre_ml: .* more than all of it"),
    ],
)
def test_what_cannot_be_titrated_is_refused(fields: dict[str, Any], says: str) -> None:
    with pytest.raises(InputError, match=says):
        titrated(**fields)


# --- ash and acid wash ------------------------------------------------------------------------------------------


def burnt(**fields: Any) -> AshAnswer:
    return ash(read(AshRecord, {"sample_g": 2.0, "dried_g": 2.0, "scale_sd_g": 0.0001} | fields), rng=rng())


def test_calcium_of_indigo_naturalis_becomes_chalk_and_washing_enriches() -> None:
    """Published: calcium 28.1 %, calcite 70 %, indigo 2.28 % of one product; own hand: 2.28 / 0.298 = 7.65 %."""
    known = {row.what: row for row in rows("indigo-naturalis")}
    found = burnt(calcium_frac=known["calcium percent"].value / 100, before_frac=0.0228, before_sd_frac=0.001)
    assert found.chalk_pct is not None
    assert found.after_wash_pct is not None
    assert known["calcite percent"].agrees(found.chalk_pct.p50)
    assert found.after_wash_pct.p50 == pytest.approx(7.65, rel=0.03)
    assert found.most_pct.p50 == pytest.approx(29.8, abs=0.5)


def test_chalk_burnt_bright_red_is_counted_back() -> None:
    """Own hand: 1 g of chalk in 2 g leaves 0.56 g of quicklime: ash 0.56 + 0.1 g of sand is 55 % of mineral matter."""
    found = burnt(ash_g=0.66, ashed="bright_red", calcium_frac=0.5 / 2.4972)
    assert found.mineral_pct.p50 == pytest.approx(55.0, abs=1.0)
    unknown = burnt(ash_g=0.66, ashed="bright_red")
    assert unknown.mineral_pct.p5 > 33.0
    assert unknown.mineral_pct.p95 < 59.0


def test_an_acid_wash_is_a_measure_of_chalk() -> None:
    """Own hand: 5 g became 2 g; 60 % went, 1 % of it blue that ran off."""
    found = burnt(washed={"before_g": 5.0, "after_g": 2.0})
    assert found.chalk_pct is not None
    assert found.chalk_pct.p50 == pytest.approx(59.0, abs=0.6)
    assert "acid-foams" in codes(found)


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({}, "nothing was burnt, washed or analysed"),
        ({"ash_g": 2.0}, "is all of the pigment"),
        ({"dried_g": 2.1, "ash_g": 0.1}, "dried_g: it weighs more"),
        ({"ash_g": 0.1, "ashed": "bright_red", "calcium_frac": 0.3}, "less ash than the quicklime of its chalk"),
        ({"calcium_frac": 0.28, "before_frac": 0.6}, "more indigo than pigment"),
    ],
)
def test_ash_that_contradicts_itself_is_refused(fields: dict[str, Any], says: str) -> None:
    with pytest.raises(InputError, match=says):
        burnt(**fields)


# --- the powder's colour ----------------------------------------------------------------------------------------


def known_powders(many: int, seed: int = 3, scatter: float = 0.1) -> list[dict[str, Any]]:
    """Powders whose logit of indigo falls with their lightness: -3 + (38 - L) / 5."""
    dice = np.random.default_rng(seed)
    found = []
    for lightness in dice.uniform(20, 36, many):
        logit = -3 + (38 - lightness) / 5 + scatter * dice.standard_normal()
        lab = [float(lightness), float(dice.normal(1, 0.5)), float(dice.normal(-9, 1))]
        found.append({"lab": lab, "indigo_frac": float(1 / (1 + np.exp(-logit)))})
    return found


def coloured(lab: list[float], many: int = 12, **fields: Any) -> PowderAnswer:
    return powder(read(PowderRecord, {"lab": lab, "known": known_powders(many)} | fields), rng=rng())


def test_ones_own_rule_tells_a_new_powder() -> None:
    """Own hand: L 28 is a logit of -1, 26.9 %."""
    found = coloured([28.0, 1.0, -9.0])
    assert found.indigo_pct.p5 < 26.9 < found.indigo_pct.p95
    assert "L" in found.predictors


def test_the_band_of_a_new_powder_covers_as_named() -> None:
    """Of 200 rules of 12 assays each some refuse the colour as unlike their own; of the others the 90 % band holds the
    new assay at least 83 and at most 97 times in 100."""
    inside = told = 0
    dice = np.random.default_rng(8)
    for seed in range(200):
        lightness = float(dice.uniform(25, 31))
        truth = 100 / (1 + np.exp(-(-3 + (38 - lightness) / 5 + 0.1 * dice.standard_normal())))
        record = read(PowderRecord, {"lab": [lightness, 1.0, -9.0], "known": known_powders(12, seed)})
        try:
            found = powder(record, rng=rng())
        except InputError:
            continue
        told += 1
        inside += found.indigo_pct.p5 <= truth <= found.indigo_pct.p95
    assert told > 170
    assert 0.83 <= inside / told <= 0.97


def test_a_colour_beyond_the_assays_is_refused() -> None:
    with pytest.raises(InputError, match=r"lab: L of 45 lies beyond your assays .*; assay this pigment another way"):
        coloured([45.0, 1.0, -9.0])


def test_seven_assays_are_too_few_and_colours_that_tell_nothing_are_said() -> None:
    with pytest.raises(InputError, match=r"known: .* at least 8"):
        coloured([28.0, 1.0, -9.0], many=7)
    dice = np.random.default_rng(4)
    mixed = [one | {"indigo_frac": float(dice.uniform(0.1, 0.5))} for one in known_powders(10)]
    with pytest.raises(ModelError, match="do not tell their indigo better than the mean"):
        coloured([28.0, 1.0, -9.0], known=mixed)


# --- results put together ---------------------------------------------------------------------------------------


def together(*results: tuple[Any, ...]) -> CombineAnswer:
    names = ("method", "indigo_frac", "sd_frac", "at_most")
    made = [dict(zip(names, one, strict=False)) for one in results]
    return combine(read(CombineRecord, {"results": made}), rng=rng())


def test_results_that_agree_are_weighed_by_their_precision() -> None:
    """Own hand, near enough on the plain scale: (0.34 / 0.02^2 + 0.38 / 0.04^2) / (1 / 0.02^2 + 1 / 0.04^2) = 0.348."""
    found = together(("spectrum", 0.34, 0.02), ("dyeing", 0.38, 0.04))
    assert found.indigo_pct is not None
    assert found.indigo_pct.p50 == pytest.approx(34.8, abs=0.3)
    assert found.methods[0].weight_frac == pytest.approx(0.8, abs=0.02)
    width = (found.indigo_pct.p95 - found.indigo_pct.p5) / 3.29
    assert width == pytest.approx(100 / np.sqrt(1 / 0.02**2 + 1 / 0.04**2), rel=0.06)


def test_results_too_far_apart_are_not_put_together() -> None:
    found = together(("spectrum", 0.30, 0.02), ("dyeing", 0.45, 0.03))
    assert (found.agree, found.indigo_pct) == (False, None)
    assert len(found.methods) == 2, "both are shown"
    assert found.largest_z > 2


def test_results_of_one_method_stay_as_doubtful_as_the_surest_of_them() -> None:
    many = together(*[("spectrum", 0.34, 0.02)] * 5)
    one = together(("spectrum", 0.34, 0.02))
    assert many.indigo_pct is not None
    assert one.indigo_pct is not None
    assert many.indigo_pct.p95 == pytest.approx(one.indigo_pct.p95, rel=0.01)


def test_a_bound_counts_only_where_a_result_lies_above_it() -> None:
    low, high = (
        together(("dyeing", 0.34, 0.02), ("ash", 0.8, 0.02, True)),
        together(("dyeing", 0.34, 0.02), ("ash", 0.2, 0.02, True)),
    )
    assert low.indigo_pct is not None
    assert low.methods[1].weight_frac == 0
    assert (high.agree, high.indigo_pct) == (False, None)
    assert "above-bound" in codes(high)
    assert together(("ash", 0.8, 0.02, True)).indigo_pct is None


def test_methods_that_scatter_more_than_they_say_widen_the_band() -> None:
    close = together(("a", 0.34, 0.02), ("b", 0.34, 0.02), ("c", 0.34, 0.02))
    apart = together(("a", 0.31, 0.02), ("b", 0.34, 0.02), ("c", 0.364, 0.02))
    assert close.between_sd == 0
    assert apart.between_sd > 0
    assert apart.indigo_pct is not None
    assert close.indigo_pct is not None
    assert apart.indigo_pct.p95 - apart.indigo_pct.p5 > close.indigo_pct.p95 - close.indigo_pct.p5


def test_more_than_sixty_per_cent_asks_for_the_method() -> None:
    """The best plant indigo of a published comparison held 56 %."""
    assert "check-method" in codes(together(("dyeing", 0.65, 0.03)))
    assert "check-method" not in codes(together(("dyeing", 0.55, 0.03)))
