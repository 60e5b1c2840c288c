"""Trials with their lots, and the batches that came of their tubs, in a fixed number of statements."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import NamedTuple
from uuid import UUID

from django.db.models import Prefetch, Q, QuerySet

from bluewright.journal.models import Batch, Garden, Steep, SteepLeaf, Trial, TrialTub
from bluewright.journal.queries.book import Key, stored

HOUR = timedelta(hours=1)

OFFERED = 40
"""So many tubs are offered for a lot: the latest."""


EARLIER = 12
"""So many earlier trials teach how unlike tubs are."""


def trials(of: Garden) -> QuerySet[Trial]:
    """The trials of a garden, the newest first, with their lots and the tubs that these became."""
    lots = Prefetch("lots", queryset=TrialTub.objects.select_related("steep").prefetch_related("steep__leaf"))
    found: QuerySet[Trial] = Trial.objects.filter(garden=of).select_related("garden", "made_by")
    return found.prefetch_related(lots)


def trial(key: UUID, *, of: Garden) -> Trial | None:
    """The trial of that key in a garden; None if there is none."""
    return trials(of).filter(pk=key).first()


def running(of: Garden, *, since: datetime) -> QuerySet[Trial]:
    """The trials that go on, laid down since then."""
    return trials(of).filter(ended_at=None, laid_down_at__gte=since)


def ended(of: Garden, *, before: datetime, outcome: str) -> QuerySet[Trial]:
    """The latest trials of the same outcome that had ended by then."""
    return trials(of).filter(ended_at__lt=before, outcome=outcome)[:EARLIER]


def tub_of(lot: TrialTub) -> Steep | None:
    """The tub that a lot became, as long as it stands."""
    return lot.steep if lot.steep is not None and lot.steep.deleted_at is None else None


def free_tubs(of: Garden, *, but_lot: TrialTub | None = None) -> QuerySet[Steep]:
    """The latest tubs that are no lot of a trial yet, and the one of this lot."""
    taken = TrialTub.objects.exclude(steep=None)
    if but_lot is not None:
        taken = taken.exclude(pk=but_lot.pk)
    return Steep.objects.filter(garden=of).exclude(pk__in=taken.values("steep")).order_by("-started_at")[:OFFERED]


class Leaf(NamedTuple):
    """Leaf of one picking in a tub."""

    leaf_kg: float
    picked_at: datetime
    held_h: float
    """From picking to water."""
    damaged_frac: float
    age: str


def leaf_in(tubs: Iterable[Key]) -> dict[Key, list[Leaf]]:
    """The leaf of each of these tubs, picking by picking."""
    rows = SteepLeaf.objects.filter(steep__in=list(tubs)).order_by("pk")
    found: defaultdict[Key, list[Leaf]] = defaultdict(list)
    for tub, leaf_kg, started, picked, damaged, age in rows.values_list(
        stored("steep"), "leaf_kg", "steep__started_at", "picking__picked_at", "picking__damaged_frac", "picking__age"
    ):
        held_h = max((started - picked) / HOUR, 0.0)
        found[tub].append(Leaf(leaf_kg, picked, held_h, damaged, age))
    return found


def batches_of(of: Garden, tubs: Iterable[UUID]) -> QuerySet[Batch]:
    """The batches that liquor of these tubs was poured into, straight or by way of one other."""
    keys = list(tubs)
    straight = Q(came_from__strain__steep__in=keys, came_from__strain__deleted_at=None)
    onward = Q(came_from__batch__came_from__strain__steep__in=keys)
    return Batch.objects.filter(pk__in=Batch.objects.filter(straight | onward, garden=of).values("pk"), garden=of)
