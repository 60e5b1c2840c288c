"""The parts that charts share: a panel with its axes, the key, labels that do not run into each other, the sheet."""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from bluewright.charts.inputs import CurveBand, Span
from bluewright.charts.palette import (
    GRID,
    INDIGO,
    INK,
    LINEN,
    SMALL_SIZE,
    SOFT_INK,
    TAN_INK,
    TEXT_SIZE,
    TITLE_SIZE,
    WIDTH,
)
from bluewright.charts.readout import Figures, carried
from bluewright.charts.scale import Scale, Tick
from bluewright.charts.svg import (
    Look,
    area,
    box,
    element,
    label,
    line,
    number,
    path,
    shortened,
    text_width,
    words,
    wrapped,
)
from bluewright.words.language import gettext as _
from bluewright.words.numbers import with_range

MARGIN: Final = 14.0
LEFT: Final = 48.0
"""Where panels begin, unless the numbers of the upright axis need more room."""
BOLD: Final = 1.13
"""How much wider bold letters are."""
RIGHT: Final = WIDTH - MARGIN
_EDGE: Final[Look] = {"stroke": INDIGO[3], "stroke_width": 1.2, "stroke_dasharray": "6 3"}
"""The edge of a band."""
HATCHED_MIDDLE: Final[Look] = {"stroke": TAN_INK, "stroke_width": 2.0, "stroke_dasharray": "9 3 2 3"}
"""The middle of a band that is hatched."""
_LINE: Final = 1.3
"""Height of a line of text in its own size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A rectangle of paper with its two scales."""

    x: Scale
    y: Scale
    y_ticks: Sequence[Tick] = ()

    @property
    def top(self) -> float:
        """Upper edge on paper."""
        return min(self.y.start, self.y.end)

    @property
    def bottom(self) -> float:
        """Lower edge on paper."""
        return max(self.y.start, self.y.end)

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Where the pair stands on paper."""
        return self.x(x), self.y(y)

    def shade(self, low: float, high: float, **look: str | float | None) -> str:
        """A full-height stripe from `low` to `high` along x, cut to the panel; nothing if it lies outside."""
        low, high = max(low, self.x.low), min(high, self.x.high)
        if high <= low:
            return ""
        return box(self.x(low), self.top, self.x(high) - self.x(low), self.bottom - self.top, **look)

    def upright_axis(self, name: str, *, lift: float = 0.0) -> str:
        """Grid, numbers, and the quantity's name above the axis, raised by `lift` to make room for a label."""
        drawn = [label(MARGIN, self.top - 10 - lift, name, size=SMALL_SIZE, fill=SOFT_INK)]
        for tick in self.y_ticks:
            y = self.y(tick.at)
            drawn.append(line(self.x.start, y, self.x.end, y, stroke=GRID, stroke_width=1.0))
            drawn.append(label(self.x.start - 7, y + 4.8, tick.label, size=SMALL_SIZE, fill=SOFT_INK, anchor="end"))
        return "".join(drawn)

    def level_axis(self, ticks: Sequence[Tick]) -> str:
        """The lower edge with its ticks; labels that would touch the one before are left out."""
        drawn = [line(self.x.start, self.bottom, self.x.end, self.bottom, stroke=INK, stroke_width=1.5)]
        free_from = 0.0
        for tick in ticks:
            x = self.x(tick.at)
            drawn.append(line(x, self.bottom, x, self.bottom + 5, stroke=INK, stroke_width=1.5))
            half = text_width(tick.label, SMALL_SIZE) / 2
            x = min(x, WIDTH - 3 - half)
            if tick.label and x - half > free_from:
                drawn.append(label(x, self.bottom + 19, tick.label, size=SMALL_SIZE, fill=SOFT_INK, anchor="middle"))
                free_from = x + half + 6
        return "".join(drawn)

    def hatched_band(self, band: CurveBand, *, fill: str) -> str:
        """A range behind another: hatched between thin edges, its middle in dots and dashes, so that grey tells it."""
        upper = [self.at(x, y) for x, y in zip(band.x, band.high, strict=True)]
        lower = [self.at(x, y) for x, y in zip(band.x, band.low, strict=True)]
        middle = [self.at(x, y) for x, y in zip(band.x, band.mid, strict=True)]
        drawn = [area(upper + lower[::-1], fill=fill)]
        drawn += [path(edge, stroke=TAN_INK, stroke_width=0.9) for edge in (upper, lower)]
        return "".join([*drawn, path(middle, **HATCHED_MIDDLE)])

    def band(self, band: CurveBand) -> str:
        """The range as a pale area with dashed edges, the middle as a solid line."""
        upper = [self.at(x, y) for x, y in zip(band.x, band.high, strict=True)]
        lower = [self.at(x, y) for x, y in zip(band.x, band.low, strict=True)]
        middle = [self.at(x, y) for x, y in zip(band.x, band.mid, strict=True)]
        drawn = []
        if upper != lower:
            drawn.append(area(upper + lower[::-1], fill=INDIGO[2], fill_opacity=0.38))
            drawn += [path(edge, **_EDGE) for edge in (upper, lower)]
        drawn.append(path(middle, stroke=INK, stroke_width=2.6, stroke_linejoin="round"))
        return "".join(drawn)


