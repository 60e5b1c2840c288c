"""The whole airing: how long, how many pours, is it done, what next."""

from __future__ import annotations

from typing import Any, Final, Literal

import numpy as np

from bluewright.science.air import priors
from bluewright.science.air.answer import AirAnswer
from bluewright.science.air.cautions import LOW_PH, WATCH_PH, cautions, ph_now
from bluewright.science.air.endpoint import has_readings
from bluewright.science.air.forecast import DONE_EXPOSURE, Forecast, forecast
from bluewright.science.air.fumes import ammonia_off_per_h
from bluewright.science.air.members import ph_read, rate_l_per_mmol_h, vessel_area_m2
from bluewright.science.air.next_reading import next_readings
from bluewright.science.air.oxidation import done_frac, limits_h
from bluewright.science.air.record import AirRecord
from bluewright.science.air.transfer import BUBBLES, POURS
from bluewright.science.base.bands import BandAt, band, curve, quantiles, significant
from bluewright.science.media.ammonia import GAS_FILM_MM_PER_S
from bluewright.science.media.oxygen import OXYGEN_G_PER_MOL

DRAWS: Final = 3000
CURVE_POINTS: Final = 32
LOOK_CHANCE: Final = 0.25
"""Look again when it may be done with this chance."""
LOOK_AT_LATEST_MIN: Final = 30.0
"""However long it takes, a look every half hour teaches something."""
SURE_CHANCE: Final = 0.90
"""Stop when it is done with this chance, whatever the balance of gain and loss."""
SOON_H: Final = 5.0 / 60.0
TEN_MIN_H: Final = 10.0 / 60.0


def airing(record: AirRecord, *, rng: np.random.Generator, draws: int = DRAWS) -> AirAnswer:
    """How long to air this batch, whether it is done, and what going on or stopping costs.

    Formula: hours = [oxygen used + oxygen left in the liquor] / (kLa C) + 3.0 / (k C) until 95 % of the indoxyl has
    turned (`oxidation`), over an ensemble of batches (`members`) weighed by the readings (`endpoint`). `draws` is the
    size of the ensemble, at least 2000 for a person's use.

    Raises InputError where the liquor would boil, ModelError if no batch explains the readings. Sources: Benson &
    Krause 1984 (oxygen), Gameson's and Nakasone's weir formulas, Heijnen & van 't Riet 1984 (transfer); demand,
    rate and signs are judgements (`priors`, `endpoint`).
    """
    seen = forecast(record, rng=rng, draws=draws)
    fumes = _ammonia(record, seen, rng)
    return AirAnswer(
        id=record.id,
        way=record.way,
        **_when(seen),
        **_pours(record, seen),
        **_pace(record, seen),
        **fumes,
        overrun_loss_frac=band(-np.expm1(-TEN_MIN_H * priors.OVERRUN_PER_H.draw(rng, draws))),
        alkali_advice=_alkali_advice(ph_now(record)),
        next_reading=next_readings(record, seen, after_h=_look_again_min(seen) / 60.0, rng=rng),
        ess=round(seen.drawn.ess, 1),
        basis=_basis(record),
        inputs=record,
        cautions=cautions(record, z=seen.drawn.z, group=seen.group, ammonia_loss_frac=fumes.get("ammonia_loss_frac")),
        sources=_sources(record),
    )  # fmt: skip


def _when(seen: Forecast) -> dict[str, Any]:
    """The fields that say whether it is done, when it will be, and what to do."""
    gain, loss = _gain_and_loss(seen)
    chance_done = seen.chance(seen.left_h <= 0)
    return {
        "advice": _advice(seen, chance_done, gain, loss),
        "done_frac": seen.band(done_frac(seen.path.now.exposure)),
        "done_frac_by_min": _done_curve(seen),
        "chance_done_frac": round(chance_done, 3),
        "needed_min": seen.band(60.0 * seen.needed_h),
        "left_min": seen.band(60.0 * seen.left_h),
        "look_again_min": _look_again_min(seen),
        "gain_in_10_min_frac": significant(gain, 3),
        "loss_in_10_min_frac": significant(loss, 3),
    }


def _done_curve(seen: Forecast) -> tuple[BandAt, ...]:
    """The share turned, from the start to well past the time that most of the ensemble needs."""
    end_h = max(float(quantiles(seen.needed_h, [0.9], weights=seen.drawn.weights)[0]), float(np.max(seen.group.done_h)))
    hours = np.linspace(0.0, 1.2 * end_h, CURVE_POINTS)
    turned = np.stack([seen.done_frac_at(float(at_h)) for at_h in hours], axis=1)
    return curve(60.0 * hours, turned, weights=seen.drawn.weights)


def _pours(record: AirRecord, seen: Forecast) -> dict[str, Any]:
    """The fields counted in pours; none for the other ways."""
    if record.pour is None:
        return {}
    return {
        "needed_pours": seen.band(seen.group.pours_per_h * seen.needed_h),
        "left_pours": seen.band(seen.group.pours_per_h * seen.left_h),
        "pour_gain_frac": seen.band(seen.group.efficiency_frac),
    }


