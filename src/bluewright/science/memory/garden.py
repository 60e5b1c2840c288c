"""What a garden's finished batches have taught: from the record to the answer."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal, Protocol, cast

import numpy as np

from bluewright.science.base.bands import NINETY_Z, Band, band, significant
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.media.basket import Plant
from bluewright.science.media.own_yield import LearnedBlue
from bluewright.science.memory.calls import Foretold, look_back, past_calls, scores
from bluewright.science.memory.cautions import cautions
from bluewright.science.memory.joining import all_names, keys_of, next_keys, widened
from bluewright.science.memory.model import Belief, Keys, Layout, Said, layout_of, learn
from bluewright.science.memory.pool_record import Prepared
from bluewright.science.memory.prior import prepared_prior
from bluewright.science.memory.record import (
    Batch,
    GardenAnswer,
    GardenRecord,
    LeftOut,
    Lesson,
    Place,
    Timing,
)
from bluewright.science.memory.scales import differs, on_scale, scale_of
from bluewright.science.memory.shares import KEPT_NAME, SCATTERS, TRUSTED_FRAC, YIELD_NAMES, Part, shares_of
from bluewright.science.memory.told import Line, Told, told
from bluewright.science.steep.record import Garden, Move, learnable

MOST_Z: Final = 6.0
MOST_SPREAD_Z: Final = 3.0
"""A steep's record takes no more: what is less known than that is told as hardly known."""
LOOSENED: Final = 0.999
"""Correlations are written this much nearer to nought, so that rounding leaves them possible."""
SURELY_SD: Final = 0.8
"""A bed, tub, reader or year is named if something there differs by so many standard deviations from nought."""
MOST_PLACES: Final = 24
DIFFERING: Final[tuple[Part, ...]] = ("bed", "age", "season", "tub", "reader", "year")

Progress = Callable[[int, int], None]
"""Called with how many batches are read, and of how many."""


class Mapper(Protocol):
    """Maps as `map` does, or as the map of an executor."""

    def __call__(self, work: Callable[[Batch], Told | str], batches: Sequence[Batch], /) -> Iterable[Told | str]:
        """What the work makes of each, in order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """A garden's belief with what it rests on: all that the answer and its journal need."""

    record: GardenRecord
    used: tuple[tuple[int, Batch, Said], ...]
    left_out: tuple[LeftOut, ...]
    belief: Belief
    prior: tuple[Floats, Floats]
    messages: Mapping[int, Told]
    """What each batch said, as it can be kept for the next time."""

    @property
    def layout(self) -> Layout:
        """Where each unknown stands."""
        return self.belief.layout

    @property
    def last(self) -> Batch:
        """The batch begun last."""
        return max(self.record.batches, key=lambda batch: batch.steep.started)


def read_batches(
    batches: Sequence[Batch],
    *,
    known: Mapping[int, Told] | None = None,
    progress: Progress | None = None,
    run: Mapper = map,
) -> tuple[dict[int, Told], list[LeftOut]]:
    """What each batch says, by its place, and those left out: by wish, or since no steep could be so.

    `known` are messages kept from before; `run` maps over the others, in processes of its own if wanted. The draws for
    a batch depend on its own seed alone: its message is the same in any company.
    """
    kept = known or {}
    wanted = [index for index, batch in enumerate(batches) if batch.left_out is None and index not in kept]
    found = {index: message for index, message in kept.items() if batches[index].left_out is None}
    out = {index: batch.left_out for index, batch in enumerate(batches) if batch.left_out is not None}
    for count, (index, message) in enumerate(
        zip(wanted, run(told_or_why, [batches[k] for k in wanted]), strict=True), 1
    ):
        if isinstance(message, Told):
            found[index] = message
        else:
            out[index] = message
        if progress is not None:
            progress(count, len(wanted))
    left = [LeftOut(index=k, started=batches[k].steep.started, why=why) for k, why in sorted(out.items())]
    return dict(sorted(found.items())), left


def told_or_why(batch: Batch) -> Told | str:
    """What a batch says, or what is wrong with it."""
    try:
        return told(batch, rng=np.random.default_rng(batch.steep.seed))
    except BluewrightError as error:
        return str(error)


def learned(
    record: GardenRecord,
    *,
    known: Mapping[int, Told] | None = None,
    progress: Progress | None = None,
    run: Mapper = map,
) -> Learned:
    """The belief of a garden from its batches, or from messages kept of them; InputError if none can be used.

    The other arguments are those of `read_batches`.
    """
    messages, out = read_batches(record.batches, known=known, progress=progress, run=run)
    if not messages:
        raise InputError(where="batches", what="there is none to learn from", right="give at least one finished batch")
    names = all_names([*(record.batches[index].steep.plant for index in messages), record.for_next.plant])
    used = []
    for index, message in messages.items():
        batch = record.batches[index]
        used.append((index, batch, Said(told=widened(message, names), keys=keys_of(batch), known=batch.known)))
    layout = layout_of(names, [said.keys for _, _, said in used])
    prior = prepared_prior(layout, record.prior)
    belief = learn([said for _, _, said in used], layout=layout, prior=prior)
    return Learned(record=record, used=tuple(used), left_out=tuple(out), belief=belief, prior=prior, messages=messages)


