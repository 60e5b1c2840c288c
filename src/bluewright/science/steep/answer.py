"""The strain call: what the forecast says and advises."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.records import answer
from bluewright.science.steep.record import SteepRecord

Advice = Literal["strain", "wait", "strain_past_peak"]


@answer
class Window:
    """From when to when half the ensemble or more is within 90 % of its best."""

    from_: Annotated[datetime, Field(alias="from")]
    to: datetime


@answer
class Recoverable:
    """Pure indigo that straining would give, with alkali and air done well, in grams."""

    now: Band
    best: Band
    """At the best moment of each member of the ensemble, whenever that is."""


@answer
class Option:
    """One moment at which to strain."""

    time: datetime
    expected_frac_of_best: float
    chance_of_losing_a_fifth: float
    """Chance that straining then gives less than four fifths of the best."""


@answer
class NextReading:
    """A reading that could be taken now, and what it is worth."""

    reading: str
    expected_gain_frac: float
    """By how much of the best the reading is expected to lessen the loss, by making for a better moment."""


@answer
class CurvePoint:
    """Recoverable pure indigo at one moment, grams."""

    time: datetime
    p5: float
    p50: float
    p95: float


@answer
class SteepAnswer:
    """The strain call for one steep."""

    version: Literal[1] = 1
    id: str
    advice: Advice
    """`strain` now, `wait` until `strain_at`, or `strain_past_peak`: now, it has been falling."""
    strain_at: datetime
    """The moment, among those at which you can, with the least expected loss."""
    look_again_at: datetime
    window: Window
    recoverable_g: Recoverable
    frac_of_best_now: Band
    chance_past_peak: float
    options: tuple[Option, ...]
    next_reading: tuple[NextReading, ...]
    curve: tuple[CurvePoint, ...]
    temp_curve_c: tuple[CurvePoint, ...]
    """Temperature of the tub as the forecast takes it, at the times of `curve`."""
    ess: float
    """Effective sample size of the ensemble; of 2,000 members."""
    basis: Literal["prior", "garden", "readings"]
    """What it rests on beside the priors: nothing, what this garden has taught, or readings of this steep."""
    inputs: SteepRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
