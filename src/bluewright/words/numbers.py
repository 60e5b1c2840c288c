"""How numbers, times and cautions are said in the text output: short figures, the likely range in brackets."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date, datetime, timedelta
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.reader import reader

_FAST: Final = "\u00a0"
"""A space at which no line is broken."""
_DAYS: Final = (
    marked("Mon"), marked("Tue"), marked("Wed"), marked("Thu"), marked("Fri"), marked("Sat"), marked("Sun"),
)  # fmt: skip
_MONTHS: Final = (
    marked("Jan"), marked("Feb"), marked("Mar"), marked("Apr"), marked("May"), marked("Jun"), marked("Jul"),
    marked("Aug"), marked("Sep"), marked("Oct"), marked("Nov"), marked("Dec"),
)  # fmt: skip
"""In the language that is spoken, whatever the machine's own."""
FEW_H: Final = 2.0
"""From here on minutes are said as hours."""
MANY_H: Final = 72.0
"""From here on hours are said as days."""

NOTES: Final = frozenset(
    {
        "before-the-end", "beyond-the-end", "chosen-tubs", "day-apart", "few-pairs",
        "lay-down-first", "looked-again", "many-comparisons", "may-not-show", "mostly-belief",
        "never-apart", "never-together", "no-rivals", "picking-apart", "noisy-tubs", "not-a-trial", "not-laid-down",
        "not-weighed-yet", "one-pair", "sorted-leaf", "spoilt-tubs", "tub-apart",
        "tubs-of-one-picking", "without-rival",
        "few-rungs", "ladder-misfit", "mix-well", "no-mix", "out-of-reach",
        "few-gardens", "few-yields", "leaning-forecasts", "pooled-prior", "same-garden", "surprising-batch",
        "wide-scatter",
        "above-bound", "alkali-harms-fibre", "alkali-stronger", "alkali-unpriced", "alkali-weak", "ammonia-ceiling",
        "at-once", "bed-not-counted", "beer-range", "bent-lines", "black-too-dark", "blinding", "book-figure",
        "bounds-only", "brightened", "brighter-than-water", "card-drifted", "card-fits-badly", "card-paper-assumed",
        "card-photos-differ", "card-photos-left-out", "card-spot", "cause", "chalk-in-pigment", "check-method",
        "coarse-scale", "damp-weighing", "depth-hidden", "depth-window", "dilutes", "dissolve-first",
        "doubtful-reading", "dried-copperas", "felt-differs", "few-frames", "few-leaves", "few-swatches", "fibre-kind",
        "fine-blue", "frost", "green-matter", "guessed-hours", "haze-not-blue", "hazy", "heel-enough",
        "indirubin-scale", "jar-short", "lime-kinds", "lime-solubility", "lime-weight", "may-not-reach", "mixed-ages",
        "mv-weak", "no-climate", "no-further", "no-jar", "no-overlap", "no-ph", "no-strength", "no-temperature",
        "not-linear", "not-reached", "nothing-shared", "old-weather", "one-band", "one-look", "one-method",
        "only-guesses", "only-shaken", "other-family", "other-observer", "outside-range", "own-rule", "own-seed",
        "past-peak", "past-target", "peak-far", "ph-above-fibre", "ph-below-fibre", "ph-falling", "ph-high", "ph-low",
        "ph-outside", "ph-unread", "photo-changed", "photo-copy", "photo-dark", "photo-flash", "photo-light",
        "photo-no-white", "photo-profile", "photo-quality", "photo-shine", "photos-disagree", "poor-fit",
        "protein-guessed", "purity-guessed", "rain-unknown", "random-order", "readings-disagree", "reads-nothing",
        "reductant-short", "results-disagree", "season-only", "second-year", "self-sown-host", "slow", "small-titre",
        "soda-ceiling", "starting-guess", "stock-strength", "stray-light", "strip-first", "surprising-reading",
        "table-judged", "temperature-differs", "thick-sediment", "thin-ensemble", "too-bright", "too-dark", "too-deep",
        "too-high", "too-hot", "underway", "uneven-light", "unusual-heavy", "unusual-light", "unusual-pure",
        "upper-bound", "vat-emptied", "vat-unseen", "warm-ammonia", "water-rules", "weak-rule", "white-too-dark",
        "white-too-light", "work-not-counted",
    }
)  # fmt: skip
"""Cautions about the work or the figures; any other could hurt someone, and is said first."""


def ranged(band: Band, unit: str, *, scale: float = 1.0) -> str:
    """`4.8 g (2.8 to 7.2)`: the middle, its unit, and the range that holds the truth nine times in ten.

    The middle has two figures (three where two would not tell it from an end), and the ends are no finer than the
    middle: a third figure of a number that may be twice as much says nothing. Where the figures cannot tell the ends
    from the middle there is no range to say: `12 g`.
    """
    values = [scale * value for value in (band.p5, band.p50, band.p95)]
    low, mid, high = _alike(values, 2)
    if values[1] and mid in {low, high} and values[0] < values[2]:
        low, mid, high = _alike(values, 3)
    joint = "" if unit in {"", "%"} else " "
    middle = f"{mid}{joint}{unit}"
    return middle if low == mid == high else with_range(middle, low, high)


def with_range(middle: str, low: str, high: str) -> str:
    """`4.8 g (2.8 to 7.2)`, of figures in words."""
    return _("%(middle)s (%(low)s to %(high)s)") % {"middle": middle, "low": low, "high": high}


