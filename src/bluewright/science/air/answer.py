"""The answer to an airing record."""

from __future__ import annotations

from typing import Literal

from bluewright.science.air.record import AirRecord, Way
from bluewright.science.base.bands import Band, BandAt
from bluewright.science.base.cautions import Caution
from bluewright.science.base.records import answer


@answer
class NextReading:
    """What one more reading would be worth, taken after `look_again_min` more minutes."""

    reading: Literal["dissolved_oxygen", "foam", "liquor", "ph", "dye_index"]
    narrows_frac: float
    """By which share it would narrow the minutes left, on average: 0.3 means a range three tenths narrower."""


@answer
class AirAnswer:
    """How long to air, whether it is done, and what going on or stopping costs."""

    version: Literal[1] = 1
    id: str
    advice: Literal["go_on", "look_again", "stop"]
    """`go_on`; `look_again` in a minute or two, for it may be done within five; or `stop`."""
    way: Way
    """How it is aired."""
    done_frac: Band
    """Share of the indoxyl that has turned by now."""
    done_frac_by_min: tuple[BandAt, ...]
    """The same against minutes of airing, from the start to well past the end."""
    chance_done_frac: float
    """Chance that it is done: 95 % of the indoxyl has turned."""
    needed_min: Band
    """Minutes of airing from the start until done."""
    left_min: Band
    """Minutes of airing from now until done; 0 where it is."""
    needed_pours: Band | None = None
    """Pours from the start until done (only for pouring)."""
    left_pours: Band | None = None
    """Pours from now until done (only for pouring)."""
    look_again_min: float
    """Minutes of airing after which to look again: one chance in four that it is done by then, or half an hour."""
    gain_in_10_min_frac: float
    """Share of all the blue that ten more minutes are expected to turn."""
    loss_in_10_min_frac: float
    """Share of all the blue that ten more minutes are expected to destroy; its rate is a guess."""
    overrun_loss_frac: Band
    """Share of the blue that every ten minutes beyond the end may cost; the rate is a guess, hence the range."""
    held_back_by: Literal["air", "reaction", "both"]
    """What sets the pace: the `air` brought in, or the `reaction` (more alkali or warmth would speed it)."""
    air_limited_min: Band
    """Minutes that bringing the oxygen takes."""
    reaction_limited_min: Band
    """Minutes that the reaction takes in liquor full of air; the time needed is about the sum of the two."""
    saturation_mg_per_l: float
    """Dissolved oxygen that the liquor can hold here."""
    demand_mg_per_l: Band
    """Oxygen that the liquor wants in all."""
    demand_factor: Band
    """That demand over what the indigo alone needs; type it under `learned` for the next batch."""
    kla_per_h: Band
    """How fast this way of airing brings oxygen (kLa); type it under `learned` for the next batch."""
    pour_gain_frac: Band | None = None
    """Share of the missing oxygen that one pour puts into what is poured."""
    alkali_advice: Literal["enough", "watch", "add_more", "unknown"]
    """`add_more` below pH 8.5, `watch` from 8.5 to 9; `unknown` if no pH was read."""
    ammonia_loss_per_h: Band | None = None
    """Share of the ammonia that airing carries off in an hour (only with ammonia)."""
    ammonia_loss_frac: Band | None = None
    """Share of the ammonia that is carried off by the time it is done."""
    ammonia_lost_mmol: Band | None = None
    """The same in mmol, if the record says how much there is."""
    next_reading: tuple[NextReading, ...]
    """Most telling first."""
    ess: float
    """Effective sample size of the ensemble."""
    basis: Literal["prior", "garden", "readings"]
    """Published and judged priors alone, what earlier batches taught, or this batch's readings too."""
    inputs: AirRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
