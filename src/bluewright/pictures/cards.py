"""The printed card in a picture: found by its markers, read patch by patch, and named where it cannot be."""

from __future__ import annotations

from dataclasses import dataclass

from bluewright.pictures.markers import card_in
from bluewright.science.base.errors import InputError
from bluewright.science.photo.card_fit import CardShot, check, seen
from bluewright.science.photo.card_record import CardCheck, LeftOut, RegisteredCard
from bluewright.science.photo.card_view import CardView, card_view, window_box
from bluewright.science.photo.picture import Picture
from bluewright.science.photo.record import Box
from bluewright.science.photo.references import CardSeen


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CardLying:
    """A registered card as it lies in a picture: what `measure` takes, how it came out, and where its window is."""

    seen: CardSeen
    check: CardCheck
    window: Box


def view_in(picture: Picture) -> CardView | None:
    """The card in a picture; None where no mark of one is seen.

    Raises InputError where marks are seen that make no whole, flat, large enough, well exposed card.
    """
    found = card_in(picture.code)
    return None if found is None else card_view(picture, number=found.number, to_picture=found.to_picture)


def shot(picture: Picture, *, name: str) -> CardShot:
    """A photo to register a card from; what is wrong with it is said in it, not raised."""
    try:
        view = view_in(picture)
    except InputError as error:
        fault: LeftOut = "not_whole" if error.where == "card" else "overexposed"
        return CardShot(name=name, facts=picture.facts, left_out=fault, said=f"{error.what}; {error.right}")
    return CardShot(name=name, facts=picture.facts, view=view, left_out=None if view is not None else "no_card")


def registered_in(picture: Picture, card: RegisteredCard) -> CardLying:
    """The registered card in a picture. Raises InputError where it is not, is another, or cannot be read."""
    view = view_in(picture)
    if view is None:
        raise InputError(
            where="card", what="no card is seen in the photo",
            right="take the whole card into the picture with its four corner marks, or measure without it",
        )  # fmt: skip
    return lying(view, card, picture=picture)


def lying(view: CardView, card: RegisteredCard, *, picture: Picture) -> CardLying:
    """A card that was found, as what it was registered. Raises InputError if it is another."""
    return CardLying(seen=seen(view, card), check=check(view, card), window=window_box(view, picture=picture))
