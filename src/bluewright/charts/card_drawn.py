"""The printed card as a picture, one unit to a millimetre: what is printed, and what pages show of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from bluewright.charts.svg import Look, box, element, number, path, words
from bluewright.pictures.markers import modules
from bluewright.science.photo.card import FRAME_MM, PATCHES, SLOT, WINDOW, Field, codes, marker

BLACK: Final = "#000000"
PENCIL: Final = "#8a8a8a"
"""Of thin lines that no measuring place touches."""


def card_drawing(card_number: int, *, title: str, seen: Mapping[str, str] | None = None) -> str:
    """The card of this number as SVG text; `seen` are the colours of its patches by name, in place of its inks."""
    wide, high = FRAME_MM
    drawn = [element("title", words(title)), _outline(WINDOW), _outline(SLOT, dashed=True)]
    for patch in PATCHES:
        colour = (seen or {}).get(patch.name, patch.ink)
        drawn.append(_filled(patch, colour) if colour else _corner_ticks(patch))
    drawn += [_marker(place, code) for place, code in enumerate(codes(card_number))]
    view = f"0 0 {wide:g} {high:g}"
    return element("svg", *drawn, xmlns="http://www.w3.org/2000/svg", viewBox=view, role="img")


def _filled(field: Field, colour: str) -> str:
    return box(field.x_mm, field.y_mm, field.w_mm, field.h_mm, fill=colour)


def _outline(field: Field, *, dashed: bool = False) -> str:
    look: Look = {"fill": "none", "stroke": PENCIL, "stroke_width": 0.25}
    dash = "2 1.2" if dashed else None
    return box(field.x_mm, field.y_mm, field.w_mm, field.h_mm, stroke_dasharray=dash, **look)


def _corner_ticks(field: Field) -> str:
    """Bare paper is shown by its corners alone, outside of what is measured."""
    tick = 1.5
    strokes = []
    for x, toward_x in ((field.x_mm, 1), (field.x_mm + field.w_mm, -1)):
        for y, toward_y in ((field.y_mm, 1), (field.y_mm + field.h_mm, -1)):
            strokes.append(
                path([(x + toward_x * tick, y), (x, y), (x, y + toward_y * tick)], stroke=PENCIL, stroke_width=0.25)
            )
    return "".join(strokes)


def _marker(place: int, code: int) -> str:
    """All dark squares in one outline: drawn one by one, hairs of white would be printed between them."""
    whole = marker(place)
    side = whole.w_mm / 6
    square = f"h{number(side)}v{number(side)}h{number(-side)}z"
    squares = [
        f"M{number(whole.x_mm + column * side)} {number(whole.y_mm + row * side)}{square}"
        for row, line in enumerate(modules(code))
        for column, dark in enumerate(line)
        if dark
    ]
    return element("path", d="".join(squares), fill=BLACK)
