"""The plan of a season: what its days rest on, and what bends it."""

from __future__ import annotations

import json
from datetime import date, timedelta
from functools import cache
from typing import Any

import numpy as np
import pytest

from bluewright.cli.record_command import example_text
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.bed.growth import growth
from bluewright.science.bed.growth_record import GrowthRecord
from bluewright.science.media.basket import Plant
from bluewright.science.pigment.priors import KEPT
from bluewright.science.season.answer import SeasonAnswer
from bluewright.science.season.call import season_plan
from bluewright.science.season.problem import season_set
from bluewright.science.season.record import BestAfter, SeasonRecord
from bluewright.science.season.steeps import HOURS, MOST_D, TEMPS_C, Steeping, as_seen, table
from bluewright.science.thread import strain_call
from bluewright.words import season as season_words
from bluewright.words.said import text
from tests.published import rows

NORMALS = json.loads(example_text("plan-season"))["weather"]["normals"]
BED = {"id": "Wall bed", "plant": "woad", "area_m2": 12.0, "began": "2026-04-05"}
SMALL: dict[str, Any] = {
    "now": "2026-06-20", "last": "2026-10-31", "beds": [BED], "tubs": [{"volume_l": 60.0, "count": 2}],
    "free_h": [2.0, 2.0, 2.0, 2.0, 2.0, 6.0, 6.0], "weather": {"latitude_deg": 52.0, "normals": NORMALS},
    "good_frac": 0.15, "limit_s": 0.6,
}  # fmt: skip


LARGE = [{"volume_l": 500.0, "count": 2}]


@cache
def usual() -> SeasonAnswer:
    return season_plan(read(SeasonRecord, SMALL), rng=np.random.default_rng(1))


def rng() -> np.random.Generator:
    return np.random.default_rng(1)


def planned(**other: Any) -> SeasonAnswer:
    if not other:
        return usual()
    return season_plan(read(SeasonRecord, SMALL | other), rng=np.random.default_rng(1))


def test_a_bed_that_nothing_hinders_is_cut_about_when_growth_calls_it_ready() -> None:
    """The forecast of the bed alone, by `bed growth`: the first cut lies between its early and past days."""
    told = growth(
        read(GrowthRecord, {"plant": "woad", "began": "2026-04-05", "now": "2026-06-20", "weather": SMALL["weather"]}),
        rng=np.random.default_rng(1),
    )
    first = planned().cuts[0]
    assert told.ready_on.early is not None
    assert told.past_on.middle is not None
    assert told.ready_on.early - timedelta(days=7) <= first.on <= told.past_on.middle
    assert first.reason == "best"


def test_nothing_happens_on_days_away_or_without_hours() -> None:
    away = {"first": "2026-07-01", "last": "2026-07-31"}
    found = planned(away=[away], free_h=[0.0, 0.0, 3.0, 0.0, 0.0, 6.0, 6.0])
    days = [cut.on for cut in found.cuts] + [day for one in found.steeps for day in (one.fill_on, one.strain_on)]
    assert days
    assert all(day.weekday() in {2, 5, 6} and not date(2026, 7, 1) <= day <= date(2026, 7, 31) for day in days)


def test_tubs_steep_longer_in_autumn_than_in_summer() -> None:
    found = planned()
    long_d = [(one.strain_on - one.fill_on).days for one in found.steeps]
    assert long_d[-1] > long_d[0]


@pytest.mark.parametrize("plant", ["woad", "japanese_indigo", "indigofera"])
def test_warmer_tubs_are_done_sooner(plant: Any) -> None:
    middles = np.median(table(plant).best_h, axis=1)
    assert np.all(np.diff(middles) < 0)


