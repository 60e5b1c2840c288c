"""Signs seen at the tub itself: bubbles from the side, scum from above, the blue cast of its surface in the sun."""

from __future__ import annotations

import math
from typing import Final

from bluewright.charts.palette import INDIGO, INK, LINEN, LIQUOR, TAN
from bluewright.charts.pen import (
    BOLD,
    DETAIL,
    FINE,
    OUTLINE,
    arc,
    blob,
    bubble,
    disc,
    hatching,
    oval,
    sampled,
    star,
    stroke,
    wave,
)
from bluewright.charts.svg import Look, area, line, path

_SURFACE: Final = 40.0
"""Height of the liquor in the picture of bubbles."""
_RISING: Final = ((30, 76, 3.5), (34, 60, 4.5), (29, 49, 3.5), (50, 70, 4.5), (46, 53, 3.5), (66, 77, 3.5), (64, 61, 5))
_LIVELY: Final = (*_RISING, (54, 80, 3.5), (40, 80, 3), (56, 57, 3), (72, 51, 3.5), (24, 64, 3))
_FOAM: Final = (
    *((19, 36, 8), (77, 36, 8), (33, 37, 9), (63, 37, 9), (48, 38, 9)),
    *((26, 22, 9), (70, 23, 8), (41, 22, 9), (56, 22, 9), (33, 12, 6.5), (48, 11, 7.5), (62, 12, 6)),
)


def bubbles(level: int) -> str:
    """A tub cut open: still, a few at the rim, rising, frothing over."""
    liquor = [(14.6, _SURFACE), (18, 88), (78, 88), (81.4, _SURFACE)]
    drawn = [area(liquor, fill=LIQUOR[1]), line(14, _SURFACE, 82, _SURFACE, **OUTLINE)]
    for x, y, radius in ((), (), _RISING, _LIVELY)[level]:
        drawn.append(bubble(x, y, radius))
    if level in {1, 2}:
        rim = ((21, 38, 5), (31, 39, 3.5), (75, 38, 5))
        drawn += [bubble(x, y, radius) for x, y, radius in rim]
    if level == 2:
        drawn += [bubble(x, y, radius) for x, y, radius in ((45, 38, 5), (58, 39, 4))]
    drawn.append(path([(12, 18), (18, 88), (78, 88), (84, 18)], **OUTLINE))
    if level == 3:
        drawn += [bubble(x, y, radius, weight=2.4) for x, y, radius in _FOAM]
    return "".join(drawn)


_PATCHES: Final = (
    ((22, 36), (30, 28), (42, 29), (45, 35), (36, 38), (32, 45), (24, 43)),
    ((54, 27), (66, 27), (74, 33), (68, 38), (58, 35)),
    ((44, 47), (54, 42), (67, 45), (62, 52), (50, 54)),
)


def scum(level: int) -> str:
    """A tub from above: clean, thin shimmer lines, patches of film, a thick wrinkled skin."""
    body = [(8.0, 38.0), (16.0, 74.0), *arc(48, 74, 32, 15, start_deg=180, end_deg=0), (88.0, 38.0)]
    drawn = [area(body, fill=LINEN, **OUTLINE), oval(48, 38, 40, 25, fill=LINEN, **OUTLINE)]
    drawn.append(oval(48, 40, 34, 19, fill=LIQUOR[1], stroke=INK, stroke_width=FINE))
    if level == 1:
        for x1, y1, x2 in ((27, 34, 50), (48, 42, 72), (32, 50, 56)):
            shimmer = wave(x1, y1, x2, y1, swing=2.2, bends=4)
            drawn.append(stroke(shimmer, stroke=INDIGO[4], stroke_width=2.4, stroke_linecap="round"))
    if level == 2:
        for patch in _PATCHES:
            drawn.append(blob(patch, fill=INDIGO[2], stroke=INK, stroke_width=FINE))
            drawn.append(hatching(sampled(patch, closed=True), gap=4.5, angle_deg=45, stroke=INK, stroke_width=1.2))
    if level == 3:
        skin = [(x, y + 1.2 * (-1) ** at) for at, (x, y) in enumerate(arc(48, 39, 36, 20.5)[:-1])]
        drawn.append(blob(skin, fill=INDIGO[4], stroke=INK, stroke_width=BOLD))
        for x1, y1, x2, y2 in ((22, 35, 44, 27), (30, 45, 60, 32), (44, 52, 76, 38), (64, 27, 75, 31)):
            fold = wave(x1, y1, x2, y2, swing=2.4, bends=3)
            drawn.append(stroke(fold, stroke=INDIGO[0], stroke_width=2.4, stroke_linecap="round"))
    return "".join(drawn)


