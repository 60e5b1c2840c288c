"""Looking back: what would have been foretold of each batch by what was known when it was begun, and what was got.

Batches are gone through by the clock. When one is begun its grams are foretold, from the prior alone and from what had
been learned by then; once its jar is known, however late, it is learned from, one message after another (the same
linear model as in `model`, in its recursive form). The scatter of batches is taken as usual throughout: what the later
ones taught of it must not improve the earlier forecasts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from math import erf, exp, log, sqrt
from typing import Literal

import numpy as np

from bluewright.science.base.bands import NINETY_Z, Band, significant
from bluewright.science.base.sourced import Floats
from bluewright.science.memory.model import Belief, Layout, Said, learn, own_scatter, softened
from bluewright.science.memory.record import Batch, PastCall, Score


@dataclass(frozen=True, slots=True, kw_only=True)
class Foretold:
    """Log grams as foretold, before and with what was known, normal; and what was got."""

    index: int
    started: datetime
    got_log: float
    before: tuple[float, float]
    """Mean and standard deviation of the logarithm of what the jar would be told to hold."""
    now: tuple[float, float]
    known: int

    @property
    def rank_frac(self) -> float:
        """Chance given to less than was got."""
        return 0.5 * (1 + erf((self.got_log - self.now[0]) / self.now[1] / sqrt(2)))


def look_back(
    batches: Sequence[tuple[int, Batch, Said]], *, layout: Layout, prior: tuple[Floats, Floats]
) -> list[Foretold]:
    """Every batch with a yield, foretold when it was begun, in that order."""
    belief = learn((), layout=layout, prior=prior)
    own = own_scatter(layout.names, squares=belief.squares)
    waiting = sorted(batches, key=lambda b: b[1].known)
    found, known = [], 0
    for index, batch, said in sorted(batches, key=lambda b: b[1].steep.started):
        while waiting and waiting[0][1].known <= batch.steep.started:
            belief = one_more(belief, waiting.pop(0)[2], own)
            known += 1
        if batch.pure_g is not None:
            line = said.told.log_g_before
            mean, covariance = belief.of(said.keys)
            spread = line.variance + batch.pure_log_sd**2
            found.append(
                Foretold(
                    index=index,
                    started=batch.steep.started,
                    got_log=log(batch.pure_g),
                    before=(line.mean, sqrt(float(line.slope @ line.slope) + spread)),
                    now=(
                        line.mean + float(line.slope @ mean),
                        sqrt(float(line.slope @ covariance @ line.slope) + spread),
                    ),
                    known=known,
                )
            )
    return found


def one_more(belief: Belief, said: Said, own: Floats) -> Belief:
    """The belief after one message more."""
    layout = belief.layout
    groups = layout.groups(said.keys)
    precision, push = softened(said.told, own + layout.unnamed(groups))
    here, picks = layout.picked(groups)
    across = belief.covariance[:, here] @ picks.T
    inner = np.eye(len(own)) + precision @ (picks @ across[here])
    covariance = belief.covariance - across @ np.linalg.solve(inner, precision @ across.T)
    mean = belief.mean + covariance[:, here] @ (picks.T @ (push - precision @ (picks @ belief.mean[here])))
    return Belief(
        layout=layout,
        mean=mean,
        covariance=0.5 * (covariance + covariance.T),
        scatter=belief.scatter,
        speed_scatter=belief.speed_scatter,
    )


def past_calls(found: Sequence[Foretold]) -> tuple[PastCall, ...]:
    """For the answer."""
    return tuple(
        PastCall(
            index=one.index,
            started=one.started,
            got_g=significant(exp(one.got_log)),
            before_g=_grams(one.before),
            foretold_g=_grams(one.now),
            rank_frac=significant(one.rank_frac, 3),
            batches_known=one.known,
        )
        for one in found
    )


def scores(found: Sequence[Foretold]) -> tuple[Score, ...]:
    """All, and with four yields or more the two halves of them in order of time."""
    if len(found) < 2:
        return ()
    half = len(found) // 2
    parts: list[tuple[Literal["all", "early", "late"], Sequence[Foretold]]] = [("all", found)]
    if len(found) >= 4:
        parts += [("early", found[:half]), ("late", found[half:])]
    return tuple(_score(said, part) for said, part in parts)


def _score(said: Literal["all", "early", "late"], part: Sequence[Foretold]) -> Score:
    ranks = np.array([one.rank_frac for one in part])
    return Score(
        said=said,
        batches=len(part),
        before_error_log=significant(float(np.mean([abs(one.got_log - one.before[0]) for one in part])), 3),
        foretold_error_log=significant(float(np.mean([abs(one.got_log - one.now[0]) for one in part])), 3),
        before_width_factor=significant(exp(2 * NINETY_Z * float(np.mean([one.before[1] for one in part]))), 3),
        foretold_width_factor=significant(exp(2 * NINETY_Z * float(np.mean([one.now[1] for one in part]))), 3),
        held_half_frac=significant(float(np.mean(np.abs(ranks - 0.5) <= 0.25)), 3),
        held_ninety_frac=significant(float(np.mean(np.abs(ranks - 0.5) <= 0.45)), 3),
    )


def _grams(normal: tuple[float, float]) -> Band:
    mean, sd = normal
    return Band(
        p5=significant(exp(mean - NINETY_Z * sd)),
        p50=significant(exp(mean)),
        p95=significant(exp(mean + NINETY_Z * sd)),
    )
