"""Colours compared: spreads carried to words, and what is refused."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.colour.compare import compare
from bluewright.science.colour.compare_record import CompareAnswer, CompareRecord
from bluewright.science.colour.differences import cie76

KEPT, PALER = [34.2, -1.6, -23.1], [37.9, -4.4, -20.8]


def answer(*labs: list[float], **fields: Any) -> CompareAnswer:
    given = {"colours": [{"lab": lab} for lab in labs]} | fields
    return compare(read(CompareRecord, given), rng=np.random.default_rng(1))


def codes(found: CompareAnswer) -> set[str]:
    return {caution.code for caution in found.cautions}


def test_a_plain_difference_is_told_and_a_small_one_only_by_those_who_share_a_photo() -> None:
    near = [KEPT[0] + 1.5, *KEPT[1:]]
    assert answer(KEPT, PALER).against[0].told_apart
    told = {taken: answer(KEPT, near, taken=taken).against[0].told_apart for taken in ("same_photo", "same_card")}
    assert told == {"same_photo": True, "same_card": False}


def test_two_readings_of_one_cloth_are_told_apart_one_time_in_twenty() -> None:
    """By definition of the 95 % point: readings scatter by their own spread, and the test must not cry wolf."""
    rng, sd, false = np.random.default_rng(11), np.array([0.6, 0.4, 0.5]), 0
    for _ in range(400):
        one, two = ((np.array(KEPT) + sd * rng.standard_normal(3)).tolist() for _ in range(2))
        colours = [{"lab": lab, "lab_sd": sd.tolist()} for lab in (one, two)]
        false += compare(read(CompareRecord, {"colours": colours}), rng=rng).against[0].told_apart
    assert 8 <= false <= 34, "20 expected, within three standard deviations"


def test_usual_spreads_make_equal_colours_differ_by_what_they_are_said_to() -> None:
    """Own hand: six normal errors of s have a root mean square of s * sqrt(6): 1.5 for two photos of one card."""
    from bluewright.science.colour.compare import spread_of
    from bluewright.science.colour.compare_record import Colour

    spread = spread_of(Colour(lab=(34.2, -1.6, -23.1)), "same_card")
    draws = np.array(KEPT) + spread * np.random.default_rng(2).standard_normal((2, 40_000, 3))
    assert float(np.sqrt(np.mean(cie76(draws[0], draws[1]) ** 2))) == pytest.approx(1.5, rel=0.02)


def test_depth_is_of_the_dye_alone_where_the_ground_is_given() -> None:
    plain, dye = answer(KEPT, PALER), answer(KEPT, PALER, ground=[80.0, 2.0, 14.0])
    assert dye.colours[0].k_over_s.p50 < plain.colours[0].k_over_s.p50
    assert plain.against[0].depth_factor is not None and plain.against[0].depth_factor.p50 < 1
    assert answer([98.0, 0.0, 0.0], PALER).against[0].depth_factor is None, "nothing to be so many times as deep as"


def test_staining_is_graded_on_white_only() -> None:
    assert answer([93.0, 0.0, 3.0], [88.0, -3.0, -4.0]).against[0].stain_grade is not None
    assert answer(KEPT, PALER).against[0].stain_grade is None


def test_other_observers_other_lights_and_colours_that_cannot_be() -> None:
    assert "other-observer" in codes(answer(KEPT, PALER, white="d65_10"))
    assert "outside-range" in codes(answer(KEPT, [50.0, 120.0, -120.0]))
    assert "nothing-shared" in codes(answer(KEPT, PALER, taken="apart"))
    assert codes(answer([50.0, -4.0, -20.0], [52.0, -4.0, -20.0])) == set()
    with pytest.raises(InputError, match=r"white: Lab under D50 .* set the instrument to D65"):
        answer(KEPT, PALER, white="d50_2")


def test_a_single_colour_is_nothing_to_compare() -> None:
    with pytest.raises(InputError, match="colours"):
        answer(KEPT)
