"""When to water and how much: the bucket over a season, with its gaps, its handfuls and its forecast."""

from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest

from bluewright.science.base.errors import InputError, ModelError
from bluewright.science.base.records import read
from bluewright.science.media.weather import evapotranspiration as fao
from bluewright.science.media.weather import sun
from bluewright.science.media.weather.filling import span
from bluewright.science.watering.call import bed_water
from bluewright.science.watering.record import BedWaterAnswer, BedWaterRecord

FIRST, NOW = date(2026, 6, 1), date(2026, 6, 30)


def weather(*, until: date = NOW, rain_mm: float = 0.0, **first: Any) -> dict[str, Any]:
    """June days of 12 to 22 C at 52 N, all alike, up to a day."""
    row = {"min_c": 12.0, "max_c": 22.0, "rain_mm": rain_mm} | first
    return {"latitude_deg": 52.0, "days": [{"day": day.isoformat()} | row for day in span(FIRST, until)]}


def answer(**fields: Any) -> BedWaterAnswer:
    base: dict[str, Any] = {
        "area_m2": 10.0, "soil": "loam", "started": FIRST.isoformat(), "start": "full", "now": NOW.isoformat(),
        "stages": [{"day": "2026-05-01", "stage": "full_cover"}], "weather": weather(),
    }  # fmt: skip
    record = read(BedWaterRecord, base | fields)
    return bed_water(record, rng=np.random.default_rng(record.seed))


def test_ten_dry_days_take_what_the_formulas_say() -> None:
    """Own hand: by Hargreaves each day takes 1.05 times ETo; a loam of 0.8 m starts with a twentieth missing."""
    now = FIRST + timedelta(days=10)
    eto_mm = sum(
        float(fao.hargreaves(12.0, 22.0, above_mj_per_m2=sun.extraterrestrial(152.0 + k, latitude_deg=52.0)))
        for k in range(10)
    )
    found = answer(now=now.isoformat(), formula="hargreaves", weather=weather(until=now), root_m=0.8)
    wanted = 0.05 * 0.8 * 153 + 1.05 * eto_mm
    assert found.gone_mm.p50 == pytest.approx(wanted, rel=0.06)
    assert found.gone_mm.p95 > 1.2 * found.gone_mm.p50


def test_a_dry_month_wants_water_and_a_wet_one_does_not() -> None:
    dry, wet = answer(plant="japanese_indigo"), answer(plant="japanese_indigo", weather=weather(rain_mm=6.0))
    assert dry.water_on == NOW
    assert dry.dry_now_chance > 0.9
    assert wet.dry_now_chance < 0.1
    assert wet.gone_mm.p50 < 0.4 * dry.gone_mm.p50


def test_litres_are_millimetres_times_square_metres_and_the_way_loses_some() -> None:
    """Own hand: a sprinkler brings three quarters to the roots, a drip hose nine tenths."""
    drip, hose = answer(way="drip"), answer(way="hose")
    assert drip.water_on_mm is not None
    assert drip.water_on_l is not None
    assert drip.water_on_l.p50 == pytest.approx(10 * drip.water_on_mm.p50, rel=1e-3)
    assert hose.fill_mm.p50 / drip.fill_mm.p50 == pytest.approx(0.9 / 0.75, rel=0.05)


def test_a_watering_lasts_a_week() -> None:
    """Own hand: what is missing and seven days' drink, less what does no harm; at most what is missing."""
    found = answer()
    assert found.water_on_mm is not None
    at_roots = found.water_on_mm.p50 * 0.85
    wanted = found.gone_mm.p50 + 7 * found.use_mm.p50 - found.easy_mm.p50
    assert at_roots == pytest.approx(wanted, rel=0.4)
    assert found.water_on_mm.p50 <= found.fill_mm.p50
    given = [{"day": (NOW - timedelta(days=1)).isoformat(), "water_l": found.water_on_mm.p50 * 10}]
    assert answer(waterings=given).dry_now_chance < found.dry_now_chance


def test_what_was_given_is_there_and_what_overflows_is_not() -> None:
    """Own hand: 200 L on 10 square metres from a can are 17 mm at the roots."""
    yesterday = (NOW - timedelta(days=1)).isoformat()
    dry, given = answer(), answer(waterings=[{"day": yesterday, "water_l": 200.0}])
    assert dry.gone_mm.p50 - given.gone_mm.p50 == pytest.approx(17.0, rel=0.2)
    flooded = answer(waterings=[{"day": yesterday, "water_l": 100_000.0}])
    assert flooded.gone_mm.p50 == 0.0
    assert flooded.water_on is None or flooded.water_on > NOW