def test_the_table_of_steeps_is_that_of_the_strain_call() -> None:
    """The strain call of a tub at 20 C throughout waits about as long as the table's members at 20 C."""
    from bluewright.science.steep.record import SteepRecord

    began = "2026-07-03T12:00+00:00"
    temps = [
        {
            "time": f"2026-07-{3 + k // 4:02d}T{6 * (k % 4):02d}:00+00:00",
            "where": "tub",
            "temp_c": 20.0,
            "forecast": True,
        }
        for k in range(3, 32)
    ]
    call = strain_call(
        read(
            SteepRecord,
            {
                "plant": "woad",
                "method": "cold",
                "started": began,
                "now": began,
                "leaf_kg": 10.0,
                "water_l": 100.0,
                "temps": temps,
            },
        ),
        rng=np.random.default_rng(1),
    )
    waits_h = (call.strain_at - call.inputs.started).total_seconds() / 3600
    low, high = np.quantile(table("woad").best_h[TEMPS_C.index(20.0)], [0.25, 0.75])
    assert low <= waits_h <= high


def test_the_table_keeps_what_published_steeps_ask_for() -> None:
    """What growers and laboratories name as done (tests/published/steeping-times.toml): of whole leaf, the middle
    member keeps there what the row asks for, less a tenth for straight lines between temperatures.
    """
    plants: dict[float, Plant] = {1.0: "woad", 2.0: "japanese_indigo", 3.0: "indigofera"}
    tried = 0
    for row in rows("steeping-times"):
        given = row.given
        if given["case"] not in plants or not 10 <= given["temp_c"] <= 35:
            continue
        found = table(plants[given["case"]])
        kept = np.median(found.kept_frac[:, np.argmin(np.abs(HOURS - row.value))], axis=1)
        assert np.interp(given["temp_c"], TEMPS_C, kept) >= given["at_least_frac"] - 0.1, row.what
        tried += 1
    assert tried >= 3


def test_a_date_that_is_wanted_brings_a_cut_forward() -> None:
    late = planned(wants=[{"on": "2026-10-31", "blue_g": 5.0}])
    soon = planned(wants=[{"on": "2026-07-18", "blue_g": 5.0}])
    assert soon.cuts[0].on < late.cuts[0].on
    assert soon.wants[0].met_chance > 0


def test_with_a_single_tub_beds_wait_for_each_other_and_the_plan_says_so() -> None:
    beds = [BED | {"id": name} for name in ("one", "two", "three")]
    found = planned(beds=beds, tubs=[{"volume_l": 60.0, "count": 1}])
    assert found.plan_g < found.alone_g
    assert any(cut.reason == "tubs" for cut in found.cuts)
    tub = next(limit for limit in found.limits if limit.limit == "tub")
    assert tub.more_g > 0
    plenty = planned(beds=beds, tubs=[{"volume_l": 60.0, "count": 9}])
    assert plenty.plan_g > found.plan_g


def test_a_tub_that_steeps_is_strained_and_its_blue_counts() -> None:
    running = [{"volume_l": 60.0, "plant": "woad", "leaf_kg": 5.0, "filled": "2026-06-18"}]
    found = planned(running=running)
    first = found.steeps[0]
    assert first.fill_on == date(2026, 6, 18)
    assert date(2026, 6, 20) <= first.strain_on <= date(2026, 6, 24)
    assert found.blue_g.p50 > planned().blue_g.p50


def seen_tub(**best: float) -> dict[str, Any]:
    found = {"id": "Tub by the wall", "volume_l": 60.0, "plant": "woad", "leaf_kg": 5.0, "filled": "2026-06-19"}
    return found | ({"best": best} if best else {}) | {"planned": "2026-06-30"}


def test_what_was_seen_of_a_tub_moves_its_straining_and_the_plan_says_so() -> None:
    quick, slow = (
        planned(running=[seen_tub(**best)])
        for best in ({"p5_d": 1.2, "p50_d": 1.5, "p95_d": 1.9}, {"p5_d": 7.0, "p50_d": 8.0, "p95_d": 9.5})
    )
    assert quick.steeps[0].strain_on < slow.steeps[0].strain_on
    assert (quick.steeps[0].strain_on - date(2026, 6, 19)).days <= 3
    assert 6 <= (slow.steeps[0].strain_on - date(2026, 6, 19)).days <= 10
    assert [(one.tub, one.was, one.now) for one in quick.moved] == [
        ("Tub by the wall", date(2026, 6, 30), quick.steeps[0].strain_on)
    ]
    said = season_words.said(quick)
    assert "Straining of Tub by the wall moved from Tue 30 Jun" in text(said)
    assert "the looks at it put its best there" in text(said)


