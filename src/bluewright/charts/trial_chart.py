"""A trial: every tub above, tubs of one picking joined; each way beside the usual one below, with its range."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from bluewright.charts.inputs import check_words
from bluewright.charts.palette import INK, SMALL_SIZE, SOFT_INK
from bluewright.charts.parts import RIGHT, Entry, Panel, dot, heading, key, left_edge, prefix, sheet
from bluewright.charts.ratio_rows import RatioRow, ratio_entries, ratio_rows
from bluewright.charts.scale import Scale, Tick, outer_ticks
from bluewright.charts.svg import Look, element, label, line, number, shortened, words
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _

HEIGHT: Final = 170.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TubDot:
    """One tub: of which way (from 0), in which block, what it gave; spoilt ones are crosses."""

    way: int
    block: str
    value: float | None
    spoilt: bool
    label: str
    """For a pointer or a screen reader."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialChart:
    """What is drawn."""

    question: str
    answer: str
    name: str
    """What the upright axis shows, with its unit."""
    ways: tuple[str, ...]
    tubs: tuple[TubDot, ...]
    rows: tuple[RatioRow, ...]

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer, name=self.name)
        if all(tub.value is None for tub in self.tubs):
            raise InputError(where="tubs", what="none has a value", right="draw them once there is one")


def trial_chart(chart: TrialChart) -> str:
    """The chart as SVG text."""
    head, y = heading(chart.question, answer=chart.answer)
    key_drawn, key_height = key([*_entries(chart), *ratio_entries(chart.rows)], top=y + 4)
    ticks = outer_ticks(0.0, max(tub.value for tub in chart.tubs if tub.value is not None))
    top = y + key_height + 32
    panel = Panel(
        x=Scale(-0.6, len(chart.ways) - 0.4, left_edge(ticks), RIGHT),
        y=Scale(ticks[0].at, ticks[-1].at, top + HEIGHT, top), y_ticks=ticks,
    )  # fmt: skip
    names = list(_names(chart, panel))
    bare = [Tick(at=float(way), label="") for way in range(len(chart.ways))]
    drawn = [
        panel.upright_axis(chart.name),
        panel.level_axis(bare),
        *names,
        *_joins(chart, panel),
        *_tubs(chart, panel),
    ]
    below, bottom = ratio_rows(chart.rows, top=panel.bottom + 40, name=_("times the usual way"))
    summary = " ".join([chart.answer, *(f"{tub.label}." for tub in chart.tubs)])
    name = prefix(chart.question, chart.answer)
    return sheet(head, key_drawn, *drawn, below, height=bottom, question=chart.question, summary=summary, name=name)


def _names(chart: TrialChart, panel: Panel) -> Iterator[str]:
    room = panel.x(1.0) - panel.x(0.0) - 8
    for way, said in enumerate(chart.ways):
        text = shortened(said, size=SMALL_SIZE, width=room)
        yield label(panel.x(float(way)), panel.bottom + 20, text, size=SMALL_SIZE, fill=SOFT_INK, anchor="middle")


def _places(chart: TrialChart, panel: Panel) -> Iterator[tuple[TubDot, float, float]]:
    """Each tub on paper; those without a value stand on the axis; tubs of a column stand a little apart."""
    columns: defaultdict[int, list[TubDot]] = defaultdict(list)
    for tub in chart.tubs:
        columns[tub.way].append(tub)
    for way, tubs in columns.items():
        for place, tub in enumerate(tubs):
            aside = 0.0 if len(tubs) == 1 else 0.24 * (place / (len(tubs) - 1) - 0.5)
            value = panel.y.low if tub.value is None else tub.value
            yield tub, panel.x(way + aside), panel.y(value)


def _joins(chart: TrialChart, panel: Panel) -> Iterator[str]:
    blocks: defaultdict[str, list[tuple[float, float]]] = defaultdict(list)
    for tub, x, y in sorted(_places(chart, panel), key=lambda one: one[1]):
        if tub.block and tub.value is not None and not tub.spoilt:
            blocks[tub.block].append((x, y))
    for places in blocks.values():
        for (x, y), (to_x, to_y) in pairwise(places):
            yield line(x, y, to_x, to_y, **_JOIN)


def _tubs(chart: TrialChart, panel: Panel) -> Iterator[str]:
    for tub, x, y in _places(chart, panel):
        if tub.value is not None and not tub.spoilt:
            yield dot(x, y, tub.label)
        elif tub.spoilt:
            yield _cross(x, y, tub.label)


_JOIN: Final[Look] = {"stroke": SOFT_INK, "stroke_width": 1.2}


def _cross(x: float, y: float, said: str) -> str:
    title = element("title", words(said)) if said else ""
    return element(
        "path", title, d=f"M{number(x)} {number(y)}m-4.5 -4.5l9 9m0 -9l-9 9", stroke=INK, stroke_width=2.2, fill="none"
    )  # fmt: skip


def _entries(chart: TrialChart) -> list[Entry]:
    found = [Entry(sample=dot(13, 7, ""), text=_("a tub"))]
    if any(tub.block for tub in chart.tubs):
        found.append(Entry(sample=line(0, 7, 26, 7, **_JOIN), text=_("of one picking")))
    if any(tub.spoilt for tub in chart.tubs):
        found.append(Entry(sample=_cross(13, 7, ""), text=_("spoilt")))
    return found
