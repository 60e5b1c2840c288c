"""Between photos in the journal and the science of the printed card."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache

from bluewright.journal.models import Card, Garden
from bluewright.journal.photos.measuring import MOST_KEPT
from bluewright.journal.photos.preparing import Prepared
from bluewright.journal.queries.cards import of_number
from bluewright.pictures import cards
from bluewright.pictures.decoding import picture
from bluewright.science.base.errors import InputError
from bluewright.science.photo.card_fit import CardShot, register
from bluewright.science.photo.card_record import Registration
from bluewright.science.photo.card_view import CardView
from bluewright.science.photo.picture import Picture


@dataclass(frozen=True, slots=True, kw_only=True)
class CardInPhoto:
    """A card that lies in a photo."""

    number: int
    lying: cards.CardLying | None
    """What `measure` takes (`seen`), how it came out (`check`), its window; None before it is registered."""


def registration(ready: Sequence[Prepared], *, card: Card, now: datetime) -> Registration:
    """What comes of registering a card from these photos; each is named by the checksum of its file."""
    return register([_shot(one) for one in ready], number=card.number, now=now)


def _shot(one: Prepared) -> CardShot:
    try:
        return cards.shot(picture(one.original), name=one.sha256)
    except InputError as error:
        return CardShot(name=one.sha256, left_out="no_photo", said=f"{error.what}; {error.right}")


@lru_cache(maxsize=MOST_KEPT)
def _view_in(picture: Picture) -> CardView | None:
    """The card in a picture, looked for once: the pictures kept decoded are asked again with every box that moves."""
    return cards.view_in(picture)


def card_in_photo(picture: Picture, *, of: Garden) -> CardInPhoto | None:
    """The garden's card in a picture, found by itself; None where none is seen.

    Raises InputError where marks of a card are seen that make no whole, flat, well exposed one.
    """
    view = _view_in(picture)
    if view is None:
        return None
    card = of_number(view.number, of=of)
    lying = cards.lying(view, card, picture=picture) if card is not None else None
    return CardInPhoto(number=view.number, lying=lying)