def test_a_course_that_was_seen_is_stretched_to_it_draw_by_draw() -> None:
    """By hand: the 5, 50 and 95 % points of its best are those given; a draw twice as slow has at twice the days what
    it had, and what is not seen stays as it was."""
    day = np.arange(MOST_D + 1, dtype=float)
    best_d = np.exp(np.random.default_rng(2).normal(np.log(3.0), 0.3, 300))
    kept = np.exp(-0.5 * (np.log(np.maximum(day, 0.1))[:, None] - np.log(best_d)) ** 2)
    season = Steeping(kept_frac=kept[None], best_d=best_d[None])
    found = as_seen(season, BestAfter(p5_d=3.0, p50_d=4.0, p95_d=6.0))
    assert np.quantile(found.best_d[0], [0.05, 0.5, 0.95]) == pytest.approx([3.0, 4.0, 6.0], rel=0.02)
    assert np.array_equal(np.argsort(found.best_d[0]), np.argsort(best_d))
    one = int(np.argmin(np.abs(found.best_d[0] - 4.0)))
    own_d = 8.0 * best_d[one] / found.best_d[0, one]
    assert found.kept_frac[0, 8, one] == pytest.approx(np.interp(own_d, day, kept[:, one]))
    assert np.array_equal(as_seen(season, None).kept_frac, season.kept_frac)


def test_grams_of_a_tub_are_those_of_its_strain_call_less_what_washing_and_drying_lose() -> None:
    """By hand: a call without any doubt of its grams gives 4 g, of which the shares kept are drawn, on a day that is
    the best of all draws; the quantiles of a call in doubt are those given."""
    best_g = {"p5_g": 4.0, "p50_g": 4.0, "p95_g": 4.0}
    sure = season_set(read(SeasonRecord, SMALL | {"running": [seen_tub() | {"best_g": best_g}]}), rng=rng())
    share = sure.running_g[0] / sure.running[0].best_frac[0] / 4.0
    assert np.median(share) == pytest.approx(KEPT.centre, abs=0.02)
    doubt = season_set(
        read(SeasonRecord, SMALL | {"running": [seen_tub() | {"best_g": best_g | {"p95_g": 8.0}}]}), rng=rng()
    )
    assert doubt.problem.running[0].blue_g > sure.problem.running[0].blue_g


def test_what_the_memory_tells_of_a_bed_has_the_course_of_the_season_put_to_it() -> None:
    """By hand: woad is best on day 190, 19 days from 20 June, and w is 95 days in the middle. Leaf of no day in
    particular, 45 days from it, holds 1 / sqrt(1 + (45 / 95)^2) of its best: then 2 g/kg are 2.21 g/kg on that day,
    and on 31 October, 114 days on, exp(-(114 / 95)^2 / 2) of it: 1.08 g/kg."""
    blue = {"middle_g_per_kg": 2.0, "garden_log_sd": 0.0, "batch_log_sd": 0.0, "own_frac": 0.5}
    (bed,) = season_set(read(SeasonRecord, SMALL | {"beds": [BED | {"blue": blue}]}), rng=rng()).beds
    assert bed.learned
    assert np.median(bed.blue_g_per_kg[:, 19]) == pytest.approx(2.21, abs=0.03)
    assert np.median(bed.blue_g_per_kg[:, 133]) == pytest.approx(1.08, abs=0.08)


def test_keeping_tubs_longer_makes_clashes_rarer() -> None:
    beds = [BED | {"id": name} for name in ("one", "two", "three", "four")]
    tight = planned(beds=beds, tubs=[{"volume_l": 60.0, "count": 1}])
    slack = planned(beds=beds, tubs=[{"volume_l": 60.0, "count": 1}], clash_chance=0.05)
    assert slack.worst_clash_chance <= 0.1
    assert slack.plan_g <= tight.plan_g * 1.03


