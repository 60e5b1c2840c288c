"""Drawn leaves of known damage to hold real ones against: spots or holes that cover just the share they are named for.

Spots are discs that lie wholly in the blade and do not touch, laid from large to small where a fixed sequence of places
has room, the last one cut to size; so the share is that of the drawing, and not of an eye.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache
from typing import Final, Literal

from bluewright.charts.palette import GREEN, INK, LINEN, LIQUOR_GREEN
from bluewright.charts.pen import DETAIL, OUTLINE, Leaf, Points, disc, leaf
from bluewright.charts.svg import area, path
from bluewright.science.base.errors import InputError

Damage = Literal["spots", "holes"]

SIDE: Final = 96.0
"""Side of the square of one leaf, in its own units."""
MOST_FRAC: Final = 0.55
"""More than this cannot be laid in discs that do not touch."""
_MIDRIB: Final[Points] = ((48, 93), (47.5, 62), (48, 34), (49, 4))
_RADII: Final = (5.5, 4.2, 3.2, 2.4, 1.7, 1.2, 0.85)
"""From large to small; light damage begins further down."""
_TRIES: Final = 700
"""Places tried for each size."""
_GAP: Final = 0.25
"""Room between discs, and to the edge."""


def drawn_leaf(damaged_frac: float, damage: Damage) -> str:
    """A leaf in its square of which this share of the blade is painted, to stand in a larger drawing.

    Raises InputError outside 0 to 0.55.
    """
    shape = _shape()
    drawn = [area(shape.outline, fill=LIQUOR_GREEN[1], **{**OUTLINE, "stroke_width": 1.6})]
    drawn += [path(vein, **{**DETAIL, "stroke": GREEN, "stroke_width": 0.9}) for vein in shape.veins]
    drawn.append(path(shape.midrib, **{**OUTLINE, "stroke_width": 1.6}))
    fill = INK if damage == "spots" else LINEN
    drawn += [disc(x, y, radius, fill=fill) for x, y, radius in spots(damaged_frac)]
    return "".join(drawn)


@cache
def spots(damaged_frac: float) -> tuple[tuple[float, float, float], ...]:
    """Centre and radius of each spot; together they cover this share of the blade."""
    if not 0 <= damaged_frac <= MOST_FRAC:
        raise InputError(
            where="damaged_frac", what=f"{damaged_frac:g} cannot be drawn", right=f"give 0 to {MOST_FRAC:g}"
        )
    outline = _shape().outline
    left = damaged_frac * blade_area()
    found: list[tuple[float, float, float]] = []
    places = list(_places(outline))
    sizes = [r for r in _RADII if math.pi * r * r <= left / 14] or [_RADII[-1]]
    for radius in sizes:
        for x, y, room in places:
            if left <= 0:
                return tuple(found)
            size = min(radius, math.sqrt(left / math.pi))
            if room >= size + _GAP and all(math.hypot(x - u, y - v) >= size + r + _GAP for u, v, r in found):
                found.append((x, y, size))
                left -= math.pi * size * size
    return tuple(found)


def blade_area() -> float:
    """Area of the blade without its stalk, in square units (the shoelace formula)."""
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in _edges(_shape().outline))) / 2


@cache
def _shape() -> Leaf:
    return leaf(_MIDRIB, half_width=21.0, stalk_frac=0.14)


def _edges(outline: Points) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    return zip(outline, [*outline[1:], outline[0]], strict=True)


def _places(outline: Points) -> Iterator[tuple[float, float, float]]:
    """Places in the blade and their distance to its edge, from an even sequence (Roberts' R2) over its square."""
    left, right = min(x for x, _ in outline), max(x for x, _ in outline)
    top, bottom = min(y for _, y in outline), max(y for _, y in outline)
    for k in range(1, 4 * _TRIES):
        x = left + (right - left) * ((0.5 + 0.7548776662466927 * k) % 1)
        y = top + (bottom - top) * ((0.5 + 0.5698402909980532 * k) % 1)
        if _inside(outline, x, y):
            yield x, y, min(_distance(x, y, *one, *other) for one, other in _edges(outline))


def _inside(outline: Points, x: float, y: float) -> bool:
    crossed = [x1 + (y - y1) / (y2 - y1) * (x2 - x1) for (x1, y1), (x2, y2) in _edges(outline) if (y1 < y) != (y2 < y)]
    return sum(at > x for at in crossed) % 2 == 1


def _distance(x: float, y: float, x1: float, y1: float, x2: float, y2: float) -> float:
    length2 = (x2 - x1) ** 2 + (y2 - y1) ** 2
    along = min(1.0, max(0.0, ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / length2)) if length2 else 0.0
    return math.hypot(x - x1 - along * (x2 - x1), y - y1 - along * (y2 - y1))
