"""Several gardens together: what they say of the part that is common to all gardens.

A garden's batches say something of the common part of each score once everything of its own (garden, plant, beds, tubs,
readers, years, batches) is integrated out. That message is what a garden shares; messages of several gardens add up.
What differs from garden to garden stays as wide as before: a pool makes the middle surer, not gardens more alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from bluewright.science.base.bands import significant
from bluewright.science.base.cautions import Caution
from bluewright.science.base.sourced import Floats
from bluewright.science.media.basket import Plant
from bluewright.science.memory.garden import Learned
from bluewright.science.memory.model import Belief
from bluewright.science.memory.pool_record import (
    Common,
    Message,
    PoolAnswer,
    PoolRecord,
    Prepared,
    SharedBatch,
    SharedGarden,
    matrix,
    shared_names,
)
from bluewright.science.memory.scales import on_scale, scale_of
from bluewright.science.memory.shares import shares_of

DIGITS: Final = 5
FEW_GARDENS: Final = 3


def share(made: Learned) -> SharedGarden:
    """What a garden gives away of what it has learned: no name, no place, no date finer than a month."""
    batches = tuple(
        SharedBatch(
            plant=batch.steep.plant,
            month=batch.steep.started.month,
            method=batch.steep.method,
            leaf_kg=batch.steep.leaf_kg,
            water_l=batch.steep.water_l,
            steeped_h=round((batch.strained - batch.steep.started).total_seconds() / 3600, 1),
            pure_g=batch.pure_g,
        )
        for _, batch, _ in made.used
    )
    return SharedGarden(messages=message_of(made.belief, prior=made.prior), batches=batches)


def message_of(belief: Belief, *, prior: tuple[Floats, Floats]) -> tuple[Message, ...]:
    """What a garden's batches say of the common part, by plant: its belief with its prior divided out."""
    messages = []
    for group, rows in belief.layout.scores.items():
        if group[0] != "everywhere":
            continue
        here = belief.layout.places(group)
        before = np.linalg.inv(prior[1][np.ix_(here, here)])
        after = np.linalg.inv(belief.covariance[np.ix_(here, here)])
        push = after @ belief.mean[here] - before @ prior[0][here]
        # A garden of two plants carries the names of both: of those of the other plant these batches say nothing.
        shared = shared_names(group[1])  # type: ignore[arg-type]
        own = [place for place, k in enumerate(rows) if belief.layout.names[k] in shared]
        names = [belief.layout.names[rows[place]] for place in own]
        told = _no_less_than_nothing((after - before)[np.ix_(own, own)])
        messages.append(_message(group[1], names, push=push[own], precision=told))
    return tuple(messages)


def pool(record: PoolRecord) -> PoolAnswer:
    """What several gardens teach about gardens: precisions and pushes add up, name by name."""
    plants: list[Plant] = []
    for garden in record.gardens:
        plants += [m.plant for m in garden.messages if m.plant not in plants]
    beliefs = tuple(_added(p, [m for g in record.gardens for m in g.messages if m.plant == p]) for p in plants)
    prior = Prepared(gardens=len(record.gardens), beliefs=beliefs)
    return PoolAnswer(
        id=record.id,
        prior=prior,
        gardens=len(record.gardens),
        batches=sum(len(garden.batches) for garden in record.gardens),
        common=common_of(prior),
        cautions=_cautions(record),
        sources=("bishop-2006", "common-practice"),
    )


def common_of(prior: Prepared) -> tuple[Common, ...]:
    """What a pooled prior changes, the most told first."""
    common = [one for message in prior.beliefs for one in _common(message)]
    return tuple(sorted(common, key=lambda one: -one.told_frac))


def _message(plant: str, names: Sequence[str], *, push: Floats, precision: Floats) -> Message:
    return Message(
        plant=plant,  # type: ignore[arg-type]
        names=tuple(names),
        push=tuple(significant(float(value), DIGITS) for value in push),
        precision=tuple(
            tuple(significant(float(value), DIGITS) for value in row[: k + 1]) for k, row in enumerate(precision)
        ),
    )


def _added(plant: Plant, messages: Sequence[Message]) -> Message:
    """The sum of messages, over all names that any of them has."""
    names = tuple(dict.fromkeys(name for message in messages for name in message.names))
    precision, push = np.zeros((len(names), len(names))), np.zeros(len(names))
    for message in messages:
        where = [names.index(name) for name in message.names]
        precision[np.ix_(where, where)] += matrix(message)
        push[where] += message.push
    return _message(plant, names, push=push, precision=precision)


def _common(message: Message) -> list[Common]:
    """What the pool says of the next, unseen garden's own value: its common part surer, its own part as before."""
    first = np.array([shares_of(name)["everywhere"] for name in message.names])
    spread = np.linalg.inv(np.diag(1 / first) + matrix(message))
    mean = spread @ np.array(message.push)
    return [
        Common(
            plant=message.plant,
            name=name,
            unit=scale_of(message.plant, name)[1],
            before=on_scale(message.plant, name, 0.0, 1.0),
            now=on_scale(message.plant, name, float(mean[k]), float(np.sqrt(1 - first[k] + spread[k, k]))),
            told_frac=significant(max(0.0, 1 - float(spread[k, k]) / float(first[k])), 3),
        )
        for k, name in enumerate(message.names)
    ]


def _no_less_than_nothing(precision: Floats) -> Floats:
    """The nearest precision without negative directions: what rounding left of them."""
    values, vectors = np.linalg.eigh(0.5 * (precision + precision.T))
    return np.asarray((vectors * np.maximum(values, 0.0)) @ vectors.T)


def _cautions(record: PoolRecord) -> tuple[Caution, ...]:
    found = []
    if len(record.gardens) < FEW_GARDENS:
        text = "With fewer than three gardens this says more of those gardens than of gardens."
        found.append(Caution(code="few-gardens", text=text, source="common-practice"))
    if len(set(record.gardens)) < len(record.gardens):
        text = "Two of these files are the same: that garden counts twice."
        found.append(Caution(code="same-garden", text=text, source="common-practice"))
    return tuple(found)