def test_planned_again_nothing_of_the_week_moves_and_changes_are_told() -> None:
    before = planned()
    first = before.cuts[0].on
    now = (first - timedelta(days=3)).isoformat()
    former = [{"bed": cut.bed, "on": cut.on.isoformat()} for cut in before.cuts]
    again = planned(now=now, former=former)
    assert again.cuts[0].on == first
    gone = planned(now=now, former=former, away=[{"first": first.isoformat(), "last": first.isoformat()}])
    assert gone.changes[0].was == first
    assert gone.changes[0].now not in {None, first}


def test_a_bed_that_is_not_ready_in_the_season_is_named() -> None:
    late = {"id": "Late bed", "plant": "japanese_indigo", "area_m2": 5.0, "start": "sown", "began": "2026-08-20"}
    assert planned(beds=[BED, late]).uncut == ("Late bed",)


def test_with_no_working_day_left_nothing_is_planned_and_nothing_fails() -> None:
    found = planned(now="2026-10-26", last="2026-10-30", free_h=[0.0, 0.0, 0.0, 0.0, 0.0, 6.0, 6.0])
    assert found.cuts == ()
    assert found.blue_g.p95 == 0.0


@pytest.mark.parametrize(
    ("where", "other"),
    [
        ("free_h", {"free_h": [0.0] * 7}),
        ("last", {"last": "2026-06-20"}),
        ("beds[1].id", {"beds": [BED, BED]}),
        ("beds[0].began", {"beds": [{"id": "a", "plant": "woad", "area_m2": 3.0}]}),
        (
            "running[0].best_g.p50_g",
            {
                "running": [
                    {
                        "volume_l": 60.0,
                        "plant": "woad",
                        "leaf_kg": 1.0,
                        "filled": "2026-06-19",
                        "best_g": {"p5_g": 3.0, "p50_g": 2.0, "p95_g": 4.0},
                    }
                ]
            },
        ),
        (
            "running[0].volume_l",
            {"running": [{"volume_l": 9.0, "plant": "woad", "leaf_kg": 1.0, "filled": "2026-06-19"}]},
        ),
        ("wants[0].on", {"wants": [{"on": "2026-06-01", "blue_g": 1.0}]}),
        ("away[0].last", {"away": [{"first": "2026-07-02", "last": "2026-07-01"}]}),
    ],
)
def test_what_cannot_be_is_refused_in_words(where: str, other: dict[str, Any]) -> None:
    with pytest.raises(InputError) as refused:
        read(SeasonRecord, SMALL | other)
    assert refused.value.where == where


def test_cuts_carry_what_to_mind_of_skin_sun_and_weight_and_the_heaviest_day_its_figures() -> None:
    codes = [one.code for one in planned().cautions]
    assert codes[:3] == ["leaf-skin", "cut-sun", "cut-lift"]
    large = planned(beds=[BED | {"area_m2": 90.0}], tubs=LARGE)
    heavy = next(one for one in large.cautions if one.code == "heavy-day")
    by_day: dict[date, float] = {}
    for cut in large.cuts:
        by_day[cut.on] = by_day.get(cut.on, 0.0) + cut.taken_kg
    on = max(by_day, key=lambda day: by_day[day])
    assert on.isoformat() in heavy.text
    assert f"{by_day[on]:.0f} kg" in heavy.text


def test_the_law_is_named_where_woad_is_still_to_be_sown_and_only_there() -> None:
    def codes(**bed: Any) -> list[str]:
        return [one.code for one in planned(beds=[BED | bed]).cautions]

    assert "woad-spreads" not in [one.code for one in planned().cautions]
    assert "woad-spreads" in codes(began="2026-06-25")
    assert "woad-spreads" not in codes(began="2026-06-25", plant="japanese_indigo", start="planted")


def test_the_ranges_are_those_of_the_draws_and_the_middle_is_within_them() -> None:
    found = planned()
    assert found.blue_g.p5 < found.blue_g.p50 < found.blue_g.p95
    assert found.gap_frac <= 0.15
    assert sum(cut.blue_g.p50 for cut in found.cuts) == pytest.approx(found.blue_g.p50, rel=0.4)
