"""What a calculator's page shows: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final

from django.forms import ChoiceField
from django.forms.boundfield import BoundField
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from bluewright.web.pages.bench.asked import Asked
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.web.pages.bench.form import BenchForm, Block
from bluewright.web.pages.bench.inputs import Tick
from bluewright.web.ui.basis import BASIS
from bluewright.web.ui.stages import stage_of
from bluewright.web.ui.typed import MomentField
from bluewright.web.ui.why_constants import grades, groups
from bluewright.web.ui.why_figures import figure_of, figures
from bluewright.words.numbers import sentence
from bluewright.words.said import Rows
from bluewright.words.sources import NO_SOURCE, bibliography, citation


@dataclass(frozen=True, slots=True, kw_only=True)
class TablePart:
    """A small table of the answer."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[bool, tuple[str, ...]], ...]
    """Whether the row is the advised one, and its cells."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FigurePart:
    """A figure of the answer with its range, and where it is told why it is so."""

    name: str
    said: str
    to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SourcePart:
    """A source that the answer rests on, as people cite it, and its place on the page of sources."""

    said: str
    anchor: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerPart:
    """The answer in words, with its chart."""

    first: str
    lines: tuple[str, ...]
    tables: tuple[TablePart, ...]
    basis: str
    take_care: tuple[str, ...]
    to_know: tuple[str, ...]
    chart: str
    chart_on_paper: bool
    method: str
    """The page of the method that tells how it is computed."""
    figures: tuple[FigurePart, ...]
    grades: tuple[tuple[str, int], ...]
    """How many constants and priors there are of each grade."""
    sources: tuple[SourcePart, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchPage:
    """A calculator with its answer, if there is one."""

    slug: str
    title: str
    question: str
    invented: bool
    """Whether the example is shown."""
    answer: AnswerPart | None
    trouble: str
    """Why there is no answer, if that is no field's fault."""
    typed: tuple[tuple[str, str], ...]
    """What was typed, for paper."""
    as_json: str
    """The query of the same as JSON."""


def bench_page(asked: Asked, *, query: str) -> BenchPage:
    """The page of a calculator that was asked; `query` is what was typed, for the links that lead on."""
    calculator = asked.form.calculator
    return BenchPage(
        slug=calculator.slug,
        title=str(calculator.title),
        question=str(calculator.question),
        invented=asked.invented,
        answer=answer_part(calculator, asked.found, query=query) if asked.found is not None else None,
        trouble=asked.trouble,
        typed=what_was_typed(asked.form),
        as_json="&".join(filter(None, [query, "as=json"])),
    )


def answer_part(calculator: Calculator, found: Any, *, query: str) -> AnswerPart:
    """The answer in words."""
    stage = stage_of(found)
    said = calculator.said(found)
    first = sentence(said.first)
    sentences = [part for part in said.parts if isinstance(part, str)]
    return AnswerPart(
        first=first,
        lines=tuple(sentences[1:]),
        tables=tuple(_table(part) for part in said.parts if isinstance(part, Rows)),
        basis=str(BASIS[found.basis]),
        take_care=said.take_care,
        to_know=said.to_know,
        chart=calculator.chart(found, answer=first) if calculator.chart is not None else "",
        chart_on_paper=calculator.chart_on_paper,
        method=stage.page,
        figures=tuple(_figure(found, path, f"{why_address(calculator.slug, path)}?{query}") for path in figures(found)),
        grades=grades(groups(stage.entry, found.inputs)),
        sources=tuple(_sources(found.sources)),
    )


def why_address(slug: str, figure: str) -> str:
    """Where it is told why a figure is so."""
    return reverse("bench.why", kwargs={"calculator": slug, "figure": figure})


def _figure(found: Any, path: str, to: str) -> FigurePart:
    figure = figure_of(found, path)
    return FigurePart(name=figure.name, said=figure.said, to=to)


def _sources(keys: Sequence[str]) -> Iterator[SourcePart]:
    """Those with a name first; common practice, which has none, last."""
    for key in keys:
        if key in bibliography():
            yield SourcePart(said=citation(bibliography()[key]), anchor=bibliography()[key].anchor)
    if NO_SOURCE in keys:
        yield SourcePart(said=str(_("Common practice; no source was found.")), anchor="")


def _table(rows: Rows) -> TablePart:
    return TablePart(
        caption=rows.caption,
        head=rows.head,
        rows=tuple((number == rows.advised, row) for number, row in enumerate(rows.rows)),
    )


MANY_ROWS: Final = 6
"""So many rows of a list are told in one paragraph: on paper each would take a line."""


def what_was_typed(form: BenchForm) -> tuple[tuple[str, str], ...]:
    """What was typed or chosen, in the order of the form: fields one by one, parts and rows each in a line."""
    return tuple(_told((*form.front, *form.rest), form, ""))


def _told(blocks: Sequence[Block], form: BenchForm, heading: str) -> Iterator[tuple[str, str]]:
    said = [told for block in blocks if block.field is not None and (told := _field(block.field, form))]
    if heading and said:
        yield heading, "; ".join(f"{label} {text}" for label, text in said)
    else:
        yield from said
    for block in blocks:
        if block.field is None:
            legend = " ".join(filter(None, [heading, block.legend]))
            rows = _simple_rows(block, form)
            yield from (
                [_in_one(legend, rows)] if len(rows) >= MANY_ROWS else _told((*block.blocks, *block.rest), form, legend)
            )


def _simple_rows(block: Block, form: BenchForm) -> list[dict[str, str]]:
    """Label and text of the fields of each filled row; none where it is no list of rows, or they have parts."""
    rows = []
    for row in block.blocks:
        inner = [one.field for one in (*row.blocks, *row.rest)]
        if not row.row or None in inner:
            return []
        rows.append(dict(told for field in inner if field is not None and (told := _field(field, form))))
    return [row for row in rows if row]


def _in_one(legend: str, rows: list[dict[str, str]]) -> tuple[str, str]:
    """Many rows in one paragraph: the labels once, then row by row, with a dash for what is missing."""
    labels = list(dict.fromkeys(label for row in rows for label in row))
    said = " | ".join(", ".join(row.get(label, "–") for label in labels).rstrip("–, ") for row in rows)
    return f"{legend} ({', '.join(labels)})", said


def _field(bound: BoundField, form: BenchForm) -> tuple[str, str] | None:
    """Label and text of a field; None if nothing was typed."""
    text = form.typed.get(bound.name)
    if text is None:
        return None
    label = str(bound.label)
    if isinstance(bound.field.widget, Tick):
        return label, str(_("yes")) if bound.value() else str(_("no"))
    if isinstance(bound.field, ChoiceField):
        return label, str({str(value): words for value, words in bound.field.choices}.get(text, text))  # type: ignore[misc, union-attr]
    return label, text.replace("T", " ") if isinstance(bound.field, MomentField) else text
