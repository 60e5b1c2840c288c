"""The strain call: what the forecast says and advises."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band, BandAtTime
from bluewright.science.base.cautions import Caution
from bluewright.science.base.records import answer
from bluewright.science.steep.record import SteepRecord

Advice = Literal["strain", "wait", "strain_past_peak"]


@answer
class Window:
    """From when to when half the ensemble or more is within 90 % of its best."""

    from_: Annotated[datetime, Field(alias="from")]
    """When it opens."""
    to: datetime
    """When it closes."""


@answer
class Recoverable:
    """Pure indigo that straining would give, with alkali and air done well, in grams."""

    now: Band
    """Straining now."""
    best: Band
    """At the best moment of each member of the ensemble, whenever that is."""


@answer
class Option:
    """One moment at which to strain."""

    time: datetime
    """When to strain."""
    expected_frac_of_best: float
    """What it is expected to give, as a share of the best."""
    chance_of_losing_a_fifth: float
    """Chance that straining then gives less than four fifths of the best."""


@answer
class NextReading:
    """A reading that could be taken now, and what it is worth."""

    reading: str
    """Its field in the record."""
    expected_gain_frac: float
    """By how much of the best the reading is expected to lessen the loss, by making for a better moment."""


@answer
class SteepAnswer:
    """The strain call for one steep."""

    version: Literal[1] = 1
    """Version of this answer."""
    id: str
    """Your own name for the tub, from the record."""
    advice: Advice
    """`strain` now, `wait` until `strain_at`, or `strain_past_peak`: now, it has been falling."""
    strain_at: datetime
    """The moment, among those at which you can, with the least expected loss."""
    look_again_at: datetime
    """When to look again: before that the best is hardly past."""
    window: Window
    """When at least half of what is believed possible keeps nine tenths of its best."""
    recoverable_g: Recoverable
    """Pure indigo now and at best."""
    best_h: Band
    """Hours from filling to the best moment, whenever that is."""
    frac_of_best_now: Band
    """What straining now gives, as a share of the best."""
    now_in_liquor_frac: Band
    """Share of what the leaf held that straining now could still turn into indigo."""
    chance_past_peak: float
    """Chance that the best moment is past."""
    options: tuple[Option, ...]
    """Now and later moments at which you can strain."""
    next_reading: tuple[NextReading, ...]
    """What to read next, the most telling first."""
    curve: tuple[BandAtTime, ...]
    """Recoverable pure indigo against time, grams."""
    share_curve_frac: tuple[BandAtTime, ...]
    """What straining at a time gives, as a share of the best: how the grams' own uncertainty leaves the timing."""
    temp_curve_c: tuple[BandAtTime, ...]
    """Temperature of the tub as the forecast takes it, at the times of `curve`."""
    ess: float
    """Effective sample size of the ensemble; of 2,000 members."""
    basis: Literal["prior", "garden", "readings"]
    """What it rests on beside the priors: nothing, what this garden has taught, or readings of this steep."""
    inputs: SteepRecord
    """The record that was answered, with its defaults."""
    cautions: tuple[Caution, ...]
    """What to be careful of."""
    sources: tuple[str, ...]
    """Keys of `sources.bib` that the answer rests on."""