@dataclass(slots=True)
class Labels:
    """Places short labels beside points so that none covers another or leaves the panel."""

    panel: Panel
    taken: list[tuple[float, float, float, float]] = field(default_factory=list)
    crossed: list[tuple[float, float, float, float]] = field(default_factory=list)

    def keep_clear(self, left: float, top: float, right: float, bottom: float) -> None:
        """Let no label be put here."""
        self.taken.append((left, top, right, bottom))

    def avoid_line(self, band: CurveBand) -> None:
        """Let labels cover the middle line only where no other place is free."""
        for x, y in zip(band.x, band.mid, strict=True):
            at_x, at_y = self.panel.at(x, y)
            self.crossed.append((at_x - 1, at_y - 2, at_x + 1, at_y + 2))

    def avoid_level(self, y: float) -> None:
        """The same for a level line across the panel, at `y` on paper."""
        self.crossed.append((self.panel.x.start, y - 1, self.panel.x.end, y + 1))

    def beside(self, x: float, y: float, text: str) -> str:
        """The label near the point, with a thin line to it if it had to go further off; nothing if no place is free."""
        width, height = text_width(text, SMALL_SIZE), SMALL_SIZE
        places = self._places(x, y, width, height)
        spots = [(left, base - height + 2, left + width, base + 2) for left, base in places]
        free = [at for at, spot in enumerate(spots) if self._inside(spot) and not _touches(spot, self.taken)]
        if not free:
            return ""
        at = next((at for at in free if not _touches(spots[at], self.crossed)), free[0])
        (left, base), spot = places[at], spots[at]
        self.taken.append(spot)
        off = y - spot[3] if spot[3] < y else spot[1] - y
        lead = line(x, y, x, spot[3] if spot[3] < y else spot[1], stroke=SOFT_INK, stroke_width=0.8)
        return (lead if off > height else "") + label(left, base, text, size=SMALL_SIZE, halo=True)

    def _places(self, x: float, y: float, width: float, height: float) -> list[tuple[float, float]]:
        """Places to try, as left end and baseline: above, beside, below; then in rows further up and down."""
        low, high = self.panel.x.start + 2, self.panel.x.end - 2
        centred = min(max(x - width / 2, low), high - width)
        middle = y + 0.35 * height
        row = 1.3 * height
        above, below = y - 9, y + height + 7
        near = [(centred, above), (x + 9, middle), (x - 9 - width, middle), (centred, below)]
        sides = [(left, base) for base in (above, below) for left in (x - 4, x + 4 - width)]
        rows = [(centred, start + k * step) for k in (1, 2, 3) for start, step in ((above, -row), (below, row))]
        return near + sides + rows

    def _inside(self, spot: tuple[float, float, float, float]) -> bool:
        left, top, right, bottom = spot
        panel = self.panel
        return left >= panel.x.start and right <= panel.x.end and top >= panel.top and bottom <= panel.bottom


def _touches(spot: tuple[float, float, float, float], others: Sequence[tuple[float, float, float, float]]) -> bool:
    left, top, right, bottom = spot
    return any(
        left < other[2] + 3 and other[0] < right + 3 and top < other[3] and other[1] < bottom for other in others
    )


def dot(x: float, y: float, text: str) -> str:
    """A measured point: a white ring with a dark edge, its words for a pointer or a screen reader."""
    said = element("title", words(text)) if text else ""
    return element("circle", said, cx=x, cy=y, r=4.2, fill=LINEN, stroke=INK, stroke_width=2.2)


