"""What one finished batch says of the scores of its priors: a normal message, by repeated linearisation.

Scores z are drawn from the present belief; the cue of every sign that was noted, every number that was read and the
logarithm of what was got are computed for each draw, and told as linear in z with a scatter of their own, by least
squares (statistical linearisation). With that, levels of signs are taken in by expectation propagation and numbers
exactly; the draws are made anew from the belief so found, three times in all. The last round's message is kept: a
precision matrix and a vector, with what concerns this batch alone (the ways of its temperature) integrated out.

Since a message is a likelihood under the population's priors, it does not depend on what the garden believes: it can
be kept, joined in any order, and taken out again.

Sources: Garcia-Fernandez and others 2015 (key garcia-2015) for the linearisation, Minka 2001 (key minka-2001).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from bluewright.science import thread
from bluewright.science.base.levels import level_chance
from bluewright.science.base.sourced import Floats
from bluewright.science.media.stoichiometry import INDIGO_G_PER_MMOL_PRECURSOR
from bluewright.science.memory.record import Batch
from bluewright.science.memory.shares import KEPT_NAME
from bluewright.science.pigment.priors import KEPT
from bluewright.science.steep.ensemble import cue, measured, noticed, own_sd
from bluewright.science.steep.kinetics import Course
from bluewright.science.steep.numbers import NUMBERS, NumberName
from bluewright.science.steep.record import Reading
from bluewright.science.steep.setting import Setting, setting
from bluewright.science.steep.signs import SIGNS, Sign, SignName

DRAWS: Final = 400
ROUNDS: Final = 3
SWEEPS: Final = 12
PATHS: Final = 200
"""Draws of the tub's temperature from which its ways are taken."""
DAMPING: Final = 0.7
LEAST_SD: Final = 1e-6
THREE_DAYS_H: Final = 72.0
LOOKED_BACK: Final = 40
"""Draws of what is believed of a batch in the end, for looking back at its straining."""
_NODES, _WEIGHTS = np.polynomial.hermite_e.hermegauss(21)
_WEIGHTS = _WEIGHTS / _WEIGHTS.sum()


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A quantity as linear in the scores: mean + slope z, and what scatters beside."""

    mean: float
    slope: Floats
    """(d,)"""
    variance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What a batch says of the scores named."""

    names: tuple[str, ...]
    precision: Floats
    """Of the message, (d, d): no direction says less than nothing."""
    push: Floats
    """Precision times place, (d,)."""
    log_g_before: Line
    """The natural logarithm of what it gives, grams, as foretold before anything was seen of it."""
    share_frac: Floats
    """What its straining gave as a share of the best, in `LOOKED_BACK` draws of what is believed of it in the end."""
    three_days_frac: Floats
    """The same for straining after three days."""


@dataclass(frozen=True, slots=True)
class SeenSign:
    """One sign of one look."""

    look: int
    name: SignName
    sign: Sign
    level: int


@dataclass(frozen=True, slots=True)
class Seen:
    """Everything noted of a batch, in one order: signs, numbers by look, the logarithm of grams, the share kept."""

    signs: list[SeenSign]
    numbers: list[tuple[int, NumberName]]
    """Look and name of each number read."""
    values: Floats
    """Of numbers, grams and share."""
    variances: Floats


