"""The printed cards of a garden: each with what it was registered as, and how it has come out in photos since."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.db.models import Max, Prefetch, QuerySet

from bluewright.journal.models import Card, CardRegistration, Garden, Measured, Photo
from bluewright.science.base.records import read
from bluewright.science.photo.card import MOST_CARDS
from bluewright.science.photo.card_record import RegisteredCard


@dataclass(frozen=True, slots=True, kw_only=True)
class DriftPoint:
    """How far a card was from its registered values in one photo."""

    time: datetime
    """When it was taken, or, where it is not kept here, when the card was registered."""
    mean_de00: float


def cards(of: Garden) -> QuerySet[Card]:
    """The cards of a garden, each with its standing registrations, the latest first."""
    standing = Prefetch("registrations", CardRegistration.objects.order_by("-registered_at"))
    found: QuerySet[Card] = Card.objects.filter(garden=of).select_related("garden").prefetch_related(standing)
    return found


def card(key: UUID, *, of: Garden) -> Card | None:
    """The card of that key in a garden; None if there is none."""
    return cards(of).filter(pk=key).first()


def latest(card: Card) -> CardRegistration | None:
    """What a card (of `cards`) counts as now; None before it is registered."""
    return next(iter(card.registrations.all()), None)


def registered(row: CardRegistration) -> RegisteredCard:
    """A registration as the science reads it."""
    return read(RegisteredCard, row.found)


def of_number(number: int, *, of: Garden) -> RegisteredCard | None:
    """What the card of this number is registered as in a garden; None where it is not."""
    found = cards(of).filter(number=number).first()
    row = latest(found) if found is not None else None
    return registered(row) if row is not None else None


def next_number(of: Garden) -> int | None:
    """The number of the next card: none is given twice, for one taken out may still lie about; None after the last."""
    last = Card.everything.filter(garden=of).aggregate(last=Max("number"))["last"] or 0
    return last + 1 if last < MOST_CARDS else None


def drift(card: Card) -> list[DriftPoint]:
    """How far the card was from its latest registration: in the photos that it was registered from, and in those that
    were measured with it since; the oldest first.
    """
    row = latest(card)
    if row is None:
        return []
    after = {one.name: one.after_de00 for one in registered(row).photos if one.after_de00 is not None}
    kept = Photo.objects.filter(garden=card.garden, about_id=card.pk, sha256__in=list(after))
    times = dict(kept.values_list("sha256", "taken_at"))
    points = [DriftPoint(time=times.get(name, row.registered_at), mean_de00=off) for name, off in after.items()]
    since = Measured.objects.filter(card=card, measured_at__gte=row.registered_at, card_off_de00__isnull=False)
    measured = since.filter(photo__deleted_at=None).order_by("measured_at")
    told = measured.values_list("photo", "photo__taken_at", "card_off_de00")
    last = {photo: DriftPoint(time=taken, mean_de00=off) for photo, taken, off in told}  # one point for a photo
    points += last.values()
    return sorted(points, key=lambda point: point.time)