def learn_garden(record: GardenRecord, *, rng: np.random.Generator) -> GardenAnswer:
    """What the garden's batches have taught. Raises InputError if none of them can be used.

    Draws for a batch hang on its own seed, so that its message is the same in any company: `rng` is not asked.
    """
    del rng
    return answer(learned(record))


def answer(made: Learned) -> GardenAnswer:
    """A garden's belief as an answer."""
    record, belief = made.record, made.belief
    keys = next_keys(record.for_next, last=made.last)
    found = look_back([*made.used], layout=made.layout, prior=made.prior)
    blue, before = blue_of_next(made, keys)
    yields = [batch for _, batch, _ in made.used if batch.pure_g is not None]
    return GardenAnswer(
        id=record.id,
        garden=garden_of(belief, record.for_next.plant, keys),
        batches=len(made.used),
        with_yield=len(yields),
        left_out=made.left_out,
        lessons=lessons(made, keys),
        places=_places(made),
        pure_g_per_kg=blue,
        blue=blue_of(made, record.for_next.plant, keys),
        before_g_per_kg=before,
        scatter_factor=_scatter(belief.scatter),
        speed_scatter_factor=_scatter(belief.speed_scatter),
        calls=past_calls(found),
        timings=_timings(made),
        strained_frac=band(np.mean([said.told.share_frac for _, _, said in made.used], axis=0)),
        three_days_frac=band(np.mean([said.told.three_days_frac for _, _, said in made.used], axis=0)),
        scores=scores(found),
        basis="garden",
        inputs=record,
        cautions=cautions(record, used=[batch for _, batch, _ in made.used], found=found, belief=belief),
        sources=("bishop-2006", "common-practice", "garcia-2015", "minka-2001"),
    )


def beginning(prior: Prepared, plant: Plant, keys: Keys) -> Garden:
    """What is believed of a batch of a garden that has none yet, by what other gardens taught."""
    layout = layout_of(all_names([plant]), [keys])
    return garden_of(learn((), layout=layout, prior=prepared_prior(layout, prior)), plant, keys)


def garden_of(belief: Belief, plant: Plant, keys: Keys, *, trust_frac: float = TRUSTED_FRAC.value) -> Garden:
    """What is believed of a batch with these keys, as the steep takes it: of speed and signs with that much trust."""
    mean, covariance = _moderated(belief, keys, trust_frac=trust_frac)
    wanted = [belief.layout.names.index(name) for name in learnable(plant)]
    spread = np.sqrt(np.diag(covariance)[wanted])
    correlation = LOOSENED * covariance[np.ix_(wanted, wanted)] / spread[:, None] / spread
    return Garden(
        moves={
            belief.layout.names[k]: Move(
                centre_z=float(np.clip(significant(float(mean[k]), 5), -MOST_Z, MOST_Z)),
                spread_z=min(significant(float(sd), 5), MOST_SPREAD_Z),
            )
            for k, sd in zip(wanted, spread, strict=True)
        },
        together=tuple(tuple(round(float(value), 4) for value in row[:place]) for place, row in enumerate(correlation)),
    )


def _moderated(belief: Belief, keys: Keys, *, trust_frac: float) -> tuple[Floats, Floats]:
    """Mean and covariance for the call: the chain to the jar as learned, all else a mixture with its prior.

    With trust t: mean t m, variance t s + (1 - t) + t (1 - t) m^2, and covariances times the root of both trusts.
    """
    mean, covariance = belief.of(keys)
    trust = np.array([1.0 if name in YIELD_NAMES else trust_frac for name in belief.layout.names])
    mixed = np.sqrt(trust)[:, None] * covariance * np.sqrt(trust)
    return trust * mean, mixed + np.diag((1 - trust) * (1 + trust * mean**2))


def blue_of_next(made: Learned, keys: Keys) -> tuple[Band, Band]:
    """Pure indigo from a kilogram of the next batch's leaf, strained as the garden's were; and for any garden."""
    chain = _chain(made, made.record.for_next.plant)
    mean, covariance = made.belief.of(keys)
    slope = chain.slope
    now = _log_band(chain.mean + float(slope @ mean), float(slope @ covariance @ slope) + chain.variance)
    return now, _log_band(chain.mean, float(slope @ slope) + chain.variance)