def told(batch: Batch, *, rng: np.random.Generator) -> Told:
    """What a batch says. Raises InputError or ModelError as the steep does."""
    ready = _setting(batch, rng)
    names = (*ready.names, KEPT_NAME)
    seen = _seen(batch, ready)
    strained = ready.row(batch.strained)
    rows = sorted({*(ready.row(r.time) for r in ready.record.readings), strained})
    d = len(names)
    mean: Floats = np.zeros(d)
    root: Floats = np.eye(d)
    precision: Floats = np.zeros((d, d))
    push: Floats = np.zeros(d)
    before = None
    for _ in range(ROUNDS):
        white = rng.standard_normal((DRAWS // 2, d))
        z = mean + np.concatenate([white, -white]) @ root.T
        outputs, log_g = _outputs(batch, ready, z, rows=rows, seen=seen)
        at, slopes, extra = _linear(z, outputs)
        if before is None:
            g_at, g_slope, g_extra = _linear(z, log_g[:, None])
            before = Line(mean=float(g_at[0]), slope=g_slope[0], variance=float(g_extra[0, 0]))
        if not outputs.shape[1]:
            break
        precision, push = message(seen, at=at, slopes=slopes, extra=extra)
        covariance = np.linalg.inv(np.eye(d) + precision)
        mean = np.asarray(covariance @ push)
        root = np.asarray(np.linalg.cholesky(0.5 * (covariance + covariance.T)))
    assert before is not None  # at least one round
    share, three_days = _looked_back(batch, ready, mean + rng.standard_normal((LOOKED_BACK, d)) @ root.T)
    kept = [k for k, name in enumerate(names) if not name.startswith("way ")]
    precision, push = _without(precision, push, kept)
    return Told(
        names=tuple(names[k] for k in kept),
        precision=precision,
        push=push,
        log_g_before=_only(before, kept),
        share_frac=share,
        three_days_frac=three_days,
    )


def _setting(batch: Batch, rng: np.random.Generator) -> Setting:
    """The steep with looks up to its straining, which stands on the grid, and without what its garden has taught."""
    looks = tuple(reading for reading in batch.steep.readings if reading.time <= batch.strained)
    ended = Reading(time=batch.strained)
    steep = replace(batch.steep, garden=None, now=max(batch.strained, batch.steep.now), readings=(*looks, ended))

    def paths(hours: Floats, n: int) -> Floats:
        return thread.tub_paths(steep, hours, rng=rng, n=n)

    made = setting(steep, content=thread.content_of(steep, rng=rng), temp_paths=paths, draws=PATHS)
    return replace(made, record=replace(steep, readings=looks))


def _seen(batch: Batch, ready: Setting) -> Seen:
    """What was noted."""
    signs: list[SeenSign] = []
    values: list[float] = []
    variances: list[float] = []
    read: list[tuple[int, NumberName]] = []
    for index, reading in enumerate(ready.record.readings):
        signs += [SeenSign(index, name, SIGNS[name], level) for name, level in noticed(reading).items()]
        for number, value in measured(reading).items():
            if number == "temp_c":  # known when the ways of temperature were drawn
                continue
            sd = float(NUMBERS[number].scatter(np.array([value]), own_sd(reading, number))[0])
            values.append(value)
            variances.append(sd**2)
            read.append((index, number))
    if batch.pure_g is not None:
        values.append(float(np.log(batch.pure_g)))
        variances.append(batch.pure_log_sd**2)
    if batch.kept is not None:
        values.append(batch.kept.mean_frac)
        variances.append(batch.kept.sd_frac**2)
    return Seen(signs, read, np.array(values), np.array(variances))


def _outputs(batch: Batch, ready: Setting, z: Floats, *, rows: list[int], seen: Seen) -> tuple[Floats, Floats]:
    """What each draw (n, d) would have shown, (n, m) in the order of `Seen`, and its log grams, (n,)."""
    course = ready.course(z, rows=rows)
    states = [course.at([rows.index(ready.row(reading.time))]) for reading in ready.record.readings]
    columns = [cue(ready, z, states[one.look], one.name)[0] for one in seen.signs]
    columns += [NUMBERS[name].mean(states[look], ready.column(z, name))[0] for look, name in seen.numbers]
    kept = KEPT.from_z(z[:, -1])
    log_g = np.log(grams(ready, z, course.at([rows.index(ready.row(batch.strained))]))[0] * kept)
    if batch.pure_g is not None:
        columns.append(log_g)
    if batch.kept is not None:
        columns.append(kept)
    return np.stack(columns, axis=1) if columns else np.zeros((len(z), 0)), log_g


def grams(ready: Setting, z: Floats, course: Course) -> Floats:
    """Pure indigo that straining gives, before washing and drying, (t, n)."""
    finish = ready.batch(z).values["finish_frac"]
    floor = 1e-9 * course.start_mmol_per_l
    recoverable = np.maximum(course.recoverable_mmol_per_l, floor)
    return np.asarray(recoverable * finish * ready.liquor_l * INDIGO_G_PER_MMOL_PRECURSOR)


def _linear(z: Floats, outputs: Floats) -> tuple[Floats, Floats, Floats]:
    """Intercepts (m,), slopes (m, d) and covariance of what is left (m, m) of outputs (n, m) against scores (n, d)."""
    n, d = z.shape
    design = np.column_stack([np.ones(n), z])
    found = np.linalg.lstsq(design, outputs, rcond=None)[0]
    left = outputs - design @ found
    return np.asarray(found[0]), np.asarray(found[1:].T), np.asarray(left.T @ left / (n - d - 1))


def message(seen: Seen, *, at: Floats, slopes: Floats, extra: Floats) -> tuple[Floats, Floats]:
    """Precision and push of all that was noted, given outputs linear in the scores.

    With outputs y = at + slopes z + e and a site W, v for each y: precision = slopes' S slopes and push = slopes' S
    (v/W - at), S = (extra + 1/W)^-1. The sites of numbers are exact, those of signs by expectation propagation.
    """
    signs, m = len(seen.signs), len(at)
    site = np.zeros(m)
    pull = np.zeros(m)
    site[signs:] = 1 / seen.variances
    pull[signs:] = seen.values / seen.variances
    prior = slopes @ slopes.T + extra + LEAST_SD * np.eye(m)
    here = np.arange(signs)
    for _ in range(SWEEPS if signs else 0):
        mean, variance = _marginals(prior, at, site, pull)
        tau = np.maximum(1 / variance[here] - site[here], 1e-9)
        nu = mean[here] / variance[here] - pull[here]
        tilted_mean, tilted_variance = _tilted(nu / tau, 1 / tau, seen.signs)
        site[here] += DAMPING * (np.maximum(1 / tilted_variance - tau, 0.0) - site[here])
        pull[here] += DAMPING * (tilted_mean / tilted_variance - nu - pull[here])
    # S = W - W (K^-1 + W)^-1 W with K = extra, written so that sites of nothing need no inverse.
    half = np.sqrt(site)
    inner = np.eye(m) + half[:, None] * (extra + LEAST_SD * np.eye(m)) * half
    solved = np.linalg.solve(inner, half[:, None] * slopes)
    target = np.divide(pull, half, out=np.zeros(m), where=half > 0) - half * at
    precision = (half[:, None] * slopes).T @ solved
    return 0.5 * (precision + precision.T), solved.T @ target


def _marginals(prior: Floats, at: Floats, site: Floats, pull: Floats) -> tuple[Floats, Floats]:
    """Means and variances (m,) of the outputs under the joint normal of prior and sites."""
    half = np.sqrt(site)
    inner = np.eye(len(at)) + half[:, None] * prior * half
    covariance = prior - prior @ (half[:, None] * np.linalg.solve(inner, half[:, None] * prior))
    return at + covariance @ (pull - site * at), np.maximum(np.diag(covariance), 1e-12)


def _tilted(mean: Floats, variance: Floats, signs: list[SeenSign]) -> tuple[Floats, Floats]:
    """Means and variances (k,) of cues believed normal once their signs were seen at a level, by quadrature."""
    places = mean[:, None] + np.sqrt(variance)[:, None] * _NODES
    chances = np.stack(
        [
            level_chance(row, cuts=s.sign.cuts, slope=s.sign.slope, level=s.level)
            for row, s in zip(places, signs, strict=True)
        ]
    )
    weights = _WEIGHTS * chances
    weights = weights / weights.sum(axis=1, keepdims=True)
    middle = np.sum(weights * places, axis=1)
    return middle, np.maximum(np.sum(weights * (places - middle[:, None]) ** 2, axis=1), 1e-9)


def _without(precision: Floats, push: Floats, kept: list[int]) -> tuple[Floats, Floats]:
    """The message with every other score integrated over its standard-normal prior."""
    gone = [k for k in range(len(push)) if k not in set(kept)]
    inner = precision[np.ix_(gone, gone)] + np.eye(len(gone))
    across = np.linalg.solve(inner, precision[np.ix_(gone, kept)])
    made = precision[np.ix_(kept, kept)] - precision[np.ix_(kept, gone)] @ across
    return 0.5 * (made + made.T), push[kept] - across.T @ push[gone]


def _only(line: Line, kept: list[int]) -> Line:
    """A line in fewer scores, the others' scatter beside."""
    gone = np.delete(line.slope, kept)
    return Line(mean=line.mean, slope=line.slope[kept], variance=line.variance + float(gone @ gone))


def _looked_back(batch: Batch, ready: Setting, z: Floats) -> tuple[Floats, Floats]:
    """Shares of the best that straining then, and after three days, gives in each draw."""
    course = ready.course(z)
    got = course.recoverable_mmol_per_l
    share = got / np.maximum(got.max(axis=0), 1e-300)
    three = np.array([np.interp(THREE_DAYS_H, course.hours, column) for column in share.T])
    return share[ready.row(batch.strained)], three
