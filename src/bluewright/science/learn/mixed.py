"""What do many batches say of their causes? A hierarchical model: causes, and luck of season, bed and day.

All effects are linear on the logarithm and integrated exactly; only the few spreads are drawn, with half-normal priors,
by the shared sampler. Each effect is then a weighted set of normals.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

import numpy as np

from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.posterior import sample
from bluewright.science.learn.mixed_columns import Column, Columns, always_together, columns, ways_apart
from bluewright.science.learn.mixed_normals import MixedNormals
from bluewright.science.learn.mixed_record import BatchesAnswer, BatchesRecord, CauseFound, SpreadFound
from bluewright.science.learn.mixed_work import Work

DRAWS: Final = 400
LEAST_ESS: Final = 100.0


def batches(record: BatchesRecord, *, rng: np.random.Generator) -> BatchesAnswer:
    """What each cause does, everything else that was noted being equal, and how unlike batches are besides.

    Formula: y = X b + Z u + e, b ~ N(0, t^2), u_k ~ N(0, s_k^2), e ~ N(0, s^2), half-normal s; b and u integrated
    exactly, the spreads drawn by importance sampling. Raises InputError where nothing
    differs, ModelError as `base.posterior.sample` does.
    """
    built = columns(record)
    if not built.causes:
        raise InputError(
            where="batches", what="nothing that was noted differs between them",
            right="give two ways, or what else was different: warmth, hours, alkali",
        )  # fmt: skip
    work = Work(built)
    found = sample(work.likelihood, size=work.spreads, rng=rng, draws=DRAWS)
    sds = work.sds(found.z)
    mean, sd = work.causes_at(sds)
    return BatchesAnswer(
        id=record.id, counted=len(built.y),
        causes=tuple(
            _cause(built, column, MixedNormals(weights=np.full(len(sds), 1 / len(sds)), mean=mean[:, k], sd=sd[:, k]))
            for k, column in enumerate(built.causes)
        ),
        spreads=(
            *(SpreadFound(of=name, log_sd=band(sds[:, k])) for k, (name, _z) in enumerate(built.groups)),
            SpreadFound(of="rest", log_sd=band(sds[:, -1])),
        ),
        not_used=built.not_used, ess=significant(found.ess, 3), basis="readings", inputs=record,
        cautions=tuple(_cautions(record, built, found.ess)), sources=("bluewright-learn", "gelman-2006", "gelman-2013"),
    )  # fmt: skip


def _cause(built: Columns, column: Column, known: MixedNormals) -> CauseFound:
    told = MixedNormals(weights=known.weights, mean=known.mean * column.step_factor, sd=known.sd * column.step_factor)
    plain = None
    if column.beside:
        others = _of_kind(built, column)
        plain = significant(math.exp(float(built.y[column.values > 0].mean() - built.y[others].mean())), 4)
    return CauseFound(
        cause=column.cause, is_=column.is_, beside=column.beside, ratio_factor=told.factor_band(),
        more_chance=significant(1.0 - told.below(0.0), 3), plain_factor=plain, batches=column.batches,
    )  # fmt: skip


def _of_kind(built: Columns, column: Column) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Batches that are of none of the other kinds of this cause: the usual one."""
    kinds = [one.values for one in built.causes if one.cause == column.cause]
    return np.asarray(np.sum(kinds, axis=0) == 0)


def _cautions(record: BatchesRecord, built: Columns, ess: float) -> Iterator[Caution]:
    yield caution(
        "not-a-trial",
        "These batches were not given their way by lot: what was not noted may be the cause. A trial of a few "
        "pairs says more than many batches that happened.",
    )
    for way, field in ways_apart(record, built.usual):
        yield caution(
            "never-together",
            f"Never with the same {field.replace('_', ' ')}: {way} and {built.usual}. Which of the two makes the "
            f"difference cannot be told.",
        )
    for one, other in always_together(built.causes):
        yield caution(
            "never-apart",
            f"Always together in these batches: {one} and {other}. Which of them makes the difference cannot be told.",
        )
    spoilt = sum(bool(batch.spoilt) for batch in record.batches)
    if spoilt:
        yield caution("spoilt-tubs", f"Spoilt, not counted but shown with their reason: {spoilt}.")
    ways = len({batch.way for batch in record.batches}) - 1
    many = len(built.causes)
    if many > max(1, ways) and many > 2:
        yield caution(
            "many-comparisons",
            f"{many} causes were looked at: by luck alone one of them seems clear in "
            f"{100 * (1 - 0.95**many):.0f} of 100 such lists. Trust the one that you asked beforehand.",
        )
    if ess < LEAST_ESS:
        yield caution("thin-ensemble", f"The ranges rest on few independent draws ({ess:.0f}): take them as rough.")
