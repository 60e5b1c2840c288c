"""Colours on the a*b* plane with equal axes and rays of hue, and on a strip of lightness below it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bluewright.charts.colours import Chip, hex_of_lab, ink_on, screen_said
from bluewright.charts.inputs import check_words
from bluewright.charts.palette import GRID, INK, SMALL_SIZE, SOFT_INK
from bluewright.charts.parts import MARGIN, RIGHT, Entry, Panel, heading, key, left_edge, prefix, sheet
from bluewright.charts.scale import Scale, Tick, outer_ticks
from bluewright.charts.svg import Look, element, label, line, shortened
from bluewright.science.base.errors import InputError
from bluewright.words.colour import lab_named, lab_said
from bluewright.words.language import gettext as _

MOST_CHIPS: Final = 40
LEAST_SPAN: Final = 20.0
"""The plane is never drawn closer than this, so that noise does not look like a difference."""
NINE_OF_TEN: Final = 2.146
"""Radius in standard deviations of the ellipse that holds nine in ten of two normal errors: sqrt(-2 ln 0.1)."""
RADIUS: Final = 9.0
RAY_DEG: Final = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class AbPlane:
    """The question, its answer, and at least one colour."""

    question: str
    answer: str
    chips: tuple[Chip, ...]

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer)
        if not 1 <= len(self.chips) <= MOST_CHIPS:
            raise InputError(
                where="chips", what=f"there are {len(self.chips)}", right=f"give one to {MOST_CHIPS} colours"
            )


def ab_plane(chart: AbPlane) -> str:
    """The chart as SVG text: numbered dots, each with the ellipse of its spread, and their names below."""
    name = prefix(chart.question, chart.answer, *(chip.name for chip in chart.chips))
    head, y = heading(chart.question, answer=chart.answer)
    plane = _plane(chart.chips, top=y + 34)
    drawn = [head, plane.upright_axis(_("b*: yellow above, blue below")), _rays(plane)]
    drawn.append(plane.level_axis(_ticks(chart.chips)[0]))
    drawn.append(
        label(RIGHT, plane.bottom + 38, _("a*: green left, red right"), size=SMALL_SIZE, fill=SOFT_INK, anchor="end")
    )
    drawn += [_ellipse(chip, plane) for chip in chart.chips]
    drawn += [
        _numbered(chip, number, *plane.at(chip.lab[1], chip.lab[2])) for number, chip in enumerate(chart.chips, start=1)
    ]
    strip, bottom = _strip(chart.chips, left=plane.x.start, top=plane.bottom + 62)
    listed, height = _listed(chart.chips, top=bottom + 14)
    return sheet(
        *drawn, strip, listed, height=bottom + 14 + height + 6, question=chart.question, summary=description(chart),
        name=name,
    )  # fmt: skip


def description(chart: AbPlane) -> str:
    """What the drawing says, in sentences with figures."""
    told = [
        f"{number} {chip.name}: {', '.join(filter(None, [chip.said, lab_said(chip.lab)]))}."
        for number, chip in enumerate(chart.chips, start=1)
    ]
    return " ".join([chart.answer, *told, f"{lab_named()}."])


def _ticks(chips: Sequence[Chip]) -> list[list[Tick]]:
    """Ticks of a* and of b*, over the same span and in the same steps; grey is always on the plane."""
    spans = []
    for axis in (1, 2):
        reach = [(chip.lab[axis], NINE_OF_TEN * chip.lab_sd[axis]) for chip in chips]
        spans.append((min(0.0, *(at - by for at, by in reach)), max(0.0, *(at + by for at, by in reach))))
    span = max(LEAST_SPAN, *(high - low for low, high in spans)) * 1.15
    middles = [(low + high) / 2 for low, high in spans]
    return [outer_ticks(middle - span / 2, middle + span / 2, wanted=5) for middle in middles]


def _plane(chips: Sequence[Chip], *, top: float) -> Panel:
    across, up = _ticks(chips)
    left = left_edge(up)
    wide = across[-1].at - across[0].at
    per_unit = (RIGHT - 8 - left) / wide
    return Panel(
        x=Scale(across[0].at, across[-1].at, left, RIGHT - 8),
        y=Scale(up[0].at, up[-1].at, top + per_unit * (up[-1].at - up[0].at), top),
        y_ticks=up,
    )


def _rays(plane: Panel) -> str:
    """Rays of hue every 30 degrees from grey to the edge of the plane, named in degrees where they end."""
    x, y = plane.at(0.0, 0.0)
    axes: Look = {"stroke": SOFT_INK, "stroke_width": 1.0}
    drawn = [
        line(plane.x.start, y, plane.x.end, y, **axes),
        line(x, plane.top, x, plane.bottom, **axes),
    ]
    for hue_deg in range(0, 360, RAY_DEG):
        across, up = math.cos(math.radians(hue_deg)), -math.sin(math.radians(hue_deg))
        reach = min(
            _reach(across, plane.x.start - x, plane.x.end - x), _reach(up, plane.top - y, plane.bottom - y)
        )  # fmt: skip
        end_x, end_y = x + across * reach, y + up * reach
        drawn.append(line(x, y, end_x, end_y, stroke=GRID, stroke_width=1.0, stroke_dasharray="3 3"))
        if reach > 40:
            at_x, at_y = x + across * (reach - 16), y + up * (reach - 12) + 4
            drawn.append(label(at_x, at_y, f"{hue_deg}°", size=SMALL_SIZE, fill=SOFT_INK, anchor="middle", halo=True))
    return "".join(drawn)


def _reach(step: float, low: float, high: float) -> float:
    """How far one can go in steps of `step` from 0 before leaving `low` to `high`."""
    if abs(step) < 1e-9:
        return math.inf
    return (high if step > 0 else low) / step


def _ellipse(chip: Chip, plane: Panel) -> str:
    if not any(chip.lab_sd[1:]):
        return ""
    x, y = plane.at(chip.lab[1], chip.lab[2])
    return element(
        "ellipse", cx=x, cy=y, rx=abs(plane.x(NINE_OF_TEN * chip.lab_sd[1]) - plane.x(0.0)),
        ry=abs(plane.y(NINE_OF_TEN * chip.lab_sd[2]) - plane.y(0.0)), fill="none", stroke=INK, stroke_width=1.2,
        stroke_dasharray="5 3",
    )  # fmt: skip


def _numbered(chip: Chip, number: int, x: float, y: float) -> str:
    """A filled dot with its number in it."""
    ring = element(
        "circle", element("title", f"{number}"), cx=x, cy=y, r=RADIUS, fill=hex_of_lab(chip.lab), stroke=INK,
        stroke_width=1.8,
    )  # fmt: skip
    size = SMALL_SIZE
    return ring + label(x, y + 4.7, str(number), size=size, fill=ink_on(chip.lab), anchor="middle", weight="bold")


def _strip(chips: Sequence[Chip], *, left: float, top: float) -> tuple[str, float]:
    """Lightness from black to white, the same dots on it in rows that do not touch; and where it ends."""
    scale = Scale(0.0, 100.0, left, RIGHT - 8)
    rows: list[float] = []
    drawn = [label(MARGIN, top, _("L*: from black 0 to white 100"), size=SMALL_SIZE, fill=SOFT_INK)]
    placed = []
    for number, chip in sorted(enumerate(chips, start=1), key=lambda one: one[1].lab[0]):
        x = scale(chip.lab[0])
        row = next((at for at, end in enumerate(rows) if x - end >= 2 * RADIUS + 3), len(rows))
        rows[row : row + 1] = [x]
        placed.append((number, chip, x, row))
    bottom = top + 14 + (2 * RADIUS + 4) * len(rows)
    for number, chip, x, row in placed:
        drawn.append(_numbered(chip, number, x, bottom - RADIUS - 3 - (2 * RADIUS + 4) * row))
    panel = Panel(x=scale, y=Scale(0.0, 1.0, bottom, top + 10))
    drawn.append(panel.level_axis([Tick(at=float(at), label=str(at)) for at in range(0, 101, 20)]))
    return "".join(drawn), bottom + 26


def _listed(chips: Sequence[Chip], *, top: float) -> tuple[str, float]:
    """What each number is, one a line, and what the ellipse is."""
    drawn = []
    for number, chip in enumerate(chips, start=1):
        y = top + 22.0 * (number - 1)
        drawn.append(_numbered(chip, number, MARGIN + RADIUS, y + 8))
        said = ", ".join(filter(None, [chip.name, chip.said]))
        drawn.append(
            label(MARGIN + 27, y + 13, shortened(said, size=SMALL_SIZE, width=RIGHT - MARGIN - 27), size=SMALL_SIZE)
        )
    y = top + 22.0 * len(chips) + 4
    entries = [Entry(sample=element("circle", cx=13.0, cy=7.0, r=0.1, fill=SOFT_INK), text=screen_said())]
    if any(any(chip.lab_sd[1:]) for chip in chips):
        ring = element("ellipse", cx=13.0, cy=7.0, rx=12.0, ry=6.0, fill="none", stroke=INK, stroke_dasharray="5 3")
        entries.insert(0, Entry(sample=ring, text=_("likely place (9 of 10)")))
    keyed, height = key(entries, top=y)
    return "".join(drawn) + keyed, y + height - top
