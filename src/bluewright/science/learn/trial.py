"""Was it worth it? A trial of few tubs, told with its range, its tubs, and what would change it.

Tubs of one picking are compared with each other on a logarithmic scale; how unlike tubs are is learned from the trial
together with what is believed beforehand; lots drawn again in every way say how often chance alone would do it.
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.learn.mixed_normals import MixedNormals
from bluewright.science.learn.pairs_tests import regroup, sign_flip
from bluewright.science.learn.trial_answer import (
    Belief,
    Believed,
    BlockFound,
    Decision,
    Kind,
    MoreBlocks,
    TrialAnswer,
    WayAgainst,
    WayFound,
)
from bluewright.science.learn.trial_beliefs import Noise, Shrunk, flat, noise_after, noise_before, own_noise, shrunk
from bluewright.science.learn.trial_cautions import cautions
from bluewright.science.learn.trial_cells import Counted, alone, counted
from bluewright.science.learn.trial_fit import Fit, fit_alone, ratios
from bluewright.science.learn.trial_lost import lost_factors
from bluewright.science.learn.trial_priors import ALIKE_FACTOR, EFFECT, OPEN_MIND, SCEPTIC, SURE_CHANCE
from bluewright.science.learn.trial_record import TrialRecord

DRAWS: Final = 4000
LEAST_PLAIN_DOF: Final = 2
"""From three pairs on a range from the tubs alone is told."""
LEAST_DECIDED: Final = 3
"""From three pairs on something is decided."""
FURTHER: Final = (2, 4, 8)
_PRIORS: Final[tuple[tuple[Belief, Prior], ...]] = (("sceptic", SCEPTIC), ("usual", EFFECT), ("open_mind", OPEN_MIND))
SOURCES: Final = ("armitage-1969", "bluewright-learn", "ernst-2004", "gelman-2013", "student-1908", "yates-1935")


def trial(record: TrialRecord, *, rng: np.random.Generator) -> TrialAnswer:
    """Each way beside the usual one, with ranges, chances, what it is worth, and guards against fooling oneself.

    Formula: y = block + way on logarithms by least squares; noise by a scaled inverse chi-squared prior and the
    scatter; with more than two ways, differences drawn in towards none. Raises InputError where no way has a counted
    rival.
    """
    cells = counted(record)
    fit = _fit(record, cells)
    noise = noise_after(noise_before(in_blocks=cells.in_blocks, earlier=record.earlier), fit)
    pooled = shrunk(fit, noise) if len(record.ways) > 2 and fit.dof > 0 else None
    levels = _levels(record)
    against = tuple(
        _against(record, cells, fit, noise, pooled, levels, which, rng) for which in range(len(record.ways) - 1)
    )
    kind: Kind = "alone" if not cells.in_blocks else "pairs" if len(record.ways) == 2 else "blocks"
    blocks = len({cell.block for cell in cells.cells}) if cells.in_blocks else min(cells.tubs_of)
    return TrialAnswer(
        id=record.id, kind=kind, blocks=blocks,
        ways=_ways(record, cells, levels, _best(pooled, record, rng)), against=against,
        measuring_frac=_measuring(fit), further=_further(against[0].blocks, fit, noise) if fit.dof else (),
        basis="readings", inputs=record,
        cautions=cautions(record, cells, blocks=blocks, pair_sd=_pair_sd(fit, cells)), sources=SOURCES,
    )  # fmt: skip


def _fit(record: TrialRecord, cells: Counted) -> Fit:
    """Log ratios to the usual way; raises InputError where one has no rival."""
    for which, way in enumerate(record.ways):
        if not cells.tubs_of[which] or (which and cells.in_blocks and not _by_block(record, cells, which)):
            raise InputError(
                where="tubs", what=f"there is no tub of {way.name!r} that counts beside one of {record.ways[0].name!r}",
                right="give the tubs of one picking the same block, with a value each; or leave that way out",
            )  # fmt: skip
    return ratios(cells.cells, ways=len(record.ways), in_blocks=cells.in_blocks)


def _by_block(record: TrialRecord, cells: Counted, which: int) -> list[tuple[str, float]]:
    """Block by block the log ratio of a way to the usual one, in the order of the record."""
    logs = {(cell.block, cell.way): cell.mean_log for cell in cells.cells}
    blocks = dict.fromkeys(tub.block for tub in record.tubs)
    return [
        (block, logs[block, which] - logs[block, 0]) for block in blocks if {(block, which), (block, 0)} <= set(logs)
    ]


def _against(
    record: TrialRecord, cells: Counted, fit: Fit, noise: Noise, pooled: Shrunk | None, levels: Fit, which: int,
    rng: np.random.Generator,
) -> WayAgainst:  # fmt: skip
    by_block = _by_block(record, cells, which + 1) if cells.in_blocks else []
    name, usual = record.ways[which + 1].name, record.ways[0].name
    blocks = len(by_block) if cells.in_blocks else min(cells.tubs_of[0], cells.tubs_of[which + 1])
    found = WayAgainst(
        way=name, beside=usual, blocks=blocks, more_blocks=sum(one > 0 for _block, one in by_block),
        by_block=tuple(BlockFound(block=block, ratio_factor=significant(math.exp(one))) for block, one in by_block),
    )  # fmt: skip
    if fit.dof == 0:
        return found
    known = flat(fit, noise, which) if pooled is None else pooled.of(which)
    chance, least = _by_lots(cells, by_block, which + 1, rng)
    ratio = np.exp(known.draw(rng, DRAWS))
    usual_draws = _usual_g(record, levels, rng)
    gain_g = None if usual_draws is None else usual_draws * (ratio - 1.0)
    worth = _worth(record, which + 1, ratio, usual_draws, known)
    more_h, lost = _more_h(record, which + 1), lost_factors(record, fit, which)
    return WayAgainst(
        way=name, beside=usual, blocks=blocks, more_blocks=found.more_blocks, by_block=found.by_block,
        ratio_factor=known.factor_band(), more_chance=_above(known, 1.0),
        tenth_more_chance=_above(known, ALIKE_FACTOR.value),
        tenth_less_chance=significant(known.below(-math.log(ALIKE_FACTOR.value)), 3),
        pair_sd=_pair_sd(fit, cells), flip_chance=significant(chance, 3), least_flip_chance=significant(least, 3),
        beliefs=tuple(_beliefs(fit, noise, which)),
        gain_g=None if gain_g is None else band(gain_g),
        g_per_more_h=None if gain_g is None or not more_h else band(gain_g / more_h),
        worth_chance=significant(worth, 3), decision=_decided(record, known, worth, blocks),
        turning_factor=significant(math.exp(-blocks * fit.estimate_log[which])) if cells.in_blocks else None,
        lost_low_factor=None if lost is None else significant(lost[0]),
        lost_high_factor=None if lost is None else significant(lost[1]),
    )  # fmt: skip


def _by_lots(
    cells: Counted, by_block: list[tuple[str, float]], which: int, rng: np.random.Generator
) -> tuple[float, float]:
    if cells.in_blocks:
        return sign_flip([one for _block, one in by_block], rng=rng)
    groups = [np.array([cell.mean_log for cell in cells.cells if cell.way == way]) for way in (0, which)]
    return regroup(groups[0], groups[1], rng=rng)


def _above(known: MixedNormals, factor: float) -> float:
    return significant(1.0 - known.below(math.log(factor)), 3)


def _beliefs(fit: Fit, noise: Noise, which: int) -> list[Believed]:
    seen = []
    if fit.dof >= LEAST_PLAIN_DOF:
        own = flat(fit, own_noise(fit), which)
        seen.append(Believed(belief="own_tubs", ratio_factor=own.factor_band(), more_chance=_above(own, 1.0)))
    usual = flat(fit, noise, which)
    seen.append(Believed(belief="tubs_as_usual", ratio_factor=usual.factor_band(), more_chance=_above(usual, 1.0)))
    for belief, prior in _PRIORS:
        one = shrunk(fit, noise, effect_sd=prior.spread).of(which)
        seen.append(Believed(belief=belief, ratio_factor=one.factor_band(), more_chance=_above(one, 1.0)))
    return seen


def _levels(record: TrialRecord) -> Fit:
    """The mean logarithm of each way over all tubs that have a value, from picking to picking."""
    return fit_alone(alone(record), ways=len(record.ways))


def _level(levels: Fit, which: int) -> MixedNormals:
    return flat(levels, noise_after(noise_before(in_blocks=False, earlier=None), levels), which)


def _usual_g(record: TrialRecord, levels: Fit, rng: np.random.Generator) -> Floats | None:
    """Grams of pure blue from a tub of the usual way, (DRAWS,)."""
    if record.leaf_kg is None or record.outcome != "pure_blue":
        return None
    return np.asarray(record.leaf_kg * np.exp(_level(levels, 0).draw(rng, DRAWS)))


def _worth(record: TrialRecord, which: int, ratio: Floats, usual_g: Floats | None, known: MixedNormals) -> float:
    """Chance that it is worth it: grams for an hour of work where that is asked, else the least gain."""
    work_h, more_h = record.ways[which].work_h, _more_h(record, which)
    if record.least_g_per_h is not None and usual_g is not None:
        if record.assigned == "leaf" and work_h is not None:
            return float(np.mean(usual_g * ratio >= record.least_g_per_h * work_h))
        if record.assigned != "leaf" and more_h is not None:
            return float(np.mean(usual_g * (ratio - 1.0) >= record.least_g_per_h * more_h))
    edge = math.log1p(record.least_gain_frac)
    return known.below(-edge) if record.less_is_better else 1.0 - known.below(edge)


def _more_h(record: TrialRecord, which: int) -> float | None:
    """Hours of work that a tub of a way takes more than one of the usual way; below 0: less."""
    usual_h, work_h = record.ways[0].work_h, record.ways[which].work_h
    return None if usual_h is None or work_h is None else work_h - usual_h


def _decided(record: TrialRecord, known: MixedNormals, worth: float, blocks: int) -> Decision:
    if blocks < LEAST_DECIDED:
        return "open"
    edge = math.log(ALIKE_FACTOR.value)
    asked = record.least_g_per_h is not None or record.least_gain_frac != 0.0
    if not asked and known.below(edge) - known.below(-edge) >= SURE_CHANCE.value:
        return "alike"
    if worth >= SURE_CHANCE.value:
        return "take"
    return "leave" if worth <= 1.0 - SURE_CHANCE.value else "open"


def _ways(record: TrialRecord, cells: Counted, levels: Fit, best: Floats | None) -> tuple[WayFound, ...]:
    found = []
    for which, way in enumerate(record.ways):
        own = [tub for tub in record.tubs if tub.way == way.name]
        spoilt = sum(bool(tub.spoilt) for tub in own)
        got = _level(levels, which) if cells.tubs_of[which] > 1 else None
        grams = got if record.leaf_kg is not None and record.outcome == "pure_blue" else None
        found.append(
            WayFound(
                way=way.name, counted=cells.tubs_of[which], spoilt=spoilt,
                missing=len(own) - spoilt - cells.tubs_of[which],
                got=None if got is None else got.factor_band(),
                got_g=None if grams is None else _times(grams.factor_band(), record.leaf_kg or 1.0),
                got_g_per_h=None
                if grams is None or way.work_h is None
                else _times(grams.factor_band(), (record.leaf_kg or 1.0) / way.work_h),
                best_chance=None if best is None else significant(float(best[which]), 3),
            )
        )  # fmt: skip
    return tuple(found)


def _times(one: Band, factor: float) -> Band:
    p5, p50, p95 = (significant(factor * value) for value in (one.p5, one.p50, one.p95))
    return Band(p5=p5, p50=p50, p95=p95)


def _best(pooled: Shrunk | None, record: TrialRecord, rng: np.random.Generator) -> Floats | None:
    """Chance of each of several ways to be the best, (ways,)."""
    if pooled is None:
        return None
    drawn = np.hstack([np.zeros((DRAWS, 1)), pooled.draw(rng, DRAWS)])
    which = np.argmin(drawn, axis=1) if record.less_is_better else np.argmax(drawn, axis=1)
    return np.asarray(np.bincount(which, minlength=len(record.ways)) / DRAWS)


def _pair_sd(fit: Fit, cells: Counted) -> float | None:
    """Spread of the log ratio of two tubs: the square root of twice the residual variance."""
    return significant(math.sqrt(2.0 * fit.rss / fit.dof), 3) if fit.dof and cells.in_blocks else None


def _measuring(fit: Fit) -> float | None:
    """Share of the residual variance that measuring by itself is expected to make, at most all."""
    if fit.dof < LEAST_PLAIN_DOF or fit.rss <= 0 or fit.measured <= 0:
        return None
    return significant(min(1.0, fit.measured * fit.dof / fit.rss), 2)


def _further(blocks: int, fit: Fit, noise: Noise) -> tuple[MoreBlocks, ...]:
    """Half of the likely range of the first difference with more blocks, noise and shared errors as now."""
    found = []
    for more in FURTHER:
        share = blocks / (blocks + more)
        later = Fit(
            estimate_log=np.zeros(1), unit_factor=fit.unit_factor[:1, :1] * share, shared=fit.shared[:1, :1],
            rss=fit.rss, dof=fit.dof, measured=fit.measured,
        )  # fmt: skip
        half = flat(later, Noise(dof=noise.dof + more * fit.estimate_log.size, tub_sd=noise.tub_sd), 0).point(0.95)
        found.append(MoreBlocks(more=more, either_way_factor=significant(math.exp(half), 3)))
    return tuple(found)
