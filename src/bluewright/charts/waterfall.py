"""Where the blue went: from what the leaf could give, loss by loss, to what is in the jar, each with its range."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from bluewright.charts.inputs import Span, check_words
from bluewright.charts.palette import INDIGO, INK, SMALL_SIZE, SOFT_INK, TAN, TEXT_SIZE
from bluewright.charts.parts import MARGIN, RIGHT, Entry, Panel, hatch, heading, key, prefix, range_said, sheet
from bluewright.charts.scale import Scale, outer_ticks
from bluewright.charts.svg import Look, box, label, line, shortened, text_width
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _
from bluewright.words.numbers import with_range

ROW = 50.0
BAR = 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One row: a level that is reached, or a loss on the way from the level before."""

    label: str
    kind: Literal["level", "loss"]
    amount: Span
    """The level itself, or what was lost (0 or more)."""

    def __post_init__(self) -> None:
        check_words(label=self.label)
        if self.amount.low < 0:
            raise InputError(
                where="amount", what=f"{self.amount.low:g} is below zero", right="give a mass or a loss >= 0"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Waterfall:
    """A waterfall: its question, its answer in words, and its rows from the top."""

    question: str
    answer: str
    name: str
    """What is counted and its unit: `indigo, g`."""
    unit: str
    steps: tuple[Step, ...]
    """Starting with a level. A level re-starts the count: middles of ranges need not add up exactly."""

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer, name=self.name)
        if len(self.steps) < 2:
            raise InputError(where="steps", what=f"there are {len(self.steps)}", right="give a level and what follows")
        if self.steps[0].kind != "level":
            raise InputError(where="steps[0]", what="it is a loss", right="start with a level")


def waterfall(chart: Waterfall) -> str:
    """The chart as SVG text: a row for each step, its words above its bar, its figures at the right."""
    name = prefix(chart.question, chart.answer)
    head, y = heading(chart.question, answer=chart.answer)
    key_drawn, key_height = key(_entries(name), top=y + 4)
    top = y + key_height + 12
    ticks = outer_ticks(0.0, max(step.amount.high for step in chart.steps), wanted=4)
    panel = Panel(
        x=Scale(0.0, ticks[-1].at, MARGIN + 8, RIGHT - 8), y=Scale(0.0, 1.0, top, top + ROW * len(chart.steps) + 6)
    )
    drawn = [hatch(f"{name}-hatch", stroke=TAN), head, key_drawn]
    for index, (step, level) in enumerate(zip(chart.steps, levels(chart.steps), strict=True)):
        drawn.append(_row(step, level, panel, chart.unit, name, top=top + ROW * index))
    drawn.append(panel.level_axis(ticks))
    drawn.append(label(RIGHT, panel.bottom + 37, chart.name, size=SMALL_SIZE, fill=SOFT_INK, anchor="end"))
    return sheet(*drawn, height=panel.bottom + 48, question=chart.question, summary=description(chart), name=name)


def levels(steps: Sequence[Step]) -> list[float]:
    """The level after each step, by middles; a loss cannot take more than there is."""
    found: list[float] = []
    for step in steps:
        found.append(step.amount.mid if step.kind == "level" else max(found[-1] - step.amount.mid, 0.0))
    return found


def description(chart: Waterfall) -> str:
    """What the drawing says, in sentences with figures."""
    rows = []
    for step in chart.steps:
        said = {"step": step.label, "grams": _figures(step.amount, chart.unit)}
        rows.append((_("%(step)s: minus %(grams)s.") if step.kind == "loss" else _("%(step)s: %(grams)s.")) % said)
    return " ".join([chart.answer, *rows])


def _row(step: Step, level: float, panel: Panel, unit: str, name: str, *, top: float) -> str:
    figures = ("−" if step.kind == "loss" else "") + _figures(step.amount, unit)
    room = RIGHT - MARGIN - text_width(figures, SMALL_SIZE) - 12
    size = TEXT_SIZE if text_width(step.label, TEXT_SIZE) <= room else SMALL_SIZE
    drawn = [
        label(MARGIN, top + 14, shortened(step.label, size=size, width=room), size=size),
        label(RIGHT, top + 14, figures, size=SMALL_SIZE, fill=SOFT_INK, anchor="end"),
    ]
    bar_top = top + 21
    if step.kind == "level":
        left, right = 0.0, level
        low, high = step.amount.low, step.amount.high
        look: Look = {"fill": INDIGO[2], "stroke": INK, "stroke_width": 1.2}
    else:
        left, right = level, level + step.amount.mid
        low, high = max(right - step.amount.high, 0.0), right - step.amount.low
        look = {"fill": f"url(#{name}-hatch)", "stroke": TAN, "stroke_width": 1.2}
    drawn.append(box(panel.x(left), bar_top, panel.x(right) - panel.x(left), BAR, **look))
    drawn.append(whisker(panel.x(low), panel.x(high), bar_top + BAR / 2))
    return "".join(drawn)


def whisker(left: float, right: float, y: float) -> str:
    """A range on paper: a line with upright ends."""
    look: Look = {"stroke": INK, "stroke_width": 2.0}
    ends = "".join(line(x, y - 6, x, y + 6, **look) for x in (left, right))
    return line(left, y, right, y, **look) + ends


def _figures(span: Span, unit: str) -> str:
    return with_range(f"{span.mid:.2g} {unit}", f"{span.low:.2g}", f"{span.high:.2g}")


def _entries(name: str) -> list[Entry]:
    return [
        Entry(sample=box(0, 0, 26, 14, fill=INDIGO[2], stroke=INK, stroke_width=1.2), text=_("there")),
        Entry(sample=box(0, 0, 26, 14, fill=f"url(#{name}-hatch)", stroke=TAN, stroke_width=1.2), text=_("lost")),
        Entry(sample=whisker(1, 25, 7), text=range_said()),
    ]
