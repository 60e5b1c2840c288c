"""What a jar says: held against spectra of known liquors, whatever the camera's exposure."""

from typing import Any

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.colour.spaces import lab_of_linear
from bluewright.science.photo.jar import jar_look
from bluewright.science.photo.jar_record import JarAnswer, JarFound, JarRecord
from tests.science.photo.spectra import (
    D65,
    OBSERVER,
    Spectrum,
    band,
    brown,
    haze,
    indigo,
    linear,
    through,
    yellow,
)

WATER = [0.8, 0.8, 0.8]
ALKALINE = brown() + yellow()


def seen(light: Spectrum, after_min: float = 0.0, **more: Any) -> dict[str, Any]:
    jar = [max(part, 0.0) for part in through(light)]
    return {"after_min": after_min, "path_cm": 6.0, "jar": jar, "water": WATER} | more


def answered(*looks: dict[str, Any]) -> JarAnswer:
    record = read(JarRecord, {"colours": "linear", "looks": looks})
    return jar_look(record, rng=np.random.default_rng(1))


def look(light: Spectrum) -> JarFound:
    return answered(seen(light)).looks[0]


def from_the_side(light: Spectrum) -> list[float]:
    return [0.2 * part for part in linear(light)]


def test_daylight_and_observer_of_this_bench_have_their_published_white() -> None:
    """ISO/CIE 11664-2: D65 at x = 0.3127, y = 0.3290 for the 2 degree observer."""
    white = D65 @ OBSERVER
    assert white[:2] / white.sum() == pytest.approx([0.3127, 0.3290], abs=2e-4)


def test_absorbance_is_the_logarithm_of_light_lost() -> None:
    """Own hand: light 0.08 over 0.8 is a tenth, A = 1; 0.4 over 0.8 a half, 0.301; D = 0.699, per cm of a 6 cm jar
    at one part in five 0.699 * 5 / 6 = 0.583."""
    found = answered(
        {"after_min": 0, "path_cm": 6.0, "dilution_factor": 5.0, "jar": [0.08, 0.4, 0.4], "water": WATER}
    ).looks[0]
    assert found.red and found.green and found.dye_index and found.dye_index_per_cm
    assert found.red.p50 == pytest.approx(1.0, abs=0.01)
    assert found.green.p50 == pytest.approx(0.301, abs=0.01)
    assert found.dye_index.p50 == pytest.approx(0.699, abs=0.01)
    assert found.dye_index_per_cm.p50 == pytest.approx(0.583, abs=0.01)


@pytest.mark.parametrize("power", [0.0, 1.0, 2.0, 3.0, 4.0])
@pytest.mark.parametrize("amount", [0.1, 0.4])
def test_no_haze_brings_the_dye_index_above_nought(power: float, amount: float) -> None:
    """Scatter falls with the wavelength (Rayleigh: to the fourth power) or is grey: red is never lost beyond green."""
    found = look(haze(power, amount)).dye_index
    assert found is not None
    assert found.p50 <= 0.002


@pytest.mark.parametrize("light", [brown(), brown(2.0), ALKALINE, ALKALINE + haze(0), ALKALINE + haze(4)])
def test_brown_and_yellow_liquor_has_none_either(light: Spectrum) -> None:
    found = answered(seen(light))
    assert found.looks[0].dye_index is not None
    assert found.looks[0].dye_index.p95 < 0
    assert found.verdict == "no_blue"
    assert found.looks[0].hue_deg is not None
    assert found.looks[0].hue_deg.p50 < 96


def test_indigo_raises_the_dye_index_and_the_hue_step_by_step() -> None:
    ladder = [look(ALKALINE + indigo(a660)) for a660 in (0.0, 0.1, 0.2, 0.4)]
    dyes = [found.dye_index.p50 for found in ladder if found.dye_index]
    hues = [found.hue_deg.p50 for found in ladder if found.hue_deg]
    assert len(dyes) == len(hues) == 4
    assert dyes == sorted(dyes)
    assert hues == sorted(hues)
    assert dyes[1] < 0 < dyes[2]
    assert dyes[1] - dyes[0] > 0.05


def test_the_exposure_of_the_photo_and_the_tint_of_its_light_cancel() -> None:
    """Own hand: both jars under a light of (0.9, 0.8, 0.6) and at half the exposure: ratios stay."""
    plain = through(brown() + indigo(0.3))
    tinted = [0.5 * t * part for t, part in zip((0.9, 0.8, 0.6), plain, strict=True)]
    water = [0.5 * t * 0.8 for t in (0.9, 0.8, 0.6)]
    one = answered({"after_min": 0, "path_cm": 6.0, "jar": plain, "water": WATER}).looks[0]
    other = answered({"after_min": 0, "path_cm": 6.0, "jar": tinted, "water": water}).looks[0]
    assert one.dye_index and other.dye_index
    assert one.dye_index.p50 == pytest.approx(other.dye_index.p50, abs=0.02)


def test_the_spread_holds_what_two_jars_do_to_each_other() -> None:
    """Own hand: lights that differ by 5 %, alike in all channels, move A by 0.021 (one spread), D not at all; tints of
    2 % each way move D by 0.43 * 0.02 * sqrt(2) = 0.012, its nine-tenths range by 3.3 times that, 0.040."""
    found = answered({"after_min": 0, "path_cm": 6.0, "jar": [0.4, 0.4, 0.4], "water": WATER}).looks[0]
    assert found.red and found.dye_index
    assert found.dye_index.p95 - found.dye_index.p5 == pytest.approx(0.040, abs=0.006)
    assert found.red.p95 - found.red.p5 == pytest.approx(3.3 * np.hypot(0.0217, 0.0087), abs=0.012)


