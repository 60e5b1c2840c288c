"""How a vat stands: an ensemble of possible vats, moved by what was seen and read; and what to do."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.bands import Band, BandAtTime, band, normal_band, quantiles, significant
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.media.electrodes import to_she_mv
from bluewright.science.vat.advice import Outlook, advise
from bluewright.science.vat.amounts import INDIGO_G_PER_MOL
from bluewright.science.vat.course import Course, run
from bluewright.science.vat.kinds import KINDS
from bluewright.science.vat.learn import Learned, learn, tells
from bluewright.science.vat.liquor import INDIGO_ELECTRONS, Batch, Now, active_frac
from bluewright.science.vat.redox import REDUCTANTS
from bluewright.science.vat.setting import MAKING_H, Setting, setting
from bluewright.science.vat.state_cautions import cautions
from bluewright.science.vat.state_priors import LEAST_ACTIVE_G_PER_L, READY_FRAC
from bluewright.science.vat.state_record import VatAnswer, VatRecord

CURVE_POINTS: Final = 48
THERMOMETER_SD_C: Final = 0.5
COOLING_SD_FRAC: Final = 0.2
"""Of the warmth above the room that is not read but reckoned."""


def state(record: VatRecord, *, rng: np.random.Generator, learned: Learned | None = None) -> VatAnswer:
    """How the vat stands now, and the next small thing to do.

    What was learned of the same story (`learn`) may come as `learned`: it holds whenever one asks.

    Formula: the course of `course.run` for each of a thousand possible vats, weighed by the likelihood of every reading
    (`signs.log_likelihood`) with tempered sequential Monte Carlo. Raises ModelError if the readings contradict the
    model beyond reach. Sources: stoichiometry; rates and signs are judgements (`state_priors`).
    """
    made = setting(record)
    population = (learn(made, rng=rng) if learned is None else learned).population
    ahead_h = KINDS[record.kind].ready_h.centre * 1.5
    course = run(made, population.z, beyond_h=ahead_h)
    batch = made.batch(population.z)
    rows = len(made.hours)
    now, weights = course.rows[rows - 1], population.weights
    view = _outlook(made, course, batch, weights)
    chosen = advise(made, view, batch, now, weights)
    then = course.at(made.hours[-1] + chosen.look_h)
    unreduced_g = now.mass_g(now.waiting_mmol + now.grains_mmol)
    reduced_g = now.mass_g(now.reduced_mmol)
    reductant = KINDS[record.kind].reductant
    return VatAnswer(
        id=record.id,
        advice=chosen.advice,
        parts=chosen.parts,
        look_again_at=record.now + timedelta(hours=chosen.look_h),
        ready_chance=significant(view.ready_chance, 3),
        ready_then_chance=significant(_chance(ready(then, batch), weights), 3),
        active_g_per_l=band(view.active_g_per_l, weights=weights, digits=3),
        total_g=band(reduced_g + unreduced_g, weights=weights, digits=3),
        reduced_g=band(reduced_g, weights=weights, digits=3),
        unreduced_g=band(unreduced_g, weights=weights, digits=3),
        taken_g=band(now.mass_g(now.taken_mmol), weights=weights, digits=3),
        reductant_g_per_l=None if reductant is None else _reductant(made, now, weights),
        short_chance=significant(view.short_chance, 3),
        ph=band(now.ph, weights=weights, digits=3),
        low_ph_chance=significant(view.low_ph_chance, 3),
        high_ph_chance=significant(view.high_ph_chance, 3),
        temp_c=temp_band(made),
        volume_l=significant(now.volume_l, 4),
        total_curve_g=_curve(made, course.whole_g(), weights),
        reduced_curve_g=_curve(made, course.mass_g("reduced_mmol"), weights),
        active_curve_g_per_l=_curve(made, np.stack([active_g_per_l(row, batch) for row in course.rows]), weights),
        ph_curve=_curve(made, course.of("ph"), weights),
        she_mv=_she_mv(record),
        sharpened=sharpened(record),
        ess=significant(population.ess),
        basis="readings" if any(tells(one) for one in record.readings) else "prior",
        inputs=record,
        cautions=cautions(made, chosen, view),
        sources=_sources(made),
    )


def ready(now: Now, batch: Batch) -> NDArray[np.bool_]:
    """Whether each member's vat is ready: enough of what can be reduced has been, and enough of it dissolves."""
    share = now.reduced_mmol / np.maximum(now.reduced_mmol + now.waiting_mmol, 1e-12)
    return np.asarray((share >= READY_FRAC.value) & (active_g_per_l(now, batch) >= LEAST_ACTIVE_G_PER_L.value))


