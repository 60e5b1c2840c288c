"""Charts of a few hundred bytes that stand in the rows of a table, beside the figure that they draw.

The figure is told in words next to them, so readers of the screen pass them over. Shapes, not colours, tell what is
what: an outlined bar for the whole, a whisker for a range, strokes for days.
"""

from __future__ import annotations

from typing import Final

from bluewright.charts.palette import INDIGO, INK
from bluewright.charts.svg import box, element, line, number, path
from bluewright.science.base.bands import Band
from bluewright.science.base.errors import InputError

LENGTH: Final = 96.0
"""Width of every small chart in its own units; it scales with its place."""
HEIGHT: Final = 16.0
PAD: Final = 2.0
"""Room for the half of a line at each end."""
DAY_H: Final = 24.0
MOST_DAYS: Final = 14
"""A longer steep is drawn with strokes that stand closer than can be counted; they are left out."""


def bar(value: float, *, most: float, inside: Band | None = None) -> str:
    """A bar from zero to `value`, as long as the place at `most`; `inside` it the range of a part, with its middle."""
    _check(value, most)
    drawn = [box(PAD, 3, max(_along(value, most), 0.5), 10, fill=INDIGO[1], stroke=INK, stroke_width=1.5)]
    if inside is not None:
        low, mid, high = (PAD + _along(min(at, most), most) for at in (inside.p5, inside.p50, inside.p95))
        drawn.append(line(low, 8, high, 8, stroke=INK, stroke_width=1.5))
        drawn.append(element("circle", cx=mid, cy=8.0, r=2.8, fill=INK))
    return _sheet(*drawn)


def days(hours: float, *, most_h: float) -> str:
    """A line as long as something took, as long as the place at `most_h`, with a stroke at each whole day."""
    _check(hours, most_h)
    end = PAD + _along(hours, most_h)
    drawn = [path([(PAD, 4), (PAD, 12)], stroke=INK, stroke_width=1.5)]
    drawn.append(path([(PAD, 8), (end, 8)], stroke=INK, stroke_width=3.0))
    whole = int(hours // DAY_H)
    if whole and most_h <= MOST_DAYS * DAY_H:
        strokes = "".join(f"M{number(PAD + _along(day * DAY_H, most_h))} 3v10" for day in range(1, whole + 1))
        drawn.append(element("path", d=strokes, stroke=INK, stroke_width=1.5))
    return _sheet(*drawn)


def _along(value: float, most: float) -> float:
    return value / most * (LENGTH - 2 * PAD)


def _check(value: float, most: float) -> None:
    if not 0 <= value <= most or not 0 < most < float("inf"):
        raise InputError(
            where="value", what=f"{value:g} does not lie between 0 and {most:g}", right="draw it against the longest"
        )


def _sheet(*drawn: str) -> str:
    return element(
        "svg", *drawn, xmlns="http://www.w3.org/2000/svg", viewBox=f"0 0 {number(LENGTH)} {number(HEIGHT)}",
        aria_hidden="true",
    )  # fmt: skip
