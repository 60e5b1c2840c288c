"""Cloth as it is likely to come out, dips by dips: each a patch of its lighter end, its middle and its darker end; and
the yarn cut through."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bluewright.charts.colours import SURROUND, Lab, hex_of_lab, ink_on, screen_said
from bluewright.charts.inputs import Span, check_words
from bluewright.charts.palette import INDIGO, LINEN, SMALL_SIZE, SOFT_INK
from bluewright.charts.parts import MARGIN, RIGHT, heading, prefix, sheet
from bluewright.charts.pen import disc
from bluewright.charts.readout import Figures
from bluewright.charts.svg import box, label, line, shortened
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _
from bluewright.words.numbers import percent, with_range

IN_ROW: Final = 4
FRAME: Final = 10.0
HIGH: Final = 78.0
CAPTION: Final = 42.0
RADIUS: Final = 58.0
MOST_RINGS: Final = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch:
    """One piece of cloth: its likeliest colour, and its lightness from dark to light."""

    name: str
    lab: Lab
    lightness: Span
    note: str = ""

    def __post_init__(self) -> None:
        check_words(name=self.name)


@dataclass(frozen=True, slots=True, kw_only=True)
class DyedSwatches:
    """The question, its answer, the patches in order, the wanted one, and the blue of a yarn from surface to middle."""

    question: str
    answer: str
    patches: tuple[Patch, ...]
    wanted: Lab | None = None
    section: tuple[Span, ...] = ()
    """At even depths from the surface to the middle, of what is at the surface: 0 to 1."""
    thickness: str = ""
    """How thick, in the reader's unit."""
    layered: bool = False
    """A sheet, cut through from face to face, and no round yarn."""

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer)
        if not self.patches:
            raise InputError(where="patches", what="there are none", right="give at least one")


def dyed_swatches(chart: DyedSwatches) -> str:
    """The chart as SVG text."""
    head, y = heading(chart.question, answer=chart.answer)
    rows = -(-len(chart.patches) // IN_ROW)
    top = y + 10
    height = rows * (HIGH + CAPTION) + FRAME
    wide = (RIGHT - MARGIN - FRAME) / IN_ROW
    drawn = [head, box(MARGIN, top, RIGHT - MARGIN, height, fill=SURROUND)]
    places = []
    for number, patch in enumerate(chart.patches):
        left = MARGIN + FRAME + wide * (number % IN_ROW)
        at = top + FRAME + (HIGH + CAPTION) * (number // IN_ROW)
        drawn.append(_patch(patch, chart.wanted, left, at, wide - FRAME))
        places.append((left + (wide - FRAME) / 2, (patch.name, *_cells(patch))))
    y = top + height + 18
    for text in _legend(chart):
        drawn.append(label(MARGIN, y, text, size=SMALL_SIZE, fill=SOFT_INK))
        y += 18
    if chart.section:
        drawn.append(_section(chart, y + 4))
        y += 2 * RADIUS + 30
    figures = Figures(
        heads=(_("cloth"), _("lightness L*"), _("beside it")), places=tuple(places), top=top, bottom=top + height
    )
    name = prefix(chart.question, chart.answer, *(patch.name for patch in chart.patches))
    return sheet(*drawn, height=y + 4, question=chart.question, summary=description(chart), name=name, figures=figures)


def description(chart: DyedSwatches) -> str:
    """What the drawing says, in sentences with figures."""
    told = [f"{patch.name}: L* {_cells(patch)[0]}." for patch in chart.patches]
    if chart.section:
        told.append(_inside_said(chart.section))
    return " ".join([chart.answer, *told])


def _cells(patch: Patch) -> tuple[str, str]:
    light = patch.lightness
    return with_range(f"{light.mid:.0f}", f"{light.low:.0f}", f"{light.high:.0f}"), patch.note


def _patch(patch: Patch, wanted: Lab | None, left: float, top: float, wide: float) -> str:
    """Three stripes, light to dark, the middle one twice as wide; the wanted colour as a strip along the foot."""
    light, dark = ((end, *patch.lab[1:]) for end in (patch.lightness.high, patch.lightness.low))
    quarter = wide / 4
    drawn = [
        box(left, top, quarter, HIGH, fill=hex_of_lab(light)),
        box(left + quarter, top, 2 * quarter, HIGH, fill=hex_of_lab(patch.lab)),
        box(left + 3 * quarter, top, quarter, HIGH, fill=hex_of_lab(dark)),
        label(
            left + wide / 2, top + 18, f"{patch.lab[0]:.0f}", size=SMALL_SIZE, fill=ink_on(patch.lab), anchor="middle"
        ),
    ]
    if wanted is not None:
        drawn.append(box(left, top + HIGH - 18, wide, 18, fill=hex_of_lab(wanted)))
        drawn.append(line(left, top + HIGH - 18, left + wide, top + HIGH - 18, stroke=LINEN, stroke_width=1.0))
    for row, text in enumerate((patch.name, patch.note)):
        said = shortened(text, size=SMALL_SIZE, width=wide + 4)
        drawn.append(label(left + wide / 2, top + HIGH + 15 + 16 * row, said, size=SMALL_SIZE, fill="#ffffff",
                           anchor="middle"))  # fmt: skip
    return "".join(drawn)


def _legend(chart: DyedSwatches) -> list[str]:
    told = [_("Left the lighter end of the range, right the darker; numbers: L*.")]
    if chart.wanted is not None:
        told.append(_("The strip along the foot is the wanted swatch."))
    return [*told, screen_said()]


def _section(chart: DyedSwatches, top: float) -> str:
    """The yarn or sheet cut through, from the surface inwards: the fuller the bluer; how much is told beside it."""
    x, y = MARGIN + RADIUS + 6, top + RADIUS + 6
    rings = chart.section[:: -(-len(chart.section) // MOST_RINGS)]
    drawn = []
    for number, ring in enumerate(rings):
        half = RADIUS * (1 - number / len(rings))
        fill = INDIGO[round(5 * max(0.0, min(1.0, ring.mid)))]
        if chart.layered:
            drawn.append(box(x - RADIUS, y - half, 2 * RADIUS, 2 * half, fill=fill))
        else:
            drawn.append(disc(x, y, half, fill=fill, stroke="none"))
    beside = x + RADIUS + 16
    for row, text in enumerate(_section_lines(chart.section, chart.thickness)):
        said = shortened(text, size=SMALL_SIZE, width=RIGHT - beside)
        drawn.append(label(beside, top + 24 + 19 * row, said, size=SMALL_SIZE, weight="bold" if row == 0 else None))
    return "".join(drawn)


def _section_lines(section: Sequence[Span], thickness: str) -> list[str]:
    half, middle = section[len(section) // 2], section[-1]
    return [
        _("Cut through, %(thick)s thick") % {"thick": thickness},
        _("blue, of that at the surface:"),
        _("half way in: %(share)s") % {"share": _span_said(half)},
        _("in the middle: %(share)s") % {"share": _span_said(middle)},
    ]


def _inside_said(section: Sequence[Span]) -> str:
    return _("In the middle of the yarn: %(share)s of what is at the surface.") % {"share": _span_said(section[-1])}


def _span_said(span: Span) -> str:
    mid, low, high = percent(span.mid), percent(span.low), percent(span.high)
    return mid if mid == low == high else with_range(mid, low, high)
