"""The pen that pictures of things are drawn with: smooth outlines, hatching cut to a shape, leaves, bubbles.

Pictures hold no ids and no patterns, so that any number of them can stand on one page.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bluewright.charts.palette import INK, LINEN
from bluewright.charts.svg import Attribute, Look, area, element, number, path

Points = Sequence[tuple[float, float]]
"""Corners or support points, x to the right, y down."""

BOLD: Final = 3.2
"""Weight of outlines."""
FINE: Final = 2.0
"""Weight of what is inside them."""
OUTLINE: Final[Look] = {"stroke": INK, "stroke_width": BOLD, "stroke_linejoin": "round", "stroke_linecap": "round"}
DETAIL: Final[Look] = {"stroke": INK, "stroke_width": FINE, "stroke_linejoin": "round", "stroke_linecap": "round"}

_STEPS: Final = 8
"""Straight pieces between two support points where a curve is cut with something."""


def blob(points: Points, **look: Attribute) -> str:
    """A smooth closed outline through `points`."""
    return element("path", d=f"{_curve(points, closed=True)}Z", **look)


def stroke(points: Points, **look: Attribute) -> str:
    """A smooth open line through `points`, not filled."""
    return element("path", d=_curve(points, closed=False), fill="none", **look)


def disc(x: float, y: float, radius: float, **look: Attribute) -> str:
    """A circle."""
    return element("circle", cx=x, cy=y, r=radius, **look)


def oval(x: float, y: float, across: float, up: float, **look: Attribute) -> str:
    """An ellipse with half axes `across` and `up`."""
    return element("ellipse", cx=x, cy=y, rx=across, ry=up, **look)


def bubble(x: float, y: float, radius: float, *, weight: float = FINE, fill: str = LINEN) -> str:
    """A round bubble with a small gleam if there is room for one."""
    drawn = disc(x, y, radius, fill=fill, stroke=INK, stroke_width=weight)
    if radius < 5:
        return drawn
    gleam = arc(x, y, radius * 0.5, radius * 0.5, start_deg=190, end_deg=280)
    return drawn + path(gleam, stroke=INK, stroke_width=0.7 * weight, stroke_linecap="round")


def star(x: float, y: float, radius: float, **look: Attribute) -> str:
    """A sparkle of four points."""
    corners = []
    for at in range(8):
        reach = radius if at % 2 == 0 else 0.3 * radius
        angle = math.pi / 4 * at
        corners.append((x + reach * math.sin(angle), y - reach * math.cos(angle)))
    return area(corners, **look)


def arc(
    x: float, y: float, across: float, up: float, *, start_deg: float = 0.0, end_deg: float = 360.0
) -> list[tuple[float, float]]:
    """Points along an ellipse, clockwise on paper from `start_deg` (0 is to the right, 90 is down)."""
    count = max(2, math.ceil(abs(end_deg - start_deg) / 10))
    angles = [math.radians(start_deg + (end_deg - start_deg) * k / count) for k in range(count + 1)]
    return [(x + across * math.cos(a), y + up * math.sin(a)) for a in angles]


def wave(x1: float, y1: float, x2: float, y2: float, *, swing: float, bends: int) -> list[tuple[float, float]]:
    """Support points of a wavy line from one place to another, `bends` half waves of height `swing`."""
    length = math.hypot(x2 - x1, y2 - y1)
    across, up = (y1 - y2) / length, (x2 - x1) / length
    points = [(x1, y1)]
    for at in range(bends):
        share, side = (at + 0.5) / bends, swing * (-1) ** at
        points.append((x1 + share * (x2 - x1) + side * across, y1 + share * (y2 - y1) + side * up))
    return [*points, (x2, y2)]


def sampled(points: Points, *, closed: bool = False) -> list[tuple[float, float]]:
    """The smooth curve through `points` as many short straight pieces."""
    found = []
    for start, first, second, end in _pieces(points, closed=closed):
        for at in range(_STEPS):
            t = at / _STEPS
            a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
            found.append(
                (
                    a * start[0] + b * first[0] + c * second[0] + d * end[0],
                    a * start[1] + b * first[1] + c * second[1] + d * end[1],
                )
            )
    return found if closed else [*found, points[-1]]


def hatching(outline: Points, *, gap: float, angle_deg: float, **look: Attribute) -> str:
    """Parallel lines `gap` apart inside the outline with these corners."""
    turn = math.radians(angle_deg)
    along, across = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    turned = [(x * along[0] + y * along[1], x * across[0] + y * across[1]) for x, y in outline]
    levels = [v for _, v in turned]
    steps = []
    for k in range(math.ceil(min(levels) / gap), math.floor(max(levels) / gap) + 1):
        # Half a hair off, so that no line runs through a corner.
        v = k * gap + 1e-6
        cuts = sorted(_cuts(turned, v))
        for u1, u2 in zip(cuts[::2], cuts[1::2], strict=True):
            ends = [(u * along[0] + v * across[0], u * along[1] + v * across[1]) for u in (u1, u2)]
            steps.append("M" + "L".join(f"{number(x)} {number(y)}" for x, y in ends))
    return element("path", d="".join(steps), fill="none", **look) if steps else ""


def _cuts(ring: Points, v: float) -> list[float]:
    """Where the closed outline crosses the level `v`."""
    found = []
    for (u1, v1), (u2, v2) in zip(ring, [*ring[1:], ring[0]], strict=True):
        if (v1 < v) != (v2 < v):
            found.append(u1 + (v - v1) / (v2 - v1) * (u2 - u1))
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """A woad leaf along its midrib: long, widest past the middle, narrowing into the stalk."""

    outline: list[tuple[float, float]]
    midrib: list[tuple[float, float]]
    """With the stalk."""
    veins: list[list[tuple[float, float]]]
    """Side veins, from the midrib outwards, both sides in turn."""


def leaf(midrib: Points, *, half_width: float, stalk_frac: float = 0.18, veins: int = 5) -> Leaf:
    """A leaf along the smooth curve through `midrib`, from the foot of the stalk to the tip."""
    along = _even(sampled(midrib), 30)
    first = round(stalk_frac * 30)
    blade = along[first:]
    sides: tuple[list[tuple[float, float]], ...] = ([], [])
    for at, (x, y) in enumerate(blade):
        share = at / (len(blade) - 1)
        across, up = _normal(along, first + at)
        reach = half_width * (share**0.9 * (1 - share) ** 0.55) / 0.533
        for side, sign in zip(sides, (1, -1), strict=True):
            side.append((x + sign * reach * across, y + sign * reach * up))
    last = len(blade) - 1
    found = []
    for at in range(1, veins + 1):
        root = round(last * (0.05 + 0.78 * at / (veins + 1)))
        for side in sides:
            edge = side[min(last - 1, root + 4)]
            foot = blade[root]
            found.append([foot, (foot[0] + 0.82 * (edge[0] - foot[0]), foot[1] + 0.82 * (edge[1] - foot[1]))])
    return Leaf(outline=sides[0] + sides[1][-2::-1], midrib=along, veins=found)


def _even(points: Points, count: int) -> list[tuple[float, float]]:
    """`count` + 1 points at equal steps of length along straight pieces."""
    lengths = [0.0]
    for (x1, y1), (x2, y2) in itertools.pairwise(points):
        lengths.append(lengths[-1] + math.hypot(x2 - x1, y2 - y1))
    found, at = [], 0
    for k in range(count):
        wanted = lengths[-1] * k / count
        while lengths[at + 1] <= wanted:
            at += 1
        share = (wanted - lengths[at]) / (lengths[at + 1] - lengths[at])
        (x1, y1), (x2, y2) = points[at], points[at + 1]
        found.append((x1 + share * (x2 - x1), y1 + share * (y2 - y1)))
    return [*found, points[-1]]


def _normal(points: Points, at: int) -> tuple[float, float]:
    (x1, y1), (x2, y2) = points[max(0, at - 1)], points[min(len(points) - 1, at + 1)]
    length = math.hypot(x2 - x1, y2 - y1)
    return (y1 - y2) / length, (x2 - x1) / length


Corner = tuple[float, float]


def _pieces(points: Points, *, closed: bool) -> list[tuple[Corner, Corner, Corner, Corner]]:
    """Cubic pieces (start, two handles, end) whose handles lie along the line between each point's neighbours."""
    count = len(points)
    found = []
    for at in range(count if closed else count - 1):
        near = [at - 1, at, at + 1, at + 2]
        before, start, end, after = (points[k % count if closed else min(max(k, 0), count - 1)] for k in near)
        first = (start[0] + (end[0] - before[0]) / 6, start[1] + (end[1] - before[1]) / 6)
        second = (end[0] - (after[0] - start[0]) / 6, end[1] - (after[1] - start[1]) / 6)
        found.append((start, first, second, end))
    return found


def _curve(points: Points, *, closed: bool) -> str:
    said = [f"M{number(points[0][0])} {number(points[0][1])}"]
    for _, *rest in _pieces(points, closed=closed):
        said.append("C" + " ".join(f"{number(x)} {number(y)}" for x, y in rest))
    return "".join(said)
