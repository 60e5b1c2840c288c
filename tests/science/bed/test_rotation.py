"""Rotation: rest from the cabbage family."""

import numpy as np
import pytest

from bluewright.science.base.records import read
from bluewright.science.bed.rotation import HALF_LIFE_D, rotation, spores_left_frac
from bluewright.science.bed.rotation_record import RotationAnswer, RotationRecord
from tests.published import Row, rows


def answer(*grown: tuple[int, str, bool], plant: str = "woad") -> RotationAnswer:
    before = [{"year": year, "family": family, "clubroot": sick} for year, family, sick in grown]
    record = read(RotationRecord, {"plant": plant, "sow_year": 2027, "grown": before})
    return rotation(record, rng=np.random.default_rng(1))


@pytest.mark.parametrize("row", rows("clubroot"), ids=lambda r: f"half-life {r.given['half_life_years']:g} years")
def test_spores_die_by_their_published_half_life(row: Row) -> None:
    half_life_d = np.array([365.25 * row.given["half_life_years"]])
    assert row.agrees(float(spores_left_frac(365.25 * row.given["years"], half_life_d=half_life_d)[0]))
    assert HALF_LIFE_D.from_z(np.array([-1.65]))[0] <= half_life_d[0] <= HALF_LIFE_D.from_z(np.array([1.66]))[0]


@pytest.mark.parametrize(
    ("grown", "advice", "wait"),
    [
        ((), "fits", 0), (((2023, "cabbage", False),), "fits", 0), (((2024, "cabbage", False),), "wait", 1),
        (((2022, "cabbage", True),), "not_here", 2), (((2020, "cabbage", True),), "fits", 0),
        (((2021, "cabbage", True), (2026, "other", False)), "not_here", 1),
        (((2018, "cabbage", True), (2026, "cabbage", False)), "wait", 3), (((2027, "cabbage", False),), "wait", 4),
    ],
)  # fmt: skip
def test_four_years_after_the_family_and_seven_after_clubroot(
    grown: tuple[tuple[int, str, bool], ...], advice: str, wait: int
) -> None:
    found = answer(*grown)
    assert (found.advice, found.wait_years) == (advice, wait)


def test_the_others_do_not_share_it() -> None:
    found = answer((2026, "cabbage", True), plant="japanese_indigo")
    assert (found.advice, found.wait_years, found.spores_left_frac) == ("fits", 0, None)
    assert [one.code for one in found.cautions] == ["other-family"]


def test_before_woad_is_sown_the_law_comes_first() -> None:
    assert [one.code for one in answer().cautions] == ["woad-spreads", "keep-seed-in"]
