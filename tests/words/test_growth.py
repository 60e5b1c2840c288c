"""The next cut of a bed, as it is said."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from bluewright.science.base.records import read
from bluewright.science.bed.growth import growth
from bluewright.science.bed.growth_record import GrowthAnswer, GrowthRecord
from bluewright.science.media.weather.record import DayBand
from bluewright.words.growth import days_said, said


@pytest.fixture(scope="module")
def found() -> GrowthAnswer:
    asked = {
        "plant": "woad",
        "began": "2026-04-01",
        "now": "2026-06-01",
        "bed_m2": 10.0,
        "weather": {"latitude_deg": 51.0},
    }
    return growth(read(GrowthRecord, asked), rng=np.random.default_rng(1))


def test_the_day_stands_first_and_then_leaf_blue_and_what_to_take(found: GrowthAnswer) -> None:
    lines = [str(part) for part in said(found).parts]
    assert lines[0].startswith("The next cut is ready on ")
    assert lines[1].startswith("Leaf then: ")
    assert any("never more than 50%" in line for line in lines)
    assert "note each cut" in lines[-1]


def test_a_cut_that_is_ready_is_told_as_such(found: GrowthAnswer) -> None:
    ready = replace(found, ready_now_chance=0.8, ready_on=DayBand(middle=date(2026, 5, 25), early=date(2026, 5, 10)))
    assert said(ready).first.startswith(
        "The next cut is ready now (chance 80%), since Mon 25 May (Sun 10 May to later)"
    )


def test_a_season_that_is_over_promises_neither_leaf_nor_blue(found: GrowthAnswer) -> None:
    over = said(replace(found, in_season_chance=0.02))
    assert over.first == "No further cut is likely before this season ends (chance 2%)."
    assert not any("Leaf then" in str(part) for part in over.parts)


def test_days_beyond_those_looked_at_are_later() -> None:
    assert days_said(DayBand(early=date(2026, 8, 4))) == "later (Tue 4 Aug to later)"