def blue_cast(level: int) -> str:
    """A bowl of liquor in the sun: plain, a glint at the edge, a clear cast, flashing like a cut stone."""
    x, y, radius = 53.0, 54.0, 32.0
    drawn = [_sun(), disc(x, y, 38, fill=LINEN, **OUTLINE)]
    drawn.append(disc(x, y, radius, fill=LIQUOR[1], stroke=INK, stroke_width=FINE))
    if level in {1, 2}:
        drawn.append(_cast(x, y, radius, deep=8.0 if level == 1 else 34.0, clear=level == 2))
    if level == 3:
        drawn.append(_gem(x, y, radius))
    return "".join(drawn)


def _sun() -> str:
    drawn = [disc(12, 12, 6, fill=LINEN, stroke=INK, stroke_width=FINE)]
    for angle in (-15, 15, 45, 75, 105):
        turn = math.radians(angle)
        (x1, y1), (x2, y2) = ((12 + r * math.cos(turn), 12 + r * math.sin(turn)) for r in (9.5, 14.5))
        drawn.append(line(x1, y1, x2, y2, stroke=TAN, stroke_width=FINE, stroke_linecap="round"))
    return "".join(drawn)


def _cast(x: float, y: float, radius: float, *, deep: float, clear: bool) -> str:
    """A crescent of blue, `deep` at its widest, along the edge away from the sun."""
    outer = arc(x, y, radius, radius, start_deg=-35, end_deg=125)
    turn = math.radians(45)
    inner = [_pulled(corner, centre=(x, y), turn=turn, deep=deep, radius=radius) for corner in outer]
    crescent = outer + inner[::-1]
    drawn = [area(crescent, fill=INDIGO[3 if clear else 4], stroke=INK, stroke_width=FINE, stroke_linejoin="round")]
    if clear:
        drawn.append(hatching(crescent, gap=6.5, angle_deg=-45, stroke=INDIGO[0], stroke_width=FINE))
    return "".join(drawn)


def _pulled(
    corner: tuple[float, float], *, centre: tuple[float, float], turn: float, deep: float, radius: float
) -> tuple[float, float]:
    """The corner moved towards the sun, most in the middle of the crescent and not at all at its horns."""
    across, up = (corner[0] - centre[0]) / radius, (corner[1] - centre[1]) / radius
    facing = across * math.cos(turn) + up * math.sin(turn)
    share = max(0.0, (facing - math.cos(math.radians(80))) / (1 - math.cos(math.radians(80))))
    return corner[0] - share * deep * math.cos(turn), corner[1] - share * deep * math.sin(turn)


def _gem(x: float, y: float, radius: float) -> str:
    """The whole surface in facets around a table, light and dark in turn, with two sparkles."""
    edge = [_around(x, y, radius, 45 * k) for k in range(8)]
    table = [_around(x, y, 0.5 * radius, 45 * k + 22.5) for k in range(8)]
    look: Look = {"stroke": INK, "stroke_width": 1.4, "stroke_linejoin": "round"}
    drawn = [disc(x, y, radius, fill=INDIGO[4], stroke=INK, stroke_width=FINE)]
    for k in range(8):
        after = (k + 1) % 8
        drawn.append(area([edge[k], edge[after], table[k]], fill=INDIGO[4 if k % 2 else 3], **look))
        drawn.append(area([edge[after], table[k], table[after]], fill=INDIGO[1 if k % 2 else 5], **look))
    drawn.append(area(table, fill=INDIGO[3], **look))
    drawn.append(area([table[4], table[5], table[6], table[7]], fill=INDIGO[0], **look))
    for at_x, at_y, reach in ((73.0, 37.0, 12.0), (34.0, 70.0, 8.5)):
        drawn.append(star(at_x, at_y, reach, fill=LINEN, **{**DETAIL, "stroke_width": 1.6}))
    return "".join(drawn)


def _around(x: float, y: float, radius: float, angle_deg: float) -> tuple[float, float]:
    turn = math.radians(angle_deg)
    return x + radius * math.cos(turn), y + radius * math.sin(turn)
