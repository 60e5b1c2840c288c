"""A span of weather without gaps: degree-days, rain and evaporation day by day and in sum, each with its spread."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from datetime import date
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.bands import Band, band, quantiles, significant
from bluewright.science.base.cautions import Caution, those_that_hold
from bluewright.science.base.sourced import Floats
from bluewright.science.base.validity import Studied
from bluewright.science.media.weather.days_record import DayFound, WeatherAnswer, WeatherRecord
from bluewright.science.media.weather.degree_days import degree_days
from bluewright.science.media.weather.filling import span, temps
from bluewright.science.media.weather.grass import grass
from bluewright.science.media.weather.rain import rain
from bluewright.science.media.weather.record import BandOnDay, DayBand, Weather

DRAWS = 1000
Bools = NDArray[np.bool_]
ENDS: Final = (0.05, 0.5, 0.95)
TEMPERATE: Final = Studied(low=35, high=60, unit="deg", source="common-practice", grade="guess")
"""Latitudes, north or south, of the temperate climate that stands in where no climate table is given."""


def weather_days(record: WeatherRecord, *, rng: np.random.Generator) -> WeatherAnswer:
    """The days of a span with what was missing filled in, their degree-days, rain and evaporation.

    Models and sources: `filling`, `rain`, `grass`, `degree_days`. Sums are taken draw by draw, so that what all days
    are off together does not average out.
    """
    days = span(record.first, record.last)
    known = temps(days, weather=record.weather, now=record.today, rng=rng, n=DRAWS)
    wet_mm = rain(days, weather=record.weather, now=record.today, rng=rng, n=DRAWS)
    eto_mm = grass(days, weather=record.weather, temps=known, formula=record.formula, rng=rng)
    warmth = degree_days(
        known.min_c, known.max_c, base_c=record.base_c, cutoff_c=record.cutoff_c, rule=record.rule
    ).cumsum(axis=1)
    how = known_days(days, record.weather)
    return WeatherAnswer(
        id=record.id,
        degree_d=band(warmth[:, -1]),
        degree_d_by_day=on_days(days, warmth),
        reached_on=None if record.target_degree_d is None else first_day(days, warmth >= record.target_degree_d),
        reached_chance=None
        if record.target_degree_d is None
        else significant(float(np.mean(warmth[:, -1] >= record.target_degree_d))),
        rain_mm=band(wet_mm.sum(axis=1)),
        eto_mm=band(eto_mm.sum(axis=1)),
        days=_found(days, how, (known.min_c, known.max_c, wet_mm, eto_mm)),
        days_read=how.count("read"),
        days_forecast=how.count("forecast"),
        days_filled=how.count("filled") + how.count("part"),
        days_without_rain_read=without_rain(days, record.weather, today=record.today),
        basis=basis(record.weather),
        inputs=record,
        cautions=cautions(days, record.weather, today=record.today),
        sources=("baskerville-emin-1969", "common-practice", "fao-56", "richardson-1981"),
    )


def known_days(days: Sequence[date], weather: Weather) -> list[Literal["read", "forecast", "part", "filled"]]:
    """How the temperatures of each day are known."""
    rows = {row.day: row for row in weather.days}
    found: list[Literal["read", "forecast", "part", "filled"]] = []
    for day in days:
        row = rows.get(day)
        given = 0 if row is None else (row.min_c is not None) + (row.max_c is not None)
        if row is None or given == 0:
            found.append("filled")
        elif given == 1:
            found.append("part")
        else:
            found.append("forecast" if row.forecast else "read")
    return found


def basis(weather: Weather) -> Literal["prior", "climate", "readings"]:
    """What the answer rests on."""
    if any(row.min_c is not None or row.max_c is not None for row in weather.days):
        return "readings"
    return "climate" if weather.normals else "prior"


def without_rain(days: Sequence[date], weather: Weather, *, today: date) -> int:
    """How many of the days up to today have no rain written down, not even none."""
    told = {row.day for row in weather.days if row.rain_mm is not None}
    return sum(day <= today and day not in told for day in days)


def on_days(days: Sequence[date], samples: Floats, *, digits: int = 4) -> tuple[BandOnDay, ...]:
    """The band of `samples` (n, d) on each day."""
    rows = quantiles(samples, list(ENDS)).T
    return tuple(
        BandOnDay(day=day, p5=significant(low, digits), p50=significant(mid, digits), p95=significant(high, digits))
        for day, (low, mid, high) in zip(days, rows, strict=True)
    )


def first_day(days: Sequence[date], happened: Bools) -> DayBand:
    """The first day on which it has happened, from draws of yes and no of shape (n, d)."""
    firsts = np.where(happened.any(axis=1), happened.argmax(axis=1), len(days))
    shares = np.cumsum(np.bincount(firsts, minlength=len(days) + 1)[: len(days)]) / len(firsts)
    ends = [bisect_left(shares.tolist(), share) for share in ENDS]
    early, middle, late = (days[end] if end < len(days) else None for end in ends)
    return DayBand(early=early, middle=middle, late=late)


def _found(
    days: Sequence[date], how: list[Literal["read", "forecast", "part", "filled"]], drawn: tuple[Floats, ...]
) -> tuple[DayFound, ...]:
    rows = [[Band(p5=b.p5, p50=b.p50, p95=b.p95) for b in on_days(days, samples, digits=3)] for samples in drawn]
    return tuple(
        DayFound(day=day, known=known, min_c=low, max_c=high, rain_mm=wet, eto_mm=eto)
        for day, known, low, high, wet, eto in zip(days, how, *rows, strict=True)
    )


def cautions(days: Sequence[date], weather: Weather, *, today: date) -> tuple[Caution, ...]:
    """What to know about figures that rest on filled days."""
    unread = known_days(days, weather).count("filled")
    dry = without_rain(days, weather, today=today)
    said = {
        (
            "season-only",
            f"{unread} of {len(days)} days are filled from a temperate climate at large: type the twelve months of a "
            "climate table, and the range narrows.",
        ): unread > 0 and not weather.normals,
        (
            "outside-range",
            f"Without a climate table a temperate climate is assumed, which {weather.latitude_deg:g} degrees of "
            "latitude is not.",
        ): not weather.normals and not TEMPERATE.holds(abs(weather.latitude_deg)),
        (
            "rain-unknown",
            f"Rain is not written down for {dry} days up to today; they are taken as the climate has them. Write 0 for "
            "a dry day.",
        ): dry > 0,
    }
    return those_that_hold(said)
