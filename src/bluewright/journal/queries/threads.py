"""The thread: from any bed, picking, tub, batch or jar up to where it came from and down to where it went.

The links of a garden are read first, keys alone, and followed in memory; then the rows that are on the thread. So
the number of statements is the same for a thread of any length.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final, Literal, NamedTuple
from uuid import UUID

from django.db.models import Prefetch

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
)
from bluewright.journal.queries.jars import jars

Kind = Literal["bed", "picking", "tub", "batch", "jar"]
Row = Bed | Picking | Steep | Batch | Jar
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
    """With what went in and what was taken."""
    from_: Mapping[Thing, tuple[Link, ...]]
    """Of each thing the links to what it came straight from; of these some may lie off the thread."""


def thread(at: Thing, *, of: Garden) -> Thread | None:
    """The thread of one thing of a garden; None if it is not there."""
    links = _links(of)
    up, down = defaultdict[Thing, list[Link]](list), defaultdict[Thing, list[Link]](list)
    for link in links:
        up[link.below].append(link)
        down[link.above].append(link)
    on = {at} | _reached(at, {k: [one.above for one in v] for k, v in up.items()})
    on |= _reached(at, {k: [one.below for one in v] for k, v in down.items()})
    keys = {kind: [one.key for one in on if one.kind == kind] for kind in MODELS}
    strains = Prefetch("strains", queryset=Strain.objects.order_by("-strained_at"))
    found = Thread(
        at=at,
        beds=tuple(Bed.objects.filter(garden=of, pk__in=keys["bed"])),
        pickings=tuple(Picking.objects.filter(garden=of, pk__in=keys["picking"]).order_by("picked_at")),
        tubs=tuple(
            Steep.objects.filter(garden=of, pk__in=keys["tub"]).order_by("started_at").prefetch_related(strains)
        ),
        batches=tuple(
            Batch.objects.filter(garden=of, pk__in=keys["batch"]).order_by("begun_at").prefetch_related("airings")
        ),
        jars=tuple(jars(of).filter(pk__in=keys["jar"]).order_by("filled_at")),
        from_={thing: tuple(into) for thing, into in up.items() if thing in on},
    )
    there = (*found.beds, *found.pickings, *found.tubs, *found.batches, *found.jars)
    return found if any(row.pk == at.key for row in there) else None


def sources(found: Thread, *, of: Garden) -> dict[Thing, Row]:
    """The things that a thread's links come from, also those off the thread: a tub joined from the side."""
    wanted = {link.above for links in found.from_.values() for link in links}
    return {
        Thing(kind, row.pk): row
        for kind, model in MODELS.items()
        for row in model.objects.filter(garden=of, pk__in=[one.key for one in wanted if one.kind == kind])
    }


def _reached(start: Thing, onward: Mapping[Thing, Iterable[Thing]]) -> set[Thing]:
    """Everything that can be reached; a loop ends where it comes back."""
    found: set[Thing] = set()
    waiting = [start]
    while waiting:
        for one in onward.get(waiting.pop(), ()):
            if one not in found:
                found.add(one)
                waiting.append(one)
    return found


def _links(of: Garden) -> list[Link]:
    """Every link of a garden between two rows that stand."""
    picked = PickedFrom.objects.filter(bed__garden=of, bed__deleted_at=None, picking__deleted_at=None)
    leaf = SteepLeaf.objects.filter(steep__garden=of, steep__deleted_at=None, picking__deleted_at=None)
    poured = Poured.objects.filter(into__garden=of, into__deleted_at=None)
    strained = poured.filter(strain__deleted_at=None, strain__steep__deleted_at=None, batch=None)
    joined = poured.filter(batch__deleted_at=None, strain=None)
    jarred = JarFrom.objects.filter(jar__garden=of, jar__deleted_at=None, batch__deleted_at=None)
    return [
        *(_link("bed", "picking", *row, "") for row in picked.values_list("bed_id", "picking_id")),
        *(_link("picking", "tub", *row) for row in leaf.values_list("picking_id", "steep_id", "leaf_typed")),
        *(_link("tub", "batch", *row) for row in strained.values_list("strain__steep_id", "into_id", "liquor_typed")),
        *(_link("batch", "batch", *row) for row in joined.values_list("batch_id", "into_id", "liquor_typed")),
        *(_link("batch", "jar", *row) for row in jarred.values_list("batch_id", "jar_id", "pigment_typed")),
    ]


def _link(above: Kind, below: Kind, above_key: UUID, below_key: UUID, typed: str) -> Link:
    return Link(above=Thing(above, above_key), below=Thing(below, below_key), typed=typed)
