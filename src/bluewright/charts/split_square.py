"""Two colours that touch, on the grey they are judged on, and below them which way and how far they differ."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bluewright.charts.colours import SURROUND, Chip, hex_of_lab, ink_on, screen_said
from bluewright.charts.inputs import Span, check_words
from bluewright.charts.palette import GRID, INDIGO, INK, SMALL_SIZE, SOFT_INK
from bluewright.charts.parts import MARGIN, RIGHT, heading, prefix, sheet
from bluewright.charts.scale import Scale
from bluewright.charts.svg import box, element, label, line, shortened
from bluewright.charts.waterfall import whisker
from bluewright.words.colour import signed
from bluewright.words.language import gettext as _

SIDE: Final = 150.0
FRAME: Final = 22.0
ROW: Final = 46.0
LEAST_SPAN: Final = 4.0
"""The bars are never drawn closer than this, so that noise does not look like a difference."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way in which they may differ: what it is called where it is less and where it is more, and how much."""

    less: str
    more: str
    by: Span

    def __post_init__(self) -> None:
        check_words(less=self.less, more=self.more)


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitSquare:
    """The question, its answer, the standard at the left, the sample at the right."""

    question: str
    answer: str
    standard: Chip
    sample: Chip
    ways: tuple[Way, ...]

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer)


def split_square(chart: SplitSquare) -> str:
    """The chart as SVG text."""
    name = prefix(chart.question, chart.answer, chart.standard.name, chart.sample.name)
    head, y = heading(chart.question, answer=chart.answer)
    top = y + 10
    middle = (MARGIN + RIGHT) / 2
    drawn = [head, box(MARGIN, top, RIGHT - MARGIN, SIDE + 2 * FRAME, fill=SURROUND)]
    for chip, left in ((chart.standard, middle - SIDE), (chart.sample, middle)):
        drawn.append(_half(chip, left, top + FRAME))
    top += SIDE + 2 * FRAME + 18
    drawn.append(label(MARGIN, top, screen_said(), size=SMALL_SIZE, fill=SOFT_INK))
    reach = max([LEAST_SPAN, *(abs(value) for way in chart.ways for value in (way.by.low, way.by.high))])
    scale = Scale(-reach, reach, MARGIN + 8, RIGHT - 8)
    for at, way in enumerate(chart.ways):
        drawn.append(_bar(way, scale, top + 14 + ROW * at))
    height = top + 14 + ROW * len(chart.ways) + 10
    return sheet(*drawn, height=height, question=chart.question, summary=description(chart), name=name)


def description(chart: SplitSquare) -> str:
    """What the drawing says, in sentences with figures."""
    told = [f"{chip.name}: {chip.said}." for chip in (chart.standard, chart.sample) if chip.said]
    return " ".join([chart.answer, *told, *(f"{_said(way)}." for way in chart.ways)])


def _half(chip: Chip, left: float, top: float) -> str:
    """Half of the square, with its name on it in the ink that is read there."""
    ink, texts = ink_on(chip.lab), [chip.name, chip.said]
    drawn = [box(left, top, SIDE, SIDE, fill=hex_of_lab(chip.lab))]
    for row, text in enumerate(filter(None, texts)):
        said = shortened(text, size=SMALL_SIZE, width=SIDE - 14)
        weight = "bold" if row == 0 else None
        drawn.append(label(left + 8, top + SIDE - 26 + 18 * row, said, size=SMALL_SIZE, fill=ink, weight=weight))
    return element("g", *drawn)


def _bar(way: Way, scale: Scale, top: float) -> str:
    """A bar from nothing to how much, with its range and both words."""
    zero, to = scale(0.0), scale(way.by.mid)
    drawn = [
        label(MARGIN, top + 13, f"← {way.less}", size=SMALL_SIZE, fill=SOFT_INK),
        label(RIGHT, top + 13, f"{way.more} →", size=SMALL_SIZE, fill=SOFT_INK, anchor="end"),
        label(zero, top + 13, signed(way.by.mid), size=SMALL_SIZE, anchor="middle"),
        line(scale.start, top + 29, scale.end, top + 29, stroke=GRID, stroke_width=1.0),
        box(min(zero, to), top + 22, abs(to - zero), 14, fill=INDIGO[2], stroke=INK, stroke_width=1.0),
        line(zero, top + 18, zero, top + 40, stroke=INK, stroke_width=1.5),
        whisker(scale(way.by.low), scale(way.by.high), top + 29),
    ]
    return "".join(drawn)


def _said(way: Way) -> str:
    word = way.more if way.by.mid > 0 else way.less
    return _("%(word)s by %(much)s (%(low)s to %(high)s)") % {
        "word": word, "much": f"{abs(way.by.mid):.1f}", "low": signed(way.by.low), "high": signed(way.by.high),
    }  # fmt: skip
