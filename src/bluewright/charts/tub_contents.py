"""What is drawn inside a tub: liquor, blue cast, leaves, bubbles, the surface with its scum, froth."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from bluewright.charts.palette import INDIGO, INK, LEAF, LINEN, LIQUOR, LIQUOR_GREEN, NIGHT, SOFT_INK, TAN_INK
from bluewright.charts.pen import (
    DETAIL,
    FINE,
    OUTLINE,
    Points,
    arc,
    blob,
    bubble,
    hatching,
    leaf,
    sampled,
    star,
    stroke,
    wave,
)
from bluewright.charts.svg import Look, area, path

TubStage = Literal["steep", "strained", "alkali", "aired", "settling"]
"""How far the work on a tub is: leaf in it, leaf out, alkali in, air in, the blue sinking."""

MIDDLE: Final = 120.0
TOP: Final = 42.0
"""Height of the rim."""
BRIM: Final = 56.0
"""Height of the surface of a full tub."""
FLOOR: Final = 126.0
"""Height of the floor, below which the tub is solid."""
FOOT: Final = 158.0


def level_oval(y: float) -> tuple[float, float, float]:
    """Height and half axes of a level cut through the tub at `y`: it narrows towards its foot."""
    share = (y - TOP) / (FOOT - TOP)
    return y, 104 - 20 * share, 16 - 2 * share


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """Where the liquor stands on paper."""

    top: float
    """Height of the middle of the surface."""

    @classmethod
    def filled(cls, fill_frac: float) -> Inside:
        """The inside of a tub filled to `fill_frac` of its depth."""
        return cls(top=FLOOR - fill_frac * (FLOOR - BRIM))

    def body(self, *, above: float = 0.0, below: float = 1.0) -> list[tuple[float, float]]:
        """The liquor as seen through the front, or the layer of it between two shares of its depth."""
        upper, lower = (self.top + share * (FLOOR - self.top) for share in (above, below))
        near = arc(MIDDLE, *level_oval(upper), start_deg=180, end_deg=0)
        return [*near, *arc(MIDDLE, *level_oval(lower), start_deg=0, end_deg=180)]

    def surface(self) -> list[tuple[float, float]]:
        """The oval of the surface."""
        return arc(MIDDLE, *level_oval(self.top))[:-1]

    def at(self, across: float, depth: float) -> tuple[float, float]:
        """A place in the liquor: `across` from -1 to 1, `depth` from 0 (surface) to 1 (floor) at the near side."""
        y, half, up = level_oval(self.top + depth * (FLOOR - self.top))
        return MIDDLE + across * half, y + up * (1 - across * across) ** 0.5 - (2 * depth - 1) * 4

    def on(self, across: float, away: float) -> tuple[float, float]:
        """A place on the surface: `across` from -1 to 1, `away` from -1 (far edge) to 1 (near edge)."""
        y, half, up = level_oval(self.top)
        return MIDDLE + across * half, y + away * up

    @property
    def roominess(self) -> float:
        """How large things may be drawn in the liquor: 1 in a tub more than half full."""
        return min(1.0, (FLOOR - self.top) / 40)


def liquor(inside: Inside, *, stage: TubStage, darkness: int | None) -> str:
    """The body of liquor; once the blue settles, clear above and a dark layer on the floor."""
    body = inside.body()
    drawn = [area(body, fill=_fill(stage, darkness)), _body_hatch(body, stage, darkness)]
    if stage == "settling":
        drawn.append(area(inside.body(above=0.62), fill=INDIGO[4], stroke=INK, stroke_width=FINE))
    drawn.append(area(body, fill="none", **DETAIL))
    return "".join(drawn)


def _fill(stage: TubStage, darkness: int | None) -> str:
    if stage == "alkali":
        return LIQUOR_GREEN[1]
    if stage == "aired":
        return INDIGO[3]
    return NIGHT if darkness is None else LIQUOR[darkness]


def _body_hatch(body: Points, stage: TubStage, darkness: int | None) -> str:
    """One way for straw, both ways for tea, close for dark; green lies level, blue stands upright."""
    look: Look = {"stroke": TAN_INK, "stroke_width": 1.4}
    if stage == "alkali":
        return hatching(body, gap=6, angle_deg=0, **{**look, "stroke": INK})
    if stage == "aired":
        return hatching(body, gap=5, angle_deg=90, **{**look, "stroke": INK})
    if not darkness:
        return ""
    gap = (10.0, 8.0, 5.0)[darkness - 1]
    ways = (45,) if darkness == 1 else (45, -45)
    ink = INK if darkness == 3 else TAN_INK
    return "".join(hatching(body, gap=gap, angle_deg=way, **{**look, "stroke": ink}) for way in ways)


def cast(inside: Inside, level: int | None) -> str:
    """The blue cast as a layer under the surface, deeper with each level; the strongest sparkles."""
    if not level:
        return ""
    layer = inside.body(below=(0.1, 0.3, 0.5)[level - 1])
    drawn = [area(layer, fill=INDIGO[(2, 3, 4)[level - 1]], stroke=INK, stroke_width=1.4)]
    if level > 1:
        drawn.append(hatching(layer, gap=9, angle_deg=-60, stroke=INDIGO[0], stroke_width=1.6))
    return "".join(drawn)


_MIDRIBS: Final[tuple[tuple[Points, ...], ...]] = (
    tuple(
        ((x, 1.0), (x + lean, 0.6), (x + 1.6 * lean, 0.06))
        for x, lean in ((-0.66, -0.08), (-0.4, -0.03), (-0.13, 0.03), (0.14, -0.03), (0.41, 0.03), (0.66, 0.08))
    ),
    tuple(
        ((x, 1.0), (x + 0.03 * side, 0.5), (x + 0.11 * side, 0.24), (x + 0.36 * side, 0.22))
        for x, side in ((-0.5, -1), (-0.16, -1), (0.16, 1), (0.5, 1))
    ),
    tuple(
        ((x, 1.0), (x + 0.05 * side, 0.5), (x + 0.17 * side, 0.2), (x + 0.3 * side, 0.4), (x + 0.34 * side, 0.95))
        for x, side in ((-0.48, -1), (-0.08, -1), (0.08, 1), (0.48, 1))
    ),
    tuple(
        ((x, y), (x + 0.17, y + 0.05), (x + 0.34, y - 0.05), (x + 0.52, y))
        for x, y in ((-0.4, 0.5), (0.04, 0.55), (-0.86, 0.84), (0.32, 0.8), (-0.3, 0.92))
    ),
)
"""Midribs of the leaves in a tub at each level of limpness, as places in the liquor."""


def leaves(inside: Inside, level: int | None) -> str:
    """The leaf in the liquor: upright, bent, hanging, collapsed to its veins; bare outlines if not looked at.

    In shallow liquor it can only lie, and in hardly any there is no room to draw it.
    """
    if inside.roominess < 0.25:
        return ""
    neutral = level is None
    shallow = inside.roominess < 0.75
    posture = 3 if shallow else 1 if level is None else level
    drawn = []
    for places in _MIDRIBS[posture][: 3 if shallow else None]:
        midrib = [inside.at(*place) for place in places]
        shape = leaf(midrib, half_width=9.5 * inside.roominess, stalk_frac=0.3 if posture == 2 else 0.14, veins=4)
        look: Look = {**DETAIL, "stroke": SOFT_INK if neutral else INK, "stroke_width": 1.4 if shallow else FINE}
        edge: Look = {**look, "stroke_dasharray": "4 3" if level == 3 or neutral else None}
        drawn.append(area(shape.outline, fill=LINEN if level is None else LEAF[level], **edge))
        drawn.append(path(shape.midrib, **look))
        if level == 3:
            drawn += [path(vein, **{**look, "stroke_width": 1.2}) for vein in shape.veins]
    return "".join(drawn)


_RISING: Final = (
    *((-0.7, 0.7, 4.0), (-0.45, 0.4, 5.0), (-0.15, 0.75, 4.0), (0.1, 0.35, 5.0), (0.36, 0.66, 4.0), (0.6, 0.36, 5.0)),
    *((-0.86, 0.4, 4.0), (-0.28, 0.2, 4.0), (0.26, 0.9, 4.0), (0.82, 0.6, 4.0), (-0.56, 0.9, 3.5), (0.46, 0.15, 4.0)),
)


def rising(inside: Inside, level: int | None) -> str:
    """Bubbles on their way up: none until they rise steadily, more when lively."""
    count = 0 if level is None else (0, 0, 6, 12)[level]
    return "".join(
        bubble(*inside.at(x, depth), radius * inside.roominess, weight=1.8) for x, depth, radius in _RISING[:count]
    )


_FILMS: Final[tuple[Points, ...]] = (
    ((-0.72, -0.1), (-0.5, -0.5), (-0.26, -0.2), (-0.34, 0.3), (-0.6, 0.4)),
    ((-0.1, 0.3), (0.08, -0.05), (0.26, 0.25), (0.2, 0.7), (-0.04, 0.75)),
    ((0.3, -0.3), (0.56, -0.6), (0.76, -0.15), (0.6, 0.2), (0.4, 0.1)),
    ((-0.16, -0.5), (0.02, -0.8), (0.18, -0.5), (0.04, -0.3)),
)
_SHIMMER: Final = ((-0.66, 0.1, -0.24), (-0.1, -0.4, 0.34), (-0.08, 0.5, 0.3), (0.4, 0.1, 0.8))
_FOLDS: Final = ((-0.7, 0.0, -0.2), (-0.36, -0.5, 0.14), (-0.16, 0.45, 0.36), (0.2, -0.1, 0.74))


def surface(inside: Inside, *, stage: TubStage, darkness: int | None, scum: int | None, blue_cast: int | None) -> str:
    """The surface with its scum; its edge is broken if nobody looked for scum."""
    ground = INDIGO[2] if stage == "aired" else _fill(stage, darkness)
    broken = "7 5" if scum is None else None
    drawn = [area(inside.surface(), fill=ground, **{**OUTLINE, "stroke_width": FINE, "stroke_dasharray": broken})]
    if blue_cast:
        drawn.append(_gleam(inside, blue_cast))
    if scum == 1:
        drawn += [_ripple(inside, place, INDIGO[4]) for place in _SHIMMER]
    if scum == 2:
        for film in _FILMS:
            patch = [inside.on(*place) for place in film]
            drawn.append(blob(patch, fill=INDIGO[2], stroke=INK, stroke_width=1.6))
            drawn.append(hatching(sampled(patch, closed=True), gap=4, angle_deg=45, stroke=INK, stroke_width=1.1))
    if scum == 3:
        drawn.append(area(inside.surface(), fill=INDIGO[4], **OUTLINE))
        drawn += [_ripple(inside, place, INDIGO[0]) for place in _FOLDS]
    return "".join(drawn)


def _ripple(inside: Inside, place: tuple[float, float, float], ink: str) -> str:
    start, away, end = place
    (x1, y1), (x2, y2) = inside.on(start, away), inside.on(end, away)
    return stroke(wave(x1, y1, x2, y2, swing=1.8, bends=4), stroke=ink, stroke_width=FINE, stroke_linecap="round")


def _gleam(inside: Inside, level: int) -> str:
    """Blue along the far edge of the surface, wider with each level; the strongest sparkles."""
    y, across, up = level_oval(inside.top)
    far = arc(MIDDLE, y, across, up, start_deg=200, end_deg=340)
    rise = far[0][1] - y
    near = arc(MIDDLE, y + rise, across * 0.94, up * (0.45, 0.0, -0.9)[level - 1], start_deg=340, end_deg=200)
    return area([*far, *near], fill=INDIGO[(2, 3, 4)[level - 1]]) + (
        "".join(star(*inside.on(x, -0.1), 8.0, fill=LINEN, stroke=INK, stroke_width=1.4) for x in (-0.4, 0.45))
        if level == 3
        else ""
    )


_RIM_BUBBLES: Final = ((-0.86, 0.2, 4.0), (-0.76, 0.5, 3.0), (0.88, 0.1, 4.0), (0.7, 0.6, 3.5), (0.8, -0.35, 3.0))
_HEAD: Final = tuple(
    (first + 0.145 * column, away, (11.0, 12.5, 10.5)[(column + round(10 * away)) % 3])
    for away, first, count in ((-1.25, -0.725, 11), (-0.7, -0.7975, 12), (-0.1, -0.87, 13), (0.5, -0.6525, 10))
    for column in range(count)
)


def froth(inside: Inside, level: int | None, *, stage: TubStage) -> str:
    """Bubbles on the surface: a few at the rim, a ring of them, a head of froth; blue once air is in."""
    if not level:
        return ""
    places = {1: _RIM_BUBBLES[:3], 2: (*_RIM_BUBBLES, (-0.3, 0.4, 4.0), (0.2, 0.2, 4.5)), 3: _HEAD}[level]
    fill = INDIGO[1] if stage == "aired" else LINEN
    return "".join(bubble(*inside.on(x, away), radius, weight=1.8, fill=fill) for x, away, radius in places)
