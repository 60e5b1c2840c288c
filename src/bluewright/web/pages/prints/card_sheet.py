"""The printed card on its paper: the drawing in its place, and the words on it. Also for the command line."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

from bluewright.charts.card_drawn import card_drawing
from bluewright.science.photo.card import FRAME_MM, LAYOUT, SLOT, WINDOW
from bluewright.words import card as said

SHEETS_MM: Final = {
    "a5": (148.0, 210.0), "a4": (210.0, 297.0), "us-statement": (139.7, 215.9), "us-letter": (215.9, 279.4),
}  # fmt: skip
"""Width and height of each paper; half of US Letter is called Statement."""
CUT_TO: Final = {"a4": "a5", "us-letter": "us-statement"}
"""On larger paper the card is cut out along lines, to this size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A rectangle on the sheet."""

    x_mm: float
    y_mm: float
    w_mm: float
    h_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CardSheet:
    """The sheet of a card."""

    key: str
    """Of its row in the journal; empty on the command line."""
    number: int
    name: str
    paper: str
    """A key of `SHEETS_MM`."""
    drawing: str
    """The card, SVG text."""
    frame: Place
    """Where the drawing goes."""
    cut: Place | None
    """Along which lines the sheet is cut; None where the paper has the card's own size."""
    window: Place
    """Where the words lie that the sample will cover."""
    slot: Place
    foot: Place
    lay: str
    """The words in the window: first where the sample goes,"""
    how: tuple[str, ...]
    """then how the card is printed, kept and registered."""
    check_mm: float
    """Length of the line that a ruler checks,"""
    check: str
    """and what it should be."""
    own: str
    """What goes into the slot."""
    lines: tuple[str, ...]
    """At the foot: garden, date and layout."""


CHECK_MM: Final = 50.0


def card_sheet(*, number: int, paper: str, printed: date, key: str = "", garden: str = "") -> CardSheet:
    """The sheet of the card of this number on this paper; KeyError for a paper that is not known."""
    name = said.name(number)
    frame, cut = _centred(FRAME_MM, on=paper), CUT_TO.get(paper)
    return CardSheet(
        key=key,
        number=number,
        name=name,
        paper=paper,
        drawing=card_drawing(number, title=name),
        frame=frame,
        cut=_centred(SHEETS_MM[cut], on=paper) if cut else None,
        window=_within(frame, WINDOW.x_mm, WINDOW.y_mm, WINDOW.w_mm, WINDOW.h_mm),
        slot=_within(frame, SLOT.x_mm, SLOT.y_mm, SLOT.w_mm, SLOT.h_mm),
        foot=_within(frame, 20.0, 178.0, FRAME_MM[0] - 40.0, 16.0),
        lay=said.lay_here(),
        how=said.how_to_print(cut=cut is not None),
        check_mm=CHECK_MM,
        check=said.check_line(CHECK_MM),
        own=said.own_swatch(),
        lines=tuple(filter(None, (garden, said.printed(printed, layout=LAYOUT)))),
    )


def _centred(size_mm: tuple[float, float], *, on: str) -> Place:
    wide, high = SHEETS_MM[on]
    return Place(x_mm=(wide - size_mm[0]) / 2, y_mm=(high - size_mm[1]) / 2, w_mm=size_mm[0], h_mm=size_mm[1])


def _within(frame: Place, x_mm: float, y_mm: float, w_mm: float, h_mm: float) -> Place:
    return Place(x_mm=frame.x_mm + x_mm, y_mm=frame.y_mm + y_mm, w_mm=w_mm, h_mm=h_mm)