def active_g_per_l(now: Now, batch: Batch) -> Floats:
    """Indigo that is reduced and dissolved, g/L."""
    grams = now.reduced_mmol * INDIGO_G_PER_MOL / 1000.0
    return grams * active_frac(now.ph, reduced_g_per_l=grams, acid_g_per_l=batch["acid_g_per_l"])


def active_at(found: VatAnswer, at: datetime) -> Band:
    """Indigo that was reduced and dissolved at a moment between start and now, g/L, by straight lines of its curve.

    Raises InputError where the moment lies outside.
    """
    record = found.inputs
    if not record.started <= at <= record.now:
        raise InputError(
            where="at", what="it lies before the start of the vat or after now", right="give a moment between them"
        )
    curve = found.active_curve_g_per_l
    hours = [(one.time - record.started).total_seconds() for one in curve]
    where = (at - record.started).total_seconds()
    p5, p50, p95 = (
        significant(float(np.interp(where, hours, [getattr(one, name) for one in curve])), 3)
        for name in ("p5", "p50", "p95")
    )
    return Band(p5=p5, p50=p50, p95=p95)


def sharpened(record: VatRecord) -> int:
    """How often it was given reductant, or feed, after the setting."""
    what = {KINDS[record.kind].reductant} if KINDS[record.kind].reductant else {"bran", "madder"}
    start = record.started + timedelta(hours=MAKING_H)
    return len({one.time for one in record.additions if one.what in what and one.time > start})


def temp_band(made: Setting) -> Band:
    """Warmth now: as read, held, or reckoned by cooling, with a fifth of what is above the room in doubt."""
    here, room = made.temp_c(float(made.hours[-1])), made.record.room_c
    read = made.record.hold_c is not None or made.temps_c[-1][0] >= float(made.hours[-1]) - 0.5
    sd = float(np.hypot(THERMOMETER_SD_C, 0.0 if read else COOLING_SD_FRAC * (here - room)))
    return normal_band(here, sd, digits=3)


def _outlook(made: Setting, course: Course, batch: Batch, weights: Floats) -> Outlook:
    rows = len(made.hours)
    now = course.rows[rows - 1]
    future = [(float(at - made.hours[-1]), _chance(ready(row, batch), weights)) for at, row in course.after(rows)]
    points = made.points
    return Outlook(
        active_g_per_l=active_g_per_l(now, batch),
        ready_chance=_chance(ready(now, batch), weights),
        short_chance=_chance(now.electrons_mmol < INDIGO_ELECTRONS * now.waiting_mmol, weights),
        low_ph_chance=_chance(now.ph < points.ph.low, weights),
        high_ph_chance=_chance(now.ph > points.ph.high, weights),
        reachable_g_per_l=(now.reduced_mmol + now.waiting_mmol) * INDIGO_G_PER_MOL / 1000.0,
        ahead_chance=tuple(future),
        temp_c=made.temp_c(float(made.hours[-1])),
        sharpened=sharpened(made.record),
    )


def _chance(holds: NDArray[np.bool_], weights: Floats) -> float:
    return float(np.sum(weights[holds]))


def _reductant(made: Setting, now: Now, weights: Floats) -> Band:
    name = KINDS[made.record.kind].reductant
    assert name is not None
    own = REDUCTANTS[name]
    return band(now.electrons_mmol / own.to_indigo.electrons * own.molar_g_per_mol / 1000.0, weights=weights, digits=3)


def _she_mv(record: VatRecord) -> tuple[float, ...]:
    """Every potential that was read, against the hydrogen electrode."""
    read = [(one.potential_mv, one.electrode) for one in record.readings]
    return tuple(significant(to_she_mv(mv, electrode=electrode)) for mv, electrode in read if mv is not None)


def _curve(made: Setting, values: Floats, weights: Floats) -> tuple[BandAtTime, ...]:
    """The band of values (t, n) at about `CURVE_POINTS` moments up to now."""
    last = len(made.hours)
    rows = np.unique(np.linspace(0, last - 1, min(CURVE_POINTS, last)).round().astype(int))
    low, mid, high = quantiles(values[rows].T, [0.05, 0.5, 0.95], weights=weights)
    return tuple(
        BandAtTime(
            time=made.record.started + timedelta(hours=float(made.hours[row])),
            p5=significant(low[k]), p50=significant(mid[k]), p95=significant(high[k]),
        )
        for k, row in enumerate(rows)
    )  # fmt: skip


def _sources(made: Setting) -> tuple[str, ...]:
    used = {prior.source for prior in (*made.priors.values(), *made.purities.values())} | {
        "iupac-atomic-weights-2021", "benson-krause-1984", "blackburn-2009", made.points.ph.source, "delmoral-2006",
    }  # fmt: skip
    if any(one.potential_mv is not None for one in made.record.readings):
        used.add("crc-potentials")
    return tuple(sorted(used))
