"""A spectrum as people have it: its colour with its noise, and each way in which it can be wrong."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.colour.reflectance import reflectance
from bluewright.science.colour.reflectance_record import ReflectanceAnswer, ReflectanceRecord

NM = [float(nm) for nm in range(400, 701, 20)]


def points(factors: list[float] | float, nm: list[float] = NM) -> list[dict[str, float]]:
    each = factors if isinstance(factors, list) else [factors] * len(nm)
    return [{"wavelength_nm": at, "reflectance_factor": one} for at, one in zip(nm, each, strict=True)]


def answer(given: list[dict[str, float]], **fields: Any) -> ReflectanceAnswer:
    return reflectance(read(ReflectanceRecord, {"points": given} | fields), rng=np.random.default_rng(1))


def test_a_flat_grey_has_the_lab_and_depth_of_its_reflectance() -> None:
    """Own hand: L* = 116 * 0.1^(1/3) - 16 = 37.84; K/S = 0.9^2/0.2 = 4.05."""
    found = answer(points(0.1))
    assert found.lab == pytest.approx((37.84, 0.0, 0.0), abs=0.02)
    assert found.k_over_s.p50 == pytest.approx(4.05, rel=0.01)
    assert found.red_k_over_s.p50 == pytest.approx(4.05, rel=0.01)
    assert found.hue == "grey"


def test_the_spread_of_lightness_is_that_of_the_instruments_white() -> None:
    """Own hand: without noise L* moves by 116/3 * 0.1^(1/3) * 0.01 = 0.18 for one per cent of white."""
    assert answer(points(0.1), noise_sd=0.0).lab_sd[0] == pytest.approx(0.18, rel=0.1)


def test_the_ground_is_taken_off_and_white_gets_its_whiteness() -> None:
    """Own hand: 4.05 less (1 - 0.5)^2/1 = 0.25 leaves 3.80; a flat 0.9 has Y 90: W = 90, T = 0."""
    dyed = answer(points(0.1), ground=points(0.5))
    assert dyed.dye_k_over_s is not None and dyed.dye_k_over_s.p50 == pytest.approx(3.80, rel=0.01)
    assert dyed.whiteness is None
    white = answer(points(0.9))
    assert white.whiteness is not None and white.tint is not None
    assert white.whiteness.p50 == pytest.approx(90.0, rel=0.01)
    assert white.tint.p50 == pytest.approx(0.0, abs=0.3)


def test_what_a_surface_hides_and_what_glows_is_said() -> None:
    def codes(*args: Any) -> set[str]:
        return {caution.code for caution in answer(*args).cautions}

    assert codes(points(0.02)) == {"depth-hidden"}
    assert codes(points([1.1, 1.05, *[0.9] * 14])) == {"brightened"}
    assert "reads-nothing" in codes(points([0.2] * 15 + [0.0]))
    assert codes(points(0.2)) == set()


@pytest.mark.parametrize(
    ("given", "message"),
    [
        (points(45.0), r"reflectance_factor: 45 at 400 nm is more than white sends back; .* divide per cent by 100"),
        (points([0.1, -0.02, *[0.1] * 14]), r"points\[1\]\.reflectance_factor: -0.02 at 420 nm is less than nothing"),
        (points(0.1, NM[::-1]), r"points\[1\]\.wavelength_nm: 680 nm stands after 700 nm; .* short to long"),
        (points(0.1, [400.0, *NM[:-1]]), r"points\[1\]\.wavelength_nm: 400 nm stands twice"),
        (points(0.1, [1e7 / nm for nm in reversed(NM)]), r"points\[0\]\.wavelength_nm: .* they are in 1/cm, it seems"),
        (points(0.1, [*NM[:-1], 14285.7]), r"points\[15\]\.wavelength_nm: 14285.7 .* some are in 1/cm"),
        (points(0.1, [nm / 1000 for nm in NM]), r"points\[0\]\.wavelength_nm: 0.4 .* micrometres"),
        (points(0.1, [nm + 40 for nm in NM]), "points: the spectrum runs from 440 to 740 nm; .* at least 400 to 700"),
        (points([0.1, 0.1, 0.1], [390.0, 550.0, 710.0]), r"nothing was read between 390 and 550 nm"),
    ],
)
def test_what_is_no_spectrum_of_reflectance_is_refused_by_name(given: list[dict[str, float]], message: str) -> None:
    with pytest.raises(InputError, match=message):
        answer(given)