def test_rain_that_is_not_written_down_widens_the_answer() -> None:
    days = weather()["days"]
    silent = [{k: v for k, v in day.items() if k != "rain_mm"} for day in days]
    known, unknown = answer(), answer(weather={"latitude_deg": 52.0, "days": silent})
    assert unknown.gone_mm.p95 - unknown.gone_mm.p5 > 1.3 * (known.gone_mm.p95 - known.gone_mm.p5)
    assert "rain-unknown" in {c.code for c in unknown.cautions}


def test_a_handful_narrows_and_moves_the_answer() -> None:
    began = (NOW - timedelta(days=4)).isoformat()
    unsure = answer(started=began, start="unknown", soil="unknown")
    felt = answer(started=began, start="unknown", soil="unknown", felt=[{"day": NOW.isoformat(), "soil": "moist"}])
    assert felt.gone_frac.p50 < unsure.gone_frac.p50
    assert felt.gone_frac.p95 - felt.gone_frac.p5 < 0.9 * (unsure.gone_frac.p95 - unsure.gone_frac.p5)
    assert felt.ess < 1000


def test_a_handful_that_cannot_be_is_said() -> None:
    """A soaked bed is not dust the next morning; and handfuls of a season that contradict each other are refused."""
    began = (NOW - timedelta(days=1)).isoformat()
    assert "felt-differs" in {
        c.code for c in answer(started=began, felt=[{"day": NOW.isoformat(), "soil": "dusty"}]).cautions
    }
    turns = [{"day": day.isoformat(), "soil": "dusty" if day.day % 2 else "wet"} for day in span(FIRST, NOW)]
    with pytest.raises(ModelError, match="what was felt"):
        answer(felt=turns)


def test_a_forecast_of_rain_puts_off_the_watering_and_one_far_ahead_says_less() -> None:
    now = FIRST + timedelta(days=4)

    def ahead(rain_mm: float) -> BedWaterAnswer:
        known = weather(until=now)
        coming = [
            {"day": day.isoformat(), "min_c": 12.0, "max_c": 22.0, "rain_mm": rain_mm, "forecast": True}
            for day in span(now + timedelta(days=1), now + timedelta(days=5))
        ]
        return answer(now=now.isoformat(), root_m=0.5, weather=known | {"days": known["days"] + coming})

    dry, wet = ahead(0.0), ahead(15.0)
    assert dry.rain_ahead_mm.p50 < wet.rain_ahead_mm.p50
    assert dry.water_on is not None
    assert wet.water_on is None or wet.water_on > dry.water_on


def test_a_bed_drinks_less_after_a_cut_and_grows_back() -> None:
    full = answer().use_mm.p50
    cut = answer(
        stages=[{"day": "2026-05-01", "stage": "full_cover"}, {"day": "2026-06-29", "stage": "cut"}]
    ).use_mm.p50
    back = answer(stages=[{"day": "2026-05-01", "stage": "cut"}]).use_mm.p50
    assert cut < 0.85 * full
    assert back == pytest.approx(full, rel=0.05)


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"now": "2026-05-01"}, "now: it is before the first day"),
        ({"waterings": [{"day": "2026-07-02", "water_l": 5.0}]}, r"waterings\[0\].day: .*after now"),
        ({"felt": [{"day": "2026-06-03", "soil": "dry"}, {"day": "2026-06-02", "soil": "dry"}]}, "sort the rows"),
        ({"area_m2": 0.0}, "area_m2: 0.0 is not possible here"),
        ({"soil": "gravel"}, "soil: 'gravel'"),
    ],
    ids=["before", "ahead", "order", "area", "soil"],
)
def test_what_cannot_be_is_refused_with_what_would_be_right(fields: dict[str, Any], said: str) -> None:
    with pytest.raises(InputError, match=said):
        answer(**fields)


def test_carrying_much_and_giving_much_at_once_are_cautioned() -> None:
    codes = {c.code for c in answer(area_m2=50.0).cautions}
    assert {"lifting", "at-once", "water-rules"} <= codes
    assert "lifting" not in {c.code for c in answer(area_m2=50.0, way="drip").cautions}
