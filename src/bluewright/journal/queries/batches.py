"""Batches with all that their pages need, in a fixed number of statements, and how far each has come."""

from __future__ import annotations

from typing import Literal
from uuid import UUID

from django.db.models import Exists, OuterRef, Prefetch, Q, QuerySet

from bluewright.journal.models import (
    AlkaliPart,
    Batch,
    Garden,
    JarFrom,
    JarTest,
    Poured,
    Strain,
)

Stage = Literal["liquor", "alkali", "air", "settle", "dry", "jar", "joined", "ended"]
"""What was done last: nothing yet, alkali given, aired, left to stand, put to dry, in its jar, poured on, given up."""

_TO_THE_BED = (
    "strain__steep__garden",
    "strain__steep__leaf__picking__beds",
    "strain__went_into",
)
_LOOKS = "strain__steep__readings"
"""Of the tubs behind a batch: many rows, which only the tubs' own forecasts need."""


def batches(of: Garden, *, looks: bool = True, work: bool = True) -> QuerySet[Batch]:
    """The batches of a garden, the newest first, whole; the looks at their tubs only if they are wanted.

    Without `work` nothing is read along of what was done to them: only where their liquor came from and went.
    """
    return _whole(Batch.objects.filter(garden=of), looks=looks, work=work)


def worked_on(of: Garden) -> QuerySet[Batch]:
    """The batches that are neither in a jar nor poured on nor given up, the newest first."""
    jarred = JarFrom.objects.filter(batch=OuterRef("pk"), jar__deleted_at=None)
    joined = Poured.objects.filter(batch=OuterRef("pk"), into__deleted_at=None)
    return Batch.objects.filter(~Exists(jarred), ~Exists(joined), garden=of, ended_at=None)


def working(of: Garden) -> QuerySet[Batch]:
    """The batches that are worked on, whole.

    Only the looks at their tubs are not read along: a list of batches asks no forecast of them.
    """
    return _whole(worked_on(of), looks=False)


def batch(key: UUID, *, of: Garden) -> Batch | None:
    """One batch of a garden, whole; None if there is none of that key."""
    return _whole(Batch.objects.filter(garden=of, pk=key)).first()


def unworked_strains(of: Garden) -> QuerySet[Strain]:
    """Strainings whose liquor is in no batch yet, the newest first."""
    used = Poured.objects.filter(strain=OuterRef("pk"), into__deleted_at=None)
    return (
        Strain.objects.filter(~Exists(used), steep__garden=of, steep__deleted_at=None)
        .select_related("steep__garden")
        .order_by("-strained_at")
    )


def with_liquor_left(of: Garden) -> QuerySet[Strain]:
    """Strainings of which not all liquor is in a batch, the newest first: nothing yet, or measured parts only."""
    whole = Poured.objects.filter(strain=OuterRef("pk"), into__deleted_at=None, liquor_l=None)
    return Strain.objects.filter(~Exists(whole), steep__garden=of, steep__deleted_at=None).order_by("-strained_at")


def stage_of(found: Batch) -> Stage:
    """How far a whole batch has come; the farthest counts."""
    reached: tuple[tuple[Stage, bool], ...] = (
        ("ended", found.ended_at is not None),
        ("jar", bool(found.jarred.all())),
        ("joined", bool(found.went_into.all())),
        ("dry", bool(found.dryings.all())),
        ("settle", bool(found.standings.all())),
        ("air", bool(found.airings.all())),
        ("alkali", bool(found.alkali_parts.all())),
    )
    return next((stage for stage, is_so in reached if is_so), "liquor")


_JARRED = JarFrom.objects.filter(jar__deleted_at=None).select_related("jar").prefetch_related("jar__assays")


_WORK = (
    Prefetch("alkali_parts", queryset=AlkaliPart.objects.select_related("alkali")),
    Prefetch("jar_tests", queryset=JarTest.objects.select_related("alkali").prefetch_related("steps")),
    "looks",
    "airings",
    "standings__edges",
    "dryings__weighings",
)


def _whole(found: QuerySet[Batch], *, looks: bool = True, work: bool = True) -> QuerySet[Batch]:
    standing = Q(into__deleted_at=None)
    along = (*_TO_THE_BED, _LOOKS) if looks else _TO_THE_BED
    poured = Poured.objects.filter(Q(strain=None) | Q(strain__deleted_at=None)).prefetch_related(*along)
    above = Batch.objects.prefetch_related(
        Prefetch("came_from", queryset=poured), Prefetch("went_into", queryset=Poured.objects.filter(standing))
    )
    return found.select_related("garden").prefetch_related(
        Prefetch("came_from", queryset=poured.prefetch_related(Prefetch("batch", queryset=above))),
        Prefetch("went_into", queryset=Poured.objects.filter(standing).select_related("into")),
        Prefetch("jarred", queryset=_JARRED),
        *(_WORK if work else ()),
    )