def _pace(record: AirRecord, seen: Forecast) -> dict[str, Any]:
    """The fields that say what the liquor wants, what the air brings, and which of the two is slow."""
    rate = rate_l_per_mmol_h(seen.group, float(ph_read(record, 1.0)))
    by_air, by_reaction = limits_h(
        seen.group.batch, rate_l_per_mmol_h=rate, to_exposure=DONE_EXPOSURE, since=seen.group.start
    )
    return {
        "held_back_by": _held_back_by(seen.mean(by_air / (by_air + by_reaction))),
        "air_limited_min": seen.band(60.0 * by_air),
        "reaction_limited_min": seen.band(60.0 * by_reaction),
        "saturation_mg_per_l": significant(OXYGEN_G_PER_MOL.value * seen.group.batch.saturation_mmol_per_l),
        "demand_mg_per_l": seen.band(seen.group.demand_mg_per_l),
        "demand_factor": seen.band(seen.group.demand_factor),
        "kla_per_h": seen.band(seen.group.batch.kla_per_h),
    }


def _gain_and_loss(seen: Forecast) -> tuple[float, float]:
    """Expected share of all the blue that ten more minutes turn, and that they destroy.

    Destroyed: the guessed rate on what is blue already, in the measure in which the liquor is full of air.
    """
    before, after = done_frac(seen.path.now.exposure), done_frac(seen.future.at_h(TEN_MIN_H).exposure)
    full = np.clip(seen.path.now.oxygen_mmol_per_l / seen.group.batch.saturation_mmol_per_l, 0.0, 1.0)
    rate_per_h = priors.OVERRUN_PER_H.centre * float(np.exp(0.5 * priors.OVERRUN_PER_H.spread**2))
    return seen.mean(after - before), seen.mean(rate_per_h * TEN_MIN_H * 0.5 * (before + after) * full)


def _advice(
    seen: Forecast, chance_done_frac: float, gain: float, loss: float
) -> Literal["go_on", "look_again", "stop"]:
    """Stop when it is surely done, or when more would cost more than it brings and it is likelier done than not."""
    if chance_done_frac >= SURE_CHANCE or (chance_done_frac >= 0.5 and gain <= loss):
        return "stop"
    return "look_again" if seen.chance(seen.left_h <= SOON_H) >= LOOK_CHANCE else "go_on"


def _look_again_min(seen: Forecast) -> float:
    """Minutes until it is done with a chance of one in four; at least one, and at most half an hour."""
    quarter = quantiles(60.0 * seen.left_h, [LOOK_CHANCE], weights=seen.drawn.weights)
    return significant(min(max(1.0, float(quarter[0])), LOOK_AT_LATEST_MIN), 2)


def _held_back_by(air_share: float) -> Literal["air", "reaction", "both"]:
    return "air" if air_share > 2 / 3 else "reaction" if air_share < 1 / 3 else "both"


def _alkali_advice(ph: float | None) -> Literal["enough", "watch", "add_more", "unknown"]:
    if ph is None:
        return "unknown"
    return "add_more" if ph < LOW_PH else "watch" if ph < WATCH_PH else "enough"


def _ammonia(record: AirRecord, seen: Forecast, rng: np.random.Generator) -> dict[str, Any]:
    """The fields about ammonia; none with other alkalis."""
    if record.alkali != "ammonia":
        return {}
    ph = np.clip(float(ph_read(record, 0.5)) + seen.group.ph_offset_ph, 0.0, 14.0)
    per_h = ammonia_off_per_h(record, area_m2=vessel_area_m2(record), ph=ph, rng=rng)
    lost_frac = -np.expm1(-per_h * seen.needed_h)
    found = {"ammonia_loss_per_h": seen.band(per_h), "ammonia_loss_frac": seen.band(lost_frac)}
    if record.ammonia_mol is not None:
        found["ammonia_lost_mmol"] = seen.band(1000.0 * record.ammonia_mol * lost_frac)
    return found


def _basis(record: AirRecord) -> Literal["prior", "garden", "readings"]:
    if has_readings(record):
        return "readings"
    taught = record.learned.kla_per_h is not None or record.learned.demand_factor is not None
    return "garden" if taught else "prior"


def _sources(record: AirRecord) -> tuple[str, ...]:
    """Keys of everything this answer rests on."""
    keys = {"benson-krause-1984", "common-practice", priors.RATE_L_PER_MMOL_H.source, priors.PEROXIDE_FRAC.source}
    if record.pour is not None:
        keys |= {rival.source for rival in POURS.values()}
    elif record.bubble is not None:
        keys |= {rival.source for rival in BUBBLES.values()} | {priors.WARMTH_FACTOR.source}
    else:
        keys |= {priors.STIRRED_EXPONENT.source, priors.WARMTH_FACTOR.source}
    if record.alkali == "ammonia":
        keys |= {"sander-2023", GAS_FILM_MM_PER_S.source}
    return tuple(sorted(keys))
