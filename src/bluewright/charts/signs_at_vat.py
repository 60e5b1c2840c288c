"""The signs of a vat as small pictures: its liquor under the skin, what floats on it, a drop of it run down a glass.

Four levels each, told apart by shape, number and hatching, as the signs of a steep are.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from bluewright.charts.palette import INDIGO, INK, LINEN, LIQUOR_GREEN
from bluewright.charts.pen import DETAIL, OUTLINE, Points, arc, blob, bubble, disc, hatching, oval, stroke, wave
from bluewright.charts.signs_drawn import framed
from bluewright.charts.svg import Look, area, path
from bluewright.words.signs import VatSign

LOOKS: Final = (INDIGO[3], LIQUOR_GREEN[1], LIQUOR_GREEN[0], "#d8a43c")
"""The liquor of a vat: blue, green, yellow-green, amber."""
COPPER: Final = "#b5673a"
"""The film on a vat that is ready."""
_GLASS: Final[Points] = ((24.0, 12.0), (28.0, 86.0), (68.0, 86.0), (72.0, 12.0))
_FULL: Final[Points] = ((25.0, 30.0), (28.0, 86.0), (68.0, 86.0), (71.0, 30.0))


def veiled(outline: Points, level: int) -> str:
    """The hatching of a liquor: crossed and close while it is blue, one way when green, wide, none once it is clear."""
    look: Look = {"stroke": INK, "stroke_width": 1.5}
    if level == 0:
        return "".join(hatching(outline, gap=7, angle_deg=way, **look) for way in (45, -45))
    return hatching(outline, gap=(7, 12)[level - 1], angle_deg=45, **look) if level < 3 else ""


def liquor_look(level: int) -> str:
    """A glass of it: blue and dense, green and veiled, yellow-green, clear amber with a gleam."""
    drawn = [area(_FULL, fill=LOOKS[level]), veiled(_FULL, level)]
    if level == 3:
        drawn.append(path(((35.0, 40.0), (37.0, 74.0)), stroke=LINEN, stroke_width=4.0, stroke_linecap="round"))
    drawn += [path((_FULL[0], _FULL[3]), **DETAIL), path(_GLASS, **OUTLINE)]
    return "".join(drawn)


_ACROSS, _UP = 40.0, 30.0
"""Half axes of a vat seen from above."""
_PATCHES: Final[tuple[Points, ...]] = (
    ((20, 50), (26, 36), (42, 32), (50, 42), (44, 54), (28, 60)),
    ((52, 60), (56, 48), (70, 42), (78, 52), (72, 64), (60, 68)),
)
_FLOWER: Final = (
    (36, 44, 8), (48, 38, 9), (60, 44, 8), (42, 54, 8), (55, 55, 9), (48, 47, 7), (30, 53, 6), (66, 54, 6), (48, 63, 7),
)  # fmt: skip


def film(level: int) -> str:
    """The vat from above: bare, a few shimmering lines, coppery patches, all covered with a flower of foam upon it."""
    drawn = [oval(48, 48, _ACROSS, _UP, fill=COPPER if level == 3 else LOOKS[2], **OUTLINE)]
    if level == 1:
        for y in (38.0, 48.0, 58.0):
            drawn.append(stroke(wave(24, y, 72, y, swing=2.4, bends=5), stroke=COPPER, stroke_width=2.6))
    if level == 2:
        for patch in _PATCHES:
            drawn += [blob(patch, fill=COPPER, **DETAIL), hatching(patch, gap=5, angle_deg=30, **_THIN)]
    if level == 3:
        ring = arc(48, 48, _ACROSS, _UP)
        drawn += [hatching(ring, gap=5, angle_deg=30, **_THIN), oval(48, 48, _ACROSS, _UP, fill="none", **OUTLINE)]
        drawn += [bubble(x, y, radius, fill=INDIGO[4]) for x, y, radius in _FLOWER]
    return "".join(drawn)


_THIN: Final[Look] = {"stroke": INK, "stroke_width": 1.2}
_GRAINS: Final = (
    (46, 34), (52, 52), (44, 66), (54, 40), (48, 58), (42, 46), (55, 64), (47, 44), (51, 70), (44, 56), (53, 58),
    (49, 38), (43, 62), (55, 48), (47, 51), (50, 64), (45, 40), (52, 34), (48, 72), (54, 54), (43, 52), (50, 46),
)  # fmt: skip


def grains_seen(level: int) -> str:
    """A slip of glass with the track of a drop: clean, three grains, many, so many that the track is dark."""
    slip: Points = ((24.0, 8.0), (24.0, 88.0), (72.0, 88.0), (72.0, 8.0))
    track: Points = ((42, 18), (48, 14), (54, 18), (57, 50), (60, 70), (48, 82), (36, 70), (39, 50))
    drawn = [area(slip, fill=LINEN, **OUTLINE), blob(track, fill=INDIGO[3] if level == 3 else LOOKS[3], **DETAIL)]
    count = (0, 3, 10, len(_GRAINS))[level]
    radius = 3.4 if level == 3 else 2.6
    drawn += [disc(x, y, radius, fill=INK, stroke=LINEN, stroke_width=0.6) for x, y in _GRAINS[:count]]
    return "".join(drawn)


VAT_SIGNS: Final[dict[VatSign, Callable[[int], str]]] = {
    "liquor_look": liquor_look,
    "film": film,
    "grains_seen": grains_seen,
}


def vat_sign_drawing(sign: VatSign, level: int) -> str:
    """The picture of a vat's sign at a level (0 to 3) as SVG text, 96 units square; its title says both in words.

    Raises `InputError` for a sign that does not exist and for a level that is not 0, 1, 2 or 3.
    """
    return framed(sign, level, pictures=VAT_SIGNS)