def test_too_little_light_is_not_counted_and_says_what_would_help() -> None:
    found = answered(seen(ALKALINE))
    assert found.looks[0].too_dark == ("blue",)
    assert found.looks[0].blue is found.looks[0].yellow_index is None
    assert "one part to four of water" in next(c.text for c in found.cautions if c.code == "too-dark")


def test_red_gone_while_green_comes_through_is_blue_dye_all_the_same() -> None:
    """Own hand: red below 0.02 of 0.8 is A_R of 1.6 or more; green at 0.3 is 0.43: D is at least 1.2."""
    found = answered({"after_min": 5, "path_cm": 6.0, "jar": [0.01, 0.3, 0.1], "water": WATER})
    assert found.looks[0].dye_index is None
    assert found.verdict == "blue_dye"
    dark = answered({"after_min": 5, "path_cm": 6.0, "jar": [0.01, 0.01, 0.01], "water": WATER})
    assert dark.verdict == "too_dark"


def test_blue_from_the_side_alone_is_haze() -> None:
    """A dye-free fine colloid (scatter to the fourth power) is brown before white and blue before black."""
    fine = haze(4.0)
    scattered = 1.0 - 10.0**-fine
    found = answered(seen(fine, over_black=from_the_side(scattered)))
    assert found.looks[0].over_black_hue_deg is not None
    assert 220 < found.looks[0].over_black_hue_deg < 290
    assert found.verdict == "haze"
    assert any("not evidence of blue" in caution.text for caution in found.cautions)


def test_blue_from_the_side_with_dye_in_what_comes_through_is_indigo() -> None:
    turbid = haze(0.5, 0.1) + indigo(0.4)
    scattered = (1.0 - 10.0 ** -haze(0.5, 0.1)) * 10.0 ** -indigo(0.4)
    found = answered(seen(turbid, over_black=from_the_side(scattered)))
    assert found.verdict == "blue_dye"


def test_green_matter_lifts_the_index_but_not_above_nought() -> None:
    """Chlorophyll takes light at 675 nm, where red is read, and a little elsewhere: less than the tail of brown."""
    green = band(675.0, 12.0, 0.3) + band(430.0, 20.0, 0.5)
    found, plain = look(ALKALINE + green).dye_index, look(ALKALINE).dye_index
    assert found and plain
    assert plain.p50 < found.p50 < 0


def forming(minutes: list[float], *, over_min: float = 6.0, top: float = 0.3) -> JarAnswer:
    """Yellow from the dose on, indigo forming as 1 - exp(-t / 6 min)."""
    first = [seen(brown(0.6))] if minutes[0] == 0 else []
    looks = [seen(brown(0.6) + yellow(0.4) + indigo(top * (1 - np.exp(-t / over_min))), t) for t in minutes if t > 0]
    return answered(*first, *looks)


def test_a_series_tells_the_turn_the_pace_and_the_rest() -> None:
    early, late = forming([0, 1, 3, 6]), forming([0, 1, 3, 6, 12, 20, 30, 45])
    assert early.turn_to_yellow and early.turn_to_yellow.p5 > 0.2
    assert early.course == "rising"
    assert early.dye_rise_per_h and early.dye_rise_per_h.p5 > 0
    assert late.course == "level"
    assert late.verdict == "blue_dye"
    assert late.dye_rise and early.dye_rise and late.dye_rise.p50 > early.dye_rise.p50


def test_two_looks_of_one_minute_tell_nothing_of_rest() -> None:
    """A step that lasts less than a fifth of the time since the dose is small whatever happens."""
    assert forming([0, 10, 20]).course != "level"
    assert answered(*(seen(brown() + indigo(0.2), t) for t in (20.0, 20.5, 21.0))).course == "unknown"


def test_what_settles_is_turbidity() -> None:
    """Own hand: 0.5 of grey haze over 0.1 of brown, and none of it after standing: five sixths in green."""
    pure = brown(0.8)
    shaken = answered(seen(pure + haze(0.0, 0.5), 5.0, stood="shaken"), seen(pure, 12.0))
    green = answered(seen(pure)).looks[0].green
    assert green and shaken.turbid_frac
    assert shaken.turbid_frac.p50 == pytest.approx(0.5 / (0.5 + green.p50), abs=0.03)
    assert answered(seen(pure, 12.0)).turbid_frac is None


@pytest.mark.parametrize(
    ("wrong", "where"),
    [
        ({"jar": [64.0, 3.0, 20.0]}, "looks[0].jar"),
        ({"water": [1.2, 0.8, 0.8]}, "looks[0].water"),
        ({"path_cm": 0.0}, "looks[0].path_cm"),
        ({"dilution_factor": 0.2}, "looks[0].dilution_factor"),
    ],
)
def test_what_cannot_be_is_refused_where_it_stands(wrong: dict[str, Any], where: str) -> None:
    with pytest.raises(InputError) as refused:
        answered(seen(brown()) | wrong)
    assert refused.value.where == where


def test_looks_stand_in_order() -> None:
    with pytest.raises(InputError, match="earlier than the one before"):
        answered(seen(brown(), 5.0), seen(brown(), 1.0))


def test_lab_and_linear_say_the_same() -> None:
    linear_said = seen(brown(0.5) + indigo(0.2))
    lab_said = linear_said | {
        name: [float(part) for part in lab_of_linear(linear_said[name])] for name in ("jar", "water")
    }
    one = answered(linear_said).looks[0].dye_index
    other = jar_look(read(JarRecord, {"looks": [lab_said]}), rng=np.random.default_rng(1)).looks[0].dye_index
    assert one and other
    assert one.p50 == pytest.approx(other.p50, abs=1e-6)