def blue_of(made: Learned, plant: Plant, keys: Keys) -> LearnedBlue:
    """The same for batches with these keys, the garden's own apart from what scatters from batch to batch."""
    chain, belief = _chain(made, plant), made.belief
    mean, of_garden = belief.of(keys, with_batch=False)
    whole = belief.of(keys)[1]
    first = np.array([1.0 - shares_of(name)["batch"] for name in belief.layout.names])
    own, slope = float(chain.slope @ of_garden @ chain.slope), chain.slope
    return LearnedBlue(
        middle_g_per_kg=significant(float(np.exp(chain.mean + slope @ mean)), 2),
        garden_log_sd=significant(float(np.sqrt(own)), 2),
        batch_log_sd=significant(float(np.sqrt(slope @ whole @ slope - own + chain.variance)), 2),
        own_frac=significant(max(0.0, 1.0 - own / float(slope**2 @ first)), 2),
    )


def _chain(made: Learned, plant: Plant) -> Line:
    """ln g/kg as linear in the scores: the batches' own chains to the jar, averaged over those of the plant."""
    same = [one for one in made.used if one[1].steep.plant == plant] or list(made.used)
    lines = [said.told.log_g_before for _, _, said in same]
    return Line(
        mean=float(np.mean([said.told.log_g_before.mean - np.log(b.steep.leaf_kg) for _, b, said in same])),
        slope=np.mean([line.slope for line in lines], axis=0),
        variance=float(np.mean([line.variance for line in lines])),
    )


def _log_band(mean: float, variance: float) -> Band:
    z = NINETY_Z * np.sqrt(variance)
    return Band(p5=significant(np.exp(mean - z)), p50=significant(np.exp(mean)), p95=significant(np.exp(mean + z)))


def with_prior(made: Learned, prior: Prepared | None) -> Learned:
    """The same batches begun from what other gardens taught, or from no other garden."""
    return learned(replace(made.record, prior=prior), known=made.messages)


def lessons(made: Learned, keys: Keys) -> tuple[Lesson, ...]:
    """Every score of the next batch's plant, the most told first."""
    belief = made.belief
    mean, whole = belief.of(keys)
    own = belief.of(keys, with_batch=False)[1]
    found = []
    plant = made.record.for_next.plant
    for name in (*learnable(plant), KEPT_NAME):
        k = belief.layout.names.index(name)
        first = 1.0 - shares_of(name)["batch"]
        found.append(
            Lesson(
                name=name,
                unit=scale_of(plant, name)[1],
                before=on_scale(plant, name, 0.0, 1.0),
                now=on_scale(plant, name, float(mean[k]), float(np.sqrt(whole[k, k]))),
                own=on_scale(plant, name, float(mean[k]), float(np.sqrt(own[k, k]))),
                told_frac=significant(max(0.0, 1.0 - float(own[k, k]) / first), 3),
            )
        )
    return tuple(sorted(found, key=lambda lesson: -lesson.told_frac))


def _places(made: Learned) -> tuple[Place, ...]:
    """Groups where something differs, the surest first: of each its surest score."""
    belief, layout = made.belief, made.layout
    found: list[tuple[float, Place]] = []
    for group, rows in layout.scores.items():
        part, key = group
        if part not in DIFFERING or not key:
            continue
        here = layout.places(group)
        sd = np.sqrt(np.diag(belief.covariance)[here])
        sure = np.abs(belief.mean[here]) / sd
        best = int(np.argmax(sure))
        said_by = [batch for _, batch, said in made.used if said.keys.get(part) == key]
        if sure[best] >= SURELY_SD and said_by:
            name = layout.names[rows[best]]
            place = Place(
                part=cast("Literal['bed', 'age', 'season', 'tub', 'reader', 'year']", part),
                key=key.rsplit("/", 1)[-1] if part in ("age", "season", "year") else key,
                name=name,
                factor=differs(said_by[0].steep.plant, name, float(belief.mean[here[best]]), float(sd[best])),
                batches=len(said_by),
            )
            found.append((float(sure[best]), place))
    return tuple(place for _, place in sorted(found, key=lambda pair: -pair[0])[:MOST_PLACES])


def _scatter(weights: Floats) -> Band:
    """The 90 % band of a factor known on a grid."""
    low, mid, high = np.interp([0.05, 0.5, 0.95], np.cumsum(weights) - 0.5 * weights, np.log(SCATTERS))
    return Band(p5=significant(np.exp(low)), p50=significant(np.exp(mid)), p95=significant(np.exp(high)))


def _timings(made: Learned) -> tuple[Timing, ...]:
    return tuple(
        Timing(index=index, share_frac=band(said.told.share_frac), three_days_frac=band(said.told.three_days_frac))
        for index, _, said in made.used
    )


def foretold_of(made: Learned) -> list[Foretold]:
    """Every batch with a yield as it would have been foretold."""
    return look_back([*made.used], layout=made.layout, prior=made.prior)
