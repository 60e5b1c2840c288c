"""The thread: from any bed, picking, tub, batch or jar up to where it came from and down to where it went.

Keys alone are followed first, kind by kind up and down, in one statement for each step; joins of batches, which may go
on and on, in memory. Then the rows themselves are read, of each kind the latest, and what those came straight from. So
the number of statements is the same for a thread of any length, and a garden of any age.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final, Literal, NamedTuple
from uuid import UUID

from django.db.models import Prefetch, QuerySet

from bluewright.journal.models import (
    Batch,
    Bed,
    Garden,
    Jar,
    JarFrom,
    PickedFrom,
    Picking,
    Poured,
    Steep,
    SteepLeaf,
    Strain,
    Swatch,
)
from bluewright.journal.queries.jars import jars

Kind = Literal["bed", "picking", "tub", "batch", "jar"]
Row = Bed | Picking | Steep | Batch | Jar
MOST: Final = 30
"""So many things of one kind are on a thread at most: the latest."""
MODELS: Final[dict[Kind, type[Row]]] = {"bed": Bed, "picking": Picking, "tub": Steep, "batch": Batch, "jar": Jar}


class Thing(NamedTuple):
    """One thing on a thread."""

    kind: Kind
    key: UUID


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One thing went into another, and how much of it as typed; empty where nobody said."""

    above: Thing
    below: Thing
    typed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """All that one thing came from and went into, each kind oldest first."""

    at: Thing
    beds: tuple[Bed, ...]
    pickings: tuple[Picking, ...]
    tubs: tuple[Steep, ...]
    """With their strainings."""
    batches: tuple[Batch, ...]
    """With their airings."""
    jars: tuple[Jar, ...]
    """With what went in, what was taken, and their swatches."""
    from_: Mapping[Thing, tuple[Link, ...]]
    """Of each thing the links to what it came straight from; of these some may lie off the thread."""
    left_out: Mapping[Kind, int]
    """How many older things of each kind are on it and not among these."""


def thread(at: Thing, *, of: Garden) -> Thread | None:
    """The thread of one thing of a garden; None if it is not there."""
    keys = _both_ways(at, of)
    found = Thread(
        at=at,
        beds=_latest(Bed.objects.filter(garden=of, pk__in=keys["bed"]).order_by("-made_at"), at),
        pickings=_latest(Picking.objects.filter(garden=of, pk__in=keys["picking"]).order_by("-picked_at"), at),
        tubs=_latest(
            Steep.objects.filter(garden=of, pk__in=keys["tub"])
            .order_by("-started_at")
            .prefetch_related(Prefetch("strains", queryset=Strain.objects.order_by("-strained_at"))),
            at,
        ),
        batches=_latest(
            Batch.objects.filter(garden=of, pk__in=keys["batch"]).order_by("-begun_at").prefetch_related("airings"), at
        ),
        jars=_latest(
            jars(of)
            .filter(pk__in=keys["jar"])
            .order_by("-filled_at")
            .prefetch_related(Prefetch("swatches", queryset=Swatch.objects.order_by("-measured_at"))),
            at,
        ),
        from_={},
        left_out={},
    )
    shown: dict[Kind, tuple[Row, ...]] = {
        "bed": found.beds, "picking": found.pickings, "tub": found.tubs, "batch": found.batches, "jar": found.jars,
    }  # fmt: skip
    if not any(row.pk == at.key for rows in shown.values() for row in rows):
        return None
    from_ = defaultdict[Thing, list[Link]](list)
    for link in _links({kind: [row.pk for row in rows] for kind, rows in shown.items()}):
        from_[link.below].append(link)
    left_out = {kind: len(keys[kind]) - len(rows) for kind, rows in shown.items()}
    return replace(found, from_={thing: tuple(links) for thing, links in from_.items()}, left_out=left_out)


def sources(found: Thread, *, of: Garden) -> dict[Thing, Row]:
    """The things that a thread's links come from, also those off the thread: a tub joined from the side."""
    wanted = {link.above for links in found.from_.values() for link in links}
    return {
        Thing(kind, row.pk): row
        for kind, model in MODELS.items()
        for row in model.objects.filter(garden=of, pk__in=[one.key for one in wanted if one.kind == kind])
    }


