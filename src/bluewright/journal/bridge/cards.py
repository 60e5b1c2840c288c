"""Between photos in the journal and the science of the printed card."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from bluewright.journal.models import Card
from bluewright.journal.photos.preparing import Prepared
from bluewright.pictures import cards
from bluewright.pictures.decoding import picture
from bluewright.science.base.errors import InputError
from bluewright.science.photo.card_fit import CardShot, register
from bluewright.science.photo.card_record import Registration


def registration(ready: Sequence[Prepared], *, card: Card, now: datetime) -> Registration:
    """What comes of registering a card from these photos; each is named by the checksum of its file."""
    return register([_shot(one) for one in ready], number=card.number, now=now)


def _shot(one: Prepared) -> CardShot:
    try:
        return cards.shot(picture(one.original), name=one.sha256)
    except InputError as error:
        return CardShot(name=one.sha256, left_out="no_photo", said=f"{error.what}; {error.right}")
