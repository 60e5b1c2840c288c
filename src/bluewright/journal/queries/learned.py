"""What the garden's memory rests on: strained tubs, jars, what is left out; and whether any of it changed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from itertools import islice
from typing import Any, Final, TypeAlias
from uuid import UUID

from django.db.models import Count, Exists, Max, OuterRef, Prefetch

from bluewright.journal.courtesy import give_way
from bluewright.journal.models import (
    AirTemp,
    Assay,
    Batch,
    Garden,
    Jar,
    LeftOut,
    OthersTaught,
    Picking,
    Reading,
    Steep,
    SteepLeaf,
    Strain,
)
from bluewright.journal.queries import jars

AT_ONCE: Final = 40
"""So many tubs with their looks are read in one go."""
Stamp: TypeAlias = tuple[Any, ...]
"""Something that differs once anything was written, changed, taken out or brought back."""
RESTS_ON: tuple[tuple[Any, str], ...] = (
    (Steep, "garden"), (Reading, "steep__garden"), (Strain, "steep__garden"), (Picking, "garden"), (Batch, "garden"),
    (Jar, "garden"), (Assay, "jar__garden"), (AirTemp, "garden"), (LeftOut, "garden"),
    (OthersTaught, "garden"),
)  # fmt: skip


def stamp(garden: Garden) -> Stamp:
    """Of all that the memory of a garden rests on: not of the looks at a tub that still steeps, which come all day."""
    done = {Reading: {"steep__in": Strain.objects.filter(steep__garden=garden).values("steep")}}
    counted = (
        model.everything.filter(**{to: garden}, **done.get(model, {}))
        .order_by()
        .aggregate(many=Count("pk"), latest=Max("changed_at"))
        for model, to in RESTS_ON
    )
    return (garden.changed_at, *((one["many"], one["latest"]) for one in counted))


def teaching() -> Sequence[Garden]:
    """Gardens that have something to learn from: a strained tub, or what other gardens taught."""
    tubs = Exists(Strain.objects.filter(steep__garden=OuterRef("pk"), steep__deleted_at=None))
    others = Exists(OthersTaught.objects.filter(garden=OuterRef("pk")))
    return list(Garden.objects.filter(tubs | others))


def strained(garden: Garden, *, most: int | None = None) -> Sequence[Steep]:
    """The latest strained tubs of a garden, the oldest first, with leaf, its beds, looks and straining.

    A few are read at a time, so that pages can go first.
    """
    there = Exists(Strain.objects.filter(steep=OuterRef("pk")))
    keys = iter(Steep.objects.filter(there, garden=garden).order_by("-started_at").values_list("pk", flat=True)[:most])
    found: list[Steep] = []
    while some := list(islice(keys, AT_ONCE)):
        give_way()
        found += _read(some)
    return found[::-1]


def _read(keys: Sequence[UUID]) -> Sequence[Steep]:
    """These tubs, the newest first."""
    return list(
        Steep.objects.filter(pk__in=keys)
        .order_by("-started_at")
        .select_related("garden")
        .prefetch_related(
            Prefetch("leaf", queryset=SteepLeaf.objects.select_related("picking").prefetch_related("picking__beds")),
            Prefetch("readings", queryset=Reading.objects.order_by("taken_at")),
            Prefetch("strains", queryset=Strain.objects.order_by("-strained_at")),
        )
    )


def filled(garden: Garden, *, since: datetime) -> Sequence[Jar]:
    """The jars that were filled since then, with the leaf behind their batches."""
    keys = Jar.objects.filter(garden=garden, filled_at__gte=since).values_list("pk", flat=True)
    return jars.whole(garden, keys, looks=False, work=False)


def left_out(garden: Garden) -> Sequence[LeftOut]:
    """What is left out, the latest first, with its tub."""
    return list(LeftOut.objects.filter(garden=garden, steep__deleted_at=None).select_related("steep"))


def others(garden: Garden) -> Sequence[OthersTaught]:
    """What other gardens taught, the latest first: that is what counts."""
    return list(OthersTaught.objects.filter(garden=garden))


def choosable(garden: Garden, *, most: int) -> Sequence[Steep]:
    """Strained tubs that can be left out, the latest first."""
    there = Exists(Strain.objects.filter(steep=OuterRef("pk")))
    out = Exists(LeftOut.objects.filter(steep=OuterRef("pk")))
    return list(Steep.objects.filter(there, ~out, garden=garden).order_by("-started_at")[:most])
