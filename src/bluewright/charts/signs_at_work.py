"""The signs of the work after straining as small pictures: foam and liquor while airing, the blue in what is decanted.

Four levels each, told apart by shape, number and hatching, as the signs of a steep are.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from bluewright.charts.palette import INDIGO, INK, LINEN, LIQUOR, LIQUOR_GREEN, TAN_INK
from bluewright.charts.pen import FINE, OUTLINE, Points, bubble, disc, hatching, oval
from bluewright.charts.signs_drawn import framed
from bluewright.charts.svg import Attribute, area, line, path
from bluewright.words.signs import WorkSign

_BUCKET: Final[Points] = ((18.0, 40.0), (24.0, 90.0), (72.0, 90.0), (78.0, 40.0))
_FOAM: Final = (
    ((28, 48, 6), (41, 49, 5), (54, 48, 6), (67, 49, 5)),
    (
        *((25, 44, 7), (38, 45, 7), (51, 44, 7), (64, 45, 7), (32, 32, 8), (47, 32, 8), (62, 33, 7), (40, 19, 8)),
        *((55, 20, 7), (48, 9, 6)),
    ),
    ((32, 47, 6), (44, 46, 7), (57, 47, 6), (50, 36, 5)),
    ((24, 51, 2.6), (31, 53, 2.4), (66, 53, 2.4), (72, 51, 2.6)),
)


def foam(level: int) -> str:
    """A bucket with its foam: a low green layer, a high blue heap, a small dark heap, few white bubbles at the rim."""
    liquor = ((19.7, 54.0), (24.0, 90.0), (72.0, 90.0), (76.3, 54.0))
    fill = (LIQUOR_GREEN[0], LIQUOR_GREEN[2], INDIGO[4], INDIGO[5])[level]
    drawn = [area(liquor, fill=fill), line(19.7, 54, 76.3, 54, **OUTLINE)]
    if level < 3:
        gap = (12.0, 8.0, 5.0)[level]
        drawn.append(hatching(liquor, gap=gap, angle_deg=45, stroke=LINEN, stroke_width=1.6))
    shade = (LIQUOR_GREEN[0], INDIGO[3], INDIGO[4], LINEN)[level]
    for x, y, radius in _FOAM[level]:
        drawn.append(bubble(x, y, radius, fill=shade))
        if level == 2:
            drawn.append(line(x - 0.6 * radius, y, x + 0.6 * radius, y, stroke=LINEN, stroke_width=1.6))
    drawn.append(path(_BUCKET, **OUTLINE))
    return "".join(drawn)


_GLASS: Final[Points] = ((22.0, 14.0), (27.0, 88.0), (69.0, 88.0), (74.0, 14.0))
_FULL: Final[Points] = ((23.2, 32.0), (27.0, 88.0), (69.0, 88.0), (72.8, 32.0))
_SPECKS: Final = (
    *((48, 34), (56, 37), (40, 38), (62, 45), (35, 46), (48, 44), (54, 50), (41, 52), (60, 56), (36, 57)),
    *((48, 59), (54, 64), (43, 65), (48, 51), (45, 40), (53, 43), (43, 46), (57, 58), (40, 60), (50, 66)),
)


def liquor(level: int) -> str:
    """A glass, greener, then darker, its hatching closer; at the last a drop on paper, grains within a clear ring."""
    if level == 3:
        return _drop()
    fill = (LIQUOR_GREEN[0], LIQUOR_GREEN[1], INDIGO[4])[level]
    drawn = [area(_FULL, fill=fill)]
    ink: dict[str, Attribute] = {"stroke": INDIGO[2] if level == 2 else INK, "stroke_width": 1.3}
    drawn.append(hatching(_FULL, gap=(11.0, 8.0, 4.5)[level], angle_deg=45, **ink))
    if level:
        drawn.append(hatching(_FULL, gap=(0.0, 8.0, 4.5)[level], angle_deg=-45, **ink))
    drawn += [line(23.2, 32, 72.8, 32, **OUTLINE), path(_GLASS, **OUTLINE)]
    return "".join(drawn)


def _drop() -> str:
    sheet = ((10.0, 12.0), (86.0, 12.0), (86.0, 88.0), (10.0, 88.0))
    drawn = [area(sheet, fill="#ffffff", **OUTLINE), disc(48, 50, 32, fill=LIQUOR[1], stroke=INK, stroke_width=FINE)]
    drawn.append(disc(48, 50, 20, fill=LIQUOR[0], stroke=INK, stroke_width=1.2, stroke_dasharray="3 3"))
    drawn += [disc(x, y, 2.6, fill=INDIGO[5]) for x, y in _SPECKS]
    return "".join(drawn)


def blue_in_decant(level: int) -> str:
    """A glass with a spoon in it: seen whole, half seen, hardly seen, not seen; the hatching closer with the blue."""
    drawn = [area(_FULL, fill=(LIQUOR[0], INDIGO[1], INDIGO[3], INDIGO[5])[level])]
    seen = (1.0, 0.7, 0.35, 0.0)[level]
    if seen:
        drawn.append(oval(43, 76, 6, 8, fill=LINEN, stroke=TAN_INK, stroke_width=FINE, stroke_opacity=seen))
        drawn.append(line(59.5, 32, 45, 69, stroke=TAN_INK, stroke_width=4.0, stroke_opacity=seen))
    if level:
        ink: dict[str, Attribute] = {"stroke": (INK, INK, LINEN, INDIGO[2])[level], "stroke_width": 1.3}
        gap = (0.0, 11.0, 7.0, 4.0)[level]
        drawn.append(hatching(_FULL, gap=gap, angle_deg=45, **ink))
        drawn += [hatching(_FULL, gap=gap, angle_deg=-45, **ink)] if level > 1 else []
    drawn.append(line(69, 8, 59.5, 32, stroke=TAN_INK, stroke_width=4.0, stroke_linecap="round"))
    drawn += [line(23.2, 32, 72.8, 32, **OUTLINE), path(_GLASS, **OUTLINE)]
    return "".join(drawn)


_PICTURES: Final[dict[WorkSign, Callable[[int], str]]] = {
    "foam": foam,
    "liquor": liquor,
    "blue_in_decant": blue_in_decant,
}


WORK_SIGNS: Final = frozenset(_PICTURES)
"""What can be drawn."""


def work_sign_drawing(sign: WorkSign, level: int) -> str:
    """The picture of `sign` at `level` (0 to 3) as SVG text, 96 units square; its title says both in words.

    Raises `InputError` for a sign that does not exist and for a level that is not 0, 1, 2 or 3.
    """
    return framed(sign, level, pictures=_PICTURES)
