"""The printed card in a picture: found by its markers, read patch by patch, and named where it cannot be."""

from __future__ import annotations

from bluewright.pictures.markers import card_in
from bluewright.science.base.errors import InputError
from bluewright.science.photo.card_fit import CardShot
from bluewright.science.photo.card_record import LeftOut
from bluewright.science.photo.card_view import CardView, card_view
from bluewright.science.photo.picture import Picture


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
