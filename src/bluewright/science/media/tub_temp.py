"""The tub's temperature hour by hour, from a record: rows turned into points, and the forecast into an answer."""

from __future__ import annotations

from datetime import datetime, time, timedelta
from typing import Final, Literal

import numpy as np

from bluewright.science.base.bands import NINETY_Z, Band, BandAtTime, band, quantiles, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.media.air_temp import COLDEST_HOUR, MAX_TEMP_C, MIN_TEMP_C, WARMEST_HOUR, Seen, northern_day
from bluewright.science.media.tub_heat import TubForecast, forecast
from bluewright.science.media.tub_temp_record import (
    THERMOMETER_ERROR,
    OneMoreReading,
    TubTempAnswer,
    TubTempRecord,
)
from bluewright.science.media.tub_walls import tau_prior

DRAWS = 2000
READ_AIR_ERROR: Final = Sourced(
    value=0.7, unit="C", source="common-practice", low=0.3, high=2.0, grade="practice",
    note="one air temperature in the shade, thermometer and place together",
)  # fmt: skip
READ_DAY_ERROR: Final = Sourced(
    value=1.0, unit="C", source="common-practice", low=0.5, high=2.0, grade="practice",
    note="a minimum or maximum that was read: thermometer, place, and the hour at which it fell",
)  # fmt: skip
FORECAST_ERROR: Final = Sourced(
    value=1.5, unit="C", source="common-practice", low=1.0, high=2.5, grade="guess", note="a forecast for today"
)
FORECAST_ERROR_PER_DAY: Final = Sourced(
    value=0.3, unit="C/d", source="common-practice", low=0.2, high=0.6, grade="guess", note="for each day further ahead"
)
EARLIEST_AIR_H: Final = -240.0
"""Air read more than ten days before the start says nothing that newer air does not say better."""
SCALD: Final = Sourced(
    value=49.0, unit="C", source="moritz-henriques-1947", low=45.0, high=52.0, grade="memory",
    note="water scalds skin in about ten minutes; at 60 C in five seconds, at 70 C in one",
)  # fmt: skip


def tub_temp(record: TubTempRecord, *, rng: np.random.Generator) -> TubTempAnswer:
    """The tub hour by hour with its range, its time constant, degree-hours, and what one more reading would do.

    Model and sources: `media.tub_heat`. A day's minimum and maximum are placed at `COLDEST_HOUR` and `WARMEST_HOUR`.
    """
    hours = np.arange(0.0, _hour(record, record.until) + 0.999, 1.0)
    now = record.now or (record.readings[-1].time if record.readings else record.started)
    now_h = _hour(record, now)
    tub_seen, air_seen = tub_points(record), air_points(record, now_h=now_h)
    found = _believed(record, hours, tub_seen, air_seen)
    paths = found.draw(np.append(hours, now_h), rng=rng, n=DRAWS)
    path = paths[:, :-1]
    held = all(part.tau_h is None for part in found.parts)
    return TubTempAnswer(
        id=record.id,
        now_c=band(paths[:, -1]),
        mean_c=band(_over_time(path) / hours[-1]),
        lowest_c=band(path.min(axis=1)),
        highest_c=band(path.max(axis=1)),
        degree_h=band(_over_time(np.maximum(path - record.base_c, 0.0))),
        tau_h=None if held else _tau_band(found.tau_h),
        tau_before_h=_tau_before(record),
        one_more_reading=_one_more(record, hours, found, (tub_seen, air_seen), now),
        curve=_curve(record, hours, path),
        basis=_basis(record),
        inputs=record,
        cautions=_cautions(record, found, path, tub_seen),
        sources=("bluewright-tub", "common-practice", "moritz-henriques-1947", "paaijmans-2008"),
    )


def tub_points(record: TubTempRecord) -> Seen:
    """Readings of the tub as points in hours since the start."""
    return points([(_hour(record, row.time), row.temp_c, row.error_c) for row in record.readings])


def air_points(record: TubTempRecord, *, now_h: float) -> Seen:
    """Air rows as points: a day gives its minimum and maximum, and a dense series is taken as hourly means."""
    found = []
    for point in record.air:
        at_h = _hour(record, point.time)
        error_c = point.error_c or air_error_c(at_h - now_h, forecast=point.forecast)
        found.append((at_h, point.temp_c, error_c))
    found = hourly(found)
    for row in record.days:
        for hour, temp_c in ((COLDEST_HOUR.value, row.min_c), (WARMEST_HOUR.value, row.max_c)):
            at_h = _hour(record, datetime.combine(row.day, time(int(hour)), tzinfo=record.started.tzinfo))
            usual_c = _forecast_error_c(at_h - now_h) if row.forecast else READ_DAY_ERROR.value
            found.append((at_h, temp_c, row.error_c or usual_c))
    return points([point for point in found if point[0] >= EARLIEST_AIR_H])


def air_error_c(ahead_h: float, *, forecast: bool) -> float:
    """Standard error of one air temperature that was read, or forecast so many hours ahead, C (judgements)."""
    return _forecast_error_c(ahead_h) if forecast else READ_AIR_ERROR.value


def _forecast_error_c(ahead_h: float) -> float:
    return FORECAST_ERROR.value + FORECAST_ERROR_PER_DAY.value * max(0.0, ahead_h) / 24.0


def points(rows: list[tuple[float, float, float]]) -> Seen:
    """Rows of hours since the start, degrees and standard error, any number of them."""
    columns = np.array(rows, dtype=np.float64).reshape(-1, 3)
    return Seen(hours=columns[:, 0], temp_c=columns[:, 1], sd_c=columns[:, 2])