def frac(band: Band) -> str:
    """A band of a fraction as percent in words."""
    return ranged(band, "%", scale=100)


def minutes(band: Band) -> str:
    """A band of minutes in words; in hours where it is long."""
    return ranged(band, "h", scale=1 / 60) if band.p50 >= 60 * FEW_H else ranged(band, _("minutes"))


def hours(band: Band) -> str:
    """A band of hours in words; in days where it is long."""
    return ranged(band, _("days"), scale=1 / 24) if band.p50 >= MANY_H else ranged(band, "h")


def percent(value: float) -> str:
    """A chance or share as a whole percent, never a false 0 or 100."""
    whole = round(100 * value)
    if whole < 1:
        return _("under %(share)s") % {"share": "1%"}
    return _("over %(share)s") % {"share": "99%"} if whole > 99 else f"{whole}%"


def figure(value: float) -> str:
    """Two figures below a hundred, three above it, never an exponent: `0.00012`, `0.5`, `4.8`, `12`, `1,230`."""
    return _said(value, 2 if abs(value) < 100 else 3)


def by_scale(value: float) -> str:
    """What a kitchen scale tells, so that sums can be followed: three figures, all of a thousand and more."""
    return f"{value:,.0f}" if abs(value) >= 999.5 else _said(value, 3)


def rough(value: float) -> str:
    """Two figures, never an exponent: `4.8`, `12`, `1,200`."""
    return _said(value, 2)


def moment(time: datetime) -> str:
    """`Sun 5 Jul 18:00`; `Sun, Jul 5, 6:00 pm`."""
    told = {"day": weekday(time), "clock": clock(time)}
    return ", ".join(told.values()) if _month_first() else _("%(day)s %(clock)s") % told


def clock(time: datetime) -> str:
    """`18:00`; `6:00 pm`."""
    if _month_first():
        return f"{time.hour % 12 or 12}:{time.minute:02d}{_FAST}{'am' if time.hour < 12 else 'pm'}"
    return f"{time.hour:02d}:{time.minute:02d}"


def hour(of_day: int) -> str:
    """A full hour: `18:00`; `6 pm`."""
    return f"{of_day % 12 or 12}{_FAST}{'am' if of_day < 12 else 'pm'}" if _month_first() else f"{of_day:02d}:00"


def weekday(time: date) -> str:
    """`Sun 5 Jul`; `Sun, Jul 5`."""
    told = {"weekday": _(_DAYS[time.weekday()]), "day": day_of_year(time)}
    return ", ".join(told.values()) if _month_first() else _("%(weekday)s %(day)s") % told


def weekday_short(time: date) -> str:
    """`Sun 5`."""
    return _("%(weekday)s %(day)s") % {"weekday": _(_DAYS[time.weekday()]), "day": time.day}


def day_of_year(time: date) -> str:
    """`5 Jul`; `Jul 5`."""
    month = _(_MONTHS[time.month - 1])
    return f"{month} {time.day}" if _month_first() else _("%(day)s %(month)s") % {"day": time.day, "month": month}


def month_said(number: int) -> str:
    """`Jul` for 7."""
    return _(_MONTHS[number - 1])


def day(time: date) -> str:
    """`5 Jul 2026`; `Jul 5, 2026`: for paper, which outlives its year."""
    told = {"day": day_of_year(time), "year": str(time.year)}
    return ", ".join(told.values()) if _month_first() else _("%(day)s %(year)s") % told


def days(first: date, last: date) -> str:
    """`5 Jul 2026`; from one day to another `28 Jun to 5 Jul 2026`, or `Jun 28 to Jul 5, 2026`."""
    if (first.year, first.month, first.day) == (last.year, last.month, last.day):
        return day(last)
    start = day_of_year(first) if first.year == last.year else day(first)
    return _("%(first)s to %(last)s") % {"first": start, "last": day(last)}


def about(time: datetime) -> str:
    """A forecast moment, to the hour."""
    return moment((time + timedelta(minutes=30)).replace(minute=0, second=0, microsecond=0))


def sentence(text: str) -> str:
    """The text with a capital first letter."""
    return text[:1].upper() + text[1:]


def cautions(found: Sequence[Caution]) -> list[str]:
    """A blank line and one line for each caution, those that could hurt first; nothing where there is none."""
    hurting = [f"Take care: {caution.text}" for caution in found if caution.code not in NOTES]
    notes = [f"Note: {caution.text}" for caution in found if caution.code in NOTES]
    return ["", *hurting, *notes] if found else []


def _month_first() -> bool:
    return reader().dates == "month_first"


def _alike(values: Sequence[float], digits: int) -> list[str]:
    """Low, middle and high, none finer than the middle in so many figures."""
    finest = _decimals(values[1], digits) if values[1] else None
    return [_said(value, digits, finest) for value in values]


def _said(value: float, digits: int, finest: int | None = None) -> str:
    """The value in so many figures and at most `finest` decimals, unless nothing would be left of it."""
    if value == 0:
        return "0"
    decimals = _decimals(value, digits)
    if finest is not None and finest < decimals:
        decimals = finest if round(value, finest) else _decimals(value, 1)
    text = f"{round(value, decimals):,.{max(decimals, 0)}f}".replace("-", "−")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _decimals(value: float, digits: int) -> int:
    """How many decimals `value` has in so many figures; below 0 where tens or hundreds are rounded."""
    places = digits - 1 - math.floor(math.log10(abs(value)))
    return digits - 1 - math.floor(math.log10(abs(round(value, places))))