def _latest(rows: QuerySet[Any], at: Thing) -> tuple[Any, ...]:
    """The latest rows of one kind and always the thing asked for, the oldest first."""
    found = list(rows[:MOST])
    if len(found) == MOST and all(row.pk != at.key for row in found):
        found += list(rows.filter(pk=at.key))
    return tuple(reversed(found))


def _both_ways(at: Thing, of: Garden) -> dict[Kind, set[UUID]]:
    """The keys of all that a thing came from and went into, kind by kind: two reads for each step of the way."""
    joins = list(_joins().filter(into__garden=of).values_list("batch_id", "into_id"))
    found: dict[Kind, set[UUID]] = {kind: set() for kind in MODELS}
    for down in (False, True):
        keys: dict[Kind, set[UUID]] = {kind: set() for kind in MODELS} | {at.kind: {at.key}}
        for kind in KINDS if down else reversed(KINDS):
            if kind == "batch":
                keys["batch"] |= _joined(keys["batch"], joins if down else [(into, one) for one, into in joins])
            steps = [step for step in STEPS if (step.above if down else step.below) == kind and keys[kind]]
            for step in steps:
                asked, told = (step.above_key, step.below_key) if down else (step.below_key, step.above_key)
                rows = step.rows().filter(**{f"{asked}__in": keys[kind]})
                keys[step.below if down else step.above] |= set(rows.values_list(told, flat=True))
        for kind in MODELS:
            found[kind] |= keys[kind]
    return found


def _joined(start: Iterable[UUID], onward: Iterable[tuple[UUID, UUID]]) -> set[UUID]:
    """Every batch that can be reached from these by joins; a loop ends where it comes back."""
    next_ = defaultdict[UUID, list[UUID]](list)
    for one, other in onward:
        next_[one].append(other)
    found, waiting = set[UUID](), list(start)
    while waiting:
        for one in next_.get(waiting.pop(), ()):
            if one not in found:
                found.add(one)
                waiting.append(one)
    return found


class Step(NamedTuple):
    """How things of one kind lead to those of the next.

    Its links are between rows that stand, of any garden: asked for the garden too, SQLite would begin there and try
    every row of it against every key.
    """

    above: Kind
    below: Kind
    rows: Callable[[], QuerySet[Any]]
    above_key: str
    below_key: str
    typed: str
    """Where it stands how much went on; empty where that is not asked."""


def _picked() -> QuerySet[PickedFrom]:
    return PickedFrom.objects.filter(bed__deleted_at=None, picking__deleted_at=None)


def _leaf() -> QuerySet[SteepLeaf]:
    return SteepLeaf.objects.filter(steep__deleted_at=None, picking__deleted_at=None)


def _strained() -> QuerySet[Poured]:
    stands = {"into__deleted_at": None, "strain__deleted_at": None, "strain__steep__deleted_at": None}
    return Poured.objects.filter(batch=None, **stands)


def _joins() -> QuerySet[Poured]:
    return Poured.objects.filter(into__deleted_at=None, batch__deleted_at=None, strain=None)


def _jarred() -> QuerySet[JarFrom]:
    return JarFrom.objects.filter(jar__deleted_at=None, batch__deleted_at=None)


KINDS: Final[tuple[Kind, ...]] = ("bed", "picking", "tub", "batch", "jar")
STEPS: Final = (
    Step("bed", "picking", _picked, "bed_id", "picking_id", ""),
    Step("picking", "tub", _leaf, "picking_id", "steep_id", "leaf_typed"),
    Step("tub", "batch", _strained, "strain__steep_id", "into_id", "liquor_typed"),
    Step("batch", "jar", _jarred, "batch_id", "jar_id", "pigment_typed"),
)
JOIN: Final = Step("batch", "batch", _joins, "batch_id", "into_id", "liquor_typed")


def _links(shown: Mapping[Kind, Sequence[UUID]]) -> Iterator[Link]:
    """Every link to these things from what they came straight from."""
    for step in (*STEPS, JOIN):
        rows = step.rows().filter(**{f"{step.below_key}__in": shown[step.below]})
        columns = [step.above_key, step.below_key, *([step.typed] if step.typed else [])]
        for above, below, *typed in rows.order_by("pk").values_list(*columns):
            yield Link(above=Thing(step.above, above), below=Thing(step.below, below), typed=typed[0] if typed else "")