def hourly(rows: list[tuple[float, float, float]]) -> list[tuple[float, float, float]]:
    """Means over whole hours; the error stays that of one reading, since neighbours share it."""
    by_hour: dict[int, list[tuple[float, float, float]]] = {}
    for row in rows:
        by_hour.setdefault(int(np.floor(row[0])), []).append(row)
    return [tuple(np.mean(same, axis=0).tolist()) for same in by_hour.values()]


def _hour(record: TubTempRecord, moment: datetime) -> float:
    return (moment - record.started).total_seconds() / 3600.0


def _believed(record: TubTempRecord, hours: Floats, tub_seen: Seen, air_seen: Seen) -> TubForecast:
    hold = None
    if record.hold_c is not None:
        hold = Prior(
            kind="normal", centre=record.hold_c, spread=record.hold_error_c, unit="C",
            source="common-practice", grade="practice",
        )  # fmt: skip
    return forecast(
        hours,
        tub=record.tub,
        liquid_l=record.liquid_l,
        clock_h=record.started.hour + record.started.minute / 60,
        day_of_year=northern_day(record.started.date(), hemisphere=record.hemisphere),
        tub_seen=tub_seen,
        air_seen=air_seen,
        hold_c=hold,
    )


def _over_time(path: Floats) -> Floats:
    """The integral over the hours by the trapezoid rule, shape (n,)."""
    return np.asarray(path.sum(axis=1) - 0.5 * (path[:, 0] + path[:, -1]))


def _tau_band(points: Floats) -> Band:
    return Band(p5=significant(points[4], 3), p50=significant(points[49], 3), p95=significant(points[94], 3))


def _tau_before(record: TubTempRecord) -> Band:
    prior = tau_prior(record.tub, liquid_l=record.liquid_l)
    low, mid, high = prior.from_z(np.array([-NINETY_Z, 0.0, NINETY_Z]))
    return Band(p5=significant(low, 3), p50=significant(mid, 3), p95=significant(high, 3))


def _curve(record: TubTempRecord, hours: Floats, path: Floats) -> tuple[BandAtTime, ...]:
    bands = quantiles(path, [0.05, 0.5, 0.95])
    return tuple(
        BandAtTime(
            time=record.started + timedelta(hours=float(hour)),
            p5=round(float(low), 2),
            p50=round(float(mid), 2),
            p95=round(float(high), 2),
        )
        for hour, low, mid, high in zip(hours, *bands, strict=True)
    )


def _basis(record: TubTempRecord) -> Literal["prior", "air", "readings"]:
    if record.readings:
        return "readings"
    return "air" if record.air or record.days else "prior"


def _one_more(
    record: TubTempRecord, hours: Floats, found: TubForecast, seen: tuple[Seen, Seen], now: datetime
) -> OneMoreReading | None:
    """The mean width of the band from now on, as it stands and with a reading now that comes out as expected."""
    now_h = _hour(record, now)
    ahead = hours[hours > now_h]
    if not len(ahead):
        return None
    tub_seen, air_seen = seen
    # A thermometer shows no more than a record may hold; the value bears on the width only through tau.
    expected_c = np.clip(found.moments(np.array([now_h]))[0][0], MIN_TEMP_C, MAX_TEMP_C)
    more = Seen(
        hours=np.append(tub_seen.hours, now_h),
        temp_c=np.append(tub_seen.temp_c, expected_c),
        sd_c=np.append(tub_seen.sd_c, THERMOMETER_ERROR.value),
    )
    after = _believed(record, hours, more, air_seen)
    widths = [2 * NINETY_Z * float(belief.moments(ahead)[1].mean()) for belief in (found, after)]
    return OneMoreReading(time=now, mean_width_without_c=round(widths[0], 2), mean_width_with_c=round(widths[1], 2))


def _cautions(record: TubTempRecord, found: TubForecast, path: Floats, tub_seen: Seen) -> tuple[Caution, ...]:
    said: list[tuple[str, str]] = []
    low, _, high = quantiles(path, [0.05, 0.5, 0.95])
    if low.min() < 0:
        said.append(("outside-range", "The tub may freeze; ice is not in this model."))
    if (record.until - record.started).days >= 14:
        said.append(
            ("outside-range", "More than two weeks: a tub's liquor, level and cover will have changed by then.")
        )
    if _basis(record) == "prior":
        text = "No air and no tub reading: this is the season of a mid-latitude garden, no more. "
        text += "Add today's minimum and maximum."
        said.append(("season-only", text))
    if len(tub_seen.hours):
        middle, _ = found.moments(tub_seen.hours)
        missed = np.abs(middle - tub_seen.temp_c) / tub_seen.sd_c
        worst = int(np.argmax(missed))
        if missed[worst] > 3:
            text = (
                f"The reading of {tub_seen.temp_c[worst]:g} C at hour {tub_seen.hours[worst]:.0f} does not go with the "
                f"others ({middle[worst]:.1f} C expected): was the tub stirred, the thermometer in it, the time right?"
            )
            said.append(("doubtful-reading", text))
    plain = tuple(caution(code, text) for code, text in said)
    return (*_scald(float(high.max())), *plain)


def _scald(highest_c: float) -> tuple[Caution, ...]:
    if highest_c < SCALD.value:
        return ()
    text = (
        f"The tub may be at {highest_c:.0f} C, which scalds: water at {SCALD.value:.0f} C does in about ten minutes, "
        "at 60 C in five seconds, at 70 C in one. Keep children and animals away; do not lift hot liquor alone."
    )
    return (caution("scald", text, source=SCALD.source),)
