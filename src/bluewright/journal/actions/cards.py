"""What one does with printed cards: make one of the next number, write down what it was registered as."""

from __future__ import annotations

from typing import Any

from django.db import transaction
from django.utils import timezone

from bluewright import __version__
from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Card, CardRegistration, Garden
from bluewright.journal.queries.cards import next_number
from bluewright.science.base.records import dump
from bluewright.science.photo.card_record import RegisteredCard


def make_card(garden: Garden, *, paper: str, note: str, by: Any) -> Card | None:
    """Write a card of the next number; None where all numbers are given away."""
    with transaction.atomic():
        number = next_number(garden)
        if number is None:
            return None
        return keep(Card(garden=garden, number=number, paper=paper, printed_at=timezone.now(), note=note), by=by)


def register_card(card: Card, found: RegisteredCard, *, spread_de00: float, by: Any) -> CardRegistration:
    """Write what a card was registered as: from now on it counts; those before are kept."""
    made = CardRegistration(
        card=card, registered_at=found.registered_at, spread_de00=spread_de00, found=dump(found), program=__version__
    )
    return keep(made, by=by)
