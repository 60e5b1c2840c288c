"""What the garden's memory rests on: strained tubs, jars, what is left out; and whether any of it changed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeAlias

from django.db.models import Count, Exists, Max, OuterRef, Prefetch

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

Stamp: TypeAlias = tuple[Any, ...]
"""Something that differs once anything was written, changed, taken out or brought back."""
RESTS_ON: tuple[tuple[Any, str], ...] = (
    (Steep, "garden"), (Reading, "steep__garden"), (Strain, "steep__garden"), (Picking, "garden"), (Batch, "garden"),
    (Jar, "garden"), (Assay, "jar__garden"), (AirTemp, "garden"), (LeftOut, "garden"),
    (OthersTaught, "garden"),
)  # fmt: skip


def stamp(garden: Garden) -> Stamp:
    """Of all that the memory of a garden rests on."""
    counted = (
        model.everything.filter(**{to: garden}).order_by().aggregate(many=Count("pk"), latest=Max("changed_at"))
        for model, to in RESTS_ON
    )
    return (garden.changed_at, *((one["many"], one["latest"]) for one in counted))


def teaching() -> Sequence[Garden]:
    """Gardens that have something to learn from: a strained tub, or what other gardens taught."""
    tubs = Exists(Strain.objects.filter(steep__garden=OuterRef("pk"), steep__deleted_at=None))
    others = Exists(OthersTaught.objects.filter(garden=OuterRef("pk")))
    return list(Garden.objects.filter(tubs | others))


def strained(garden: Garden) -> Sequence[Steep]:
    """Every strained tub of a garden, the oldest first, with leaf, its beds, looks and straining."""
    there = Exists(Strain.objects.filter(steep=OuterRef("pk")))
    return list(
        Steep.objects.filter(there, garden=garden)
        .order_by("started_at")
        .select_related("garden")
        .prefetch_related(
            Prefetch("leaf", queryset=SteepLeaf.objects.select_related("picking").prefetch_related("picking__beds")),
            Prefetch("readings", queryset=Reading.objects.order_by("taken_at")),
            Prefetch("strains", queryset=Strain.objects.order_by("-strained_at")),
        )
    )


def filled(garden: Garden) -> Sequence[Jar]:
    """Every jar of a garden, whole."""
    return jars.whole(garden, Jar.objects.filter(garden=garden).values_list("pk", flat=True))


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