def sight(x: float, bottom: float, text: str) -> str:
    """Something seen at a time: a small upright triangle standing on the axis."""
    said = element("title", words(text)) if text else ""
    shape = area([(x, bottom - 11), (x - 6, bottom), (x + 6, bottom)], fill=LINEN, stroke=INK, stroke_width=2.0)
    return element("g", said, shape)


def hatch(name: str, *, stroke: str) -> str:
    """A pattern of slanting lines to fill with `url(#name)`: a shading that survives a black and white printer."""
    return element(
        "pattern",
        line(0, 0, 0, 7, stroke=stroke, stroke_width=2.4, stroke_opacity=0.55),
        id=name,
        width=7.0,
        height=7.0,
        patternUnits="userSpaceOnUse",
        patternTransform="rotate(45)",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A line of the key: a sample, 26 wide and 14 high with its upper left corner at (0, 0), and what it means."""

    sample: str
    text: str


def span_said(span: Span) -> str:
    """`4.8 (2.8 to 7.2)`: the middle, and the range."""
    return with_range(f"{span.mid:.3g}", f"{span.low:.3g}", f"{span.high:.3g}")


def range_said() -> str:
    """What a band is."""
    return _("likely range (9 of 10)")


def middle_said() -> str:
    """What its middle line is."""
    return _("middle")


def band_entries(range_text: str, middle_text: str) -> list[Entry]:
    """The key of a band: its range and its middle."""
    shade = box(0, 1, 26, 12, fill=INDIGO[2], fill_opacity=0.38)
    return [
        Entry(sample=shade + line(0, 1, 26, 1, **_EDGE) + line(0, 13, 26, 13, **_EDGE), text=range_text),
        Entry(sample=line(0, 7, 26, 7, stroke=INK, stroke_width=2.6), text=middle_text),
    ]


def key(entries: Sequence[Entry], *, top: float) -> tuple[str, float]:
    """The key from `top` downwards, in as many rows as it needs, and the height that it took."""
    drawn, x, y = [], MARGIN, top
    for entry in entries:
        text = shortened(entry.text, size=SMALL_SIZE, width=RIGHT - MARGIN - 33)
        width = 33 + text_width(text, SMALL_SIZE)
        if x > MARGIN and x + width > RIGHT:
            x, y = MARGIN, y + 21
        drawn.append(element("g", entry.sample, transform=f"translate({number(x)} {number(y)})"))
        drawn.append(label(x + 33, y + 12, text, size=SMALL_SIZE))
        x += width + 16
    return "".join(drawn), y + 21 - top


def left_edge(*axes: Sequence[Tick]) -> float:
    """Where panels with these upright axes begin, so that their widest number has room."""
    return max(LEFT, 11 + max(text_width(tick.label, SMALL_SIZE) for axis in axes for tick in axis))


def heading(question: str, *, answer: str) -> tuple[str, float]:
    """The question as the title and the answer below it, wrapped; and the height that they took."""
    drawn, y = [], MARGIN - 4
    for text in wrapped(question, size=TITLE_SIZE, width=(RIGHT - MARGIN) / BOLD, most=3):
        y += _LINE * TITLE_SIZE
        drawn.append(label(MARGIN, y - 6, text, size=TITLE_SIZE, weight="bold"))
    for text in wrapped(answer, size=TEXT_SIZE, width=RIGHT - MARGIN, most=4):
        y += _LINE * TEXT_SIZE
        drawn.append(label(MARGIN, y - 2, text))
    return "".join(drawn), y + 6


def prefix(*texts: str) -> str:
    """A short name for the ids of one drawing, so that several can stand on one page."""
    return f"c{zlib.crc32('|'.join(texts).encode('utf-8', 'replace')):08x}"


def sheet(*drawn: str, height: float, question: str, summary: str, name: str, figures: Figures | None = None) -> str:
    """The whole drawing: ground, title and description for screen readers, then what was drawn; with its figures."""
    return (
        element(
            "svg",
            element("title", words(question), id=f"{name}-title"),
            element("desc", words(summary), id=f"{name}-desc"),
            box(0, 0, WIDTH, height, fill=LINEN),
            *drawn,
            xmlns="http://www.w3.org/2000/svg",
            viewBox=f"0 0 {number(WIDTH)} {number(height)}",
            role="img",
            aria_labelledby=f"{name}-title {name}-desc",
            data_figures=None if figures is None else carried(figures),
        )
        + "\n"
    )
