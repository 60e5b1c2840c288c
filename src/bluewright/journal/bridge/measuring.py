"""A photo of the journal measured: its original's points, and the garden's printed card where one lies in it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from bluewright.journal.bridge.cards import CardInPhoto, card_in_photo
from bluewright.journal.models import Card, Garden, Photo
from bluewright.journal.photos.measuring import picture_of
from bluewright.science.base.errors import InputError
from bluewright.science.photo.card_fit import cautions_of
from bluewright.science.photo.measure import measure
from bluewright.science.photo.picture import Picture
from bluewright.science.photo.record import PhotoAnswer, PhotoRecord


@dataclass(frozen=True, slots=True, kw_only=True)
class CardFound:
    """What was looked for by itself in a photo."""

    card: CardInPhoto | None = None
    trouble: str = ""
    """Marks of a card are seen, but it cannot be read: why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredIn:
    """The colours in a photo, and the card that they were measured against, if one was."""

    answer: PhotoAnswer
    card: Card | None
    card_off_de00: float | None = None
    """How far the card's patches came out from what they were registered as, on average; None without a card."""


def card_found(picture: Picture, *, of: Garden) -> CardFound:
    """The garden's card in a picture, or why one that is seen cannot be used."""
    try:
        return CardFound(card=card_in_photo(picture, of=of))
    except InputError as error:
        return CardFound(trouble=f"{error.what}; {error.right}")


def measured_in(photo: Photo, record: PhotoRecord) -> MeasuredIn:
    """The colours of the boxes; a registered card that lies in the photo fills the references by itself.

    Raises InputError where the original is not kept here, and as `measure` does.
    """
    picture = picture_of(photo)
    found = card_found(picture, of=photo.garden).card
    lying = found.lying if found is not None else None
    rng = np.random.default_rng(record.seed)
    if found is None or lying is None or record.correction == "none":
        return MeasuredIn(answer=measure(picture, record, rng=rng), card=None)
    answer = measure(picture, record, rng=rng, card=lying.seen)
    told = replace(answer, cautions=(*answer.cautions, *cautions_of(lying.check)))
    return MeasuredIn(
        answer=told,
        card=Card.objects.filter(garden=photo.garden, number=found.number).first(),
        card_off_de00=lying.check.mean_de00,
    )
