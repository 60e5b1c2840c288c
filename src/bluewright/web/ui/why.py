"""Why this number: from any figure of an answer to what it means, its inputs, formula, constants, sources and draws."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from django.utils.text import slugify
from django.utils.translation import gettext as _

from bluewright.science.base.records import meanings
from bluewright.web.ui import why_constants
from bluewright.web.ui.basis import BASIS
from bluewright.web.ui.prose import address as method_address
from bluewright.web.ui.prose import part, title_of
from bluewright.web.ui.stages import stage_of
from bluewright.web.ui.why_constants import Group
from bluewright.web.ui.why_figures import Figure, Part, entry_said, figure_of, figures, named, plainly, titled
from bluewright.words.fields import name_said, value_said
from bluewright.words.sources import NO_SOURCE, bibliography, citation

UNTOLD: Final = frozenset({"version", "id", "seed"})
"""Fields of a record that no figure rests on, or that are told by themselves."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A field of the record: its name, its value in words, and what it means."""

    name: str
    said: str
    meaning: str
    entries: tuple[Part, ...] = ()
    """Of a list of records, its entries."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A source that the answer names."""

    key: str
    said: str
    """As people cite it."""
    anchor: str
    """Its place on the page of sources; empty where there is no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """Where to, and what it is called."""

    to: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyPage:
    """Why a figure is what it is."""

    figure: Figure
    given: tuple[Row, ...]
    """What was given, of all that was asked for."""
    left_out: tuple[Row, ...]
    """What was left out, and so taken as usual."""
    basis: str
    """What the answer rests on, in a sentence; empty where it does not say."""
    formula: str
    """HTML of our own: the formula and its symbols."""
    method: Link
    constants: tuple[Group, ...]
    grades: tuple[tuple[str, int], ...]
    """How many constants there are of each grade."""
    sources: tuple[Source, ...]
    draws: int
    """How many random draws the ranges are taken from; 0 where they are worked out without."""
    seed: int
    others: tuple[Link, ...]
    """The other figures of the answer."""
    back: Link

    @property
    def many(self) -> int:
        """How many constants there are."""
        return sum(number for _, number in self.grades)


def why_page(answer: Any, *, figure: str, address: Callable[[str], str], back: Link) -> WhyPage:
    """The page for one figure of an answer, named by its path (`window`, `dose`, `options.2`).

    `address` gives the address of this page for another figure; `back` leads to where the figure stands. Raises
    KeyError where the answer has no such figure.
    """
    stage, record = stage_of(answer), answer.inputs
    found = why_constants.groups(stage.entry, record)
    given, left_out = _inputs(record)
    return WhyPage(
        figure=figure_of(answer, figure),
        given=given,
        left_out=left_out,
        basis=str(BASIS[answer.basis]) if hasattr(answer, "basis") else "",
        formula=part(stage.page, stage.formula),
        method=Link(to=method_address(stage.page, slugify(stage.formula)), name=title_of(stage.page)),
        constants=found,
        grades=why_constants.grades(found),
        sources=tuple(_source(key) for key in answer.sources),
        draws=stage.number_of_draws(),
        seed=record.seed,
        others=tuple(Link(to=address(path), name=named(path)) for path in figures(answer) if path != figure),
        back=back,
    )


def main_why(answer: Any, *, address: Callable[[str], str]) -> Link:
    """The way from an answer's first sentence to why its main figure is so; the other figures are told there.

    An answer that has no such figure (a bed that wants no water) is explained by its first.
    """
    there = figures(answer)
    main = stage_of(answer).main if stage_of(answer).main in there else there[0]
    return Link(to=address(main), name=named(main))


def _inputs(record: Any) -> tuple[tuple[Row, ...], tuple[Row, ...]]:
    """The fields of a record: those that were given, and those that stand as they are when nothing is said."""
    said, given, left_out = meanings(type(record)), list[Row](), list[Row]()
    for one in dataclasses.fields(record):
        value, meaning = getattr(record, one.name), plainly(said[one.name])
        if one.name in UNTOLD:
            continue
        if value == one.default:
            usual = "" if value in (None, ()) or dataclasses.is_dataclass(value) else value_said(value, one.name)
            left_out.append(Row(name=titled(name_said(one.name)), said=usual, meaning=meaning))
        else:
            given.append(_given(value, one.name, meaning))
    return tuple(given), tuple(left_out)


def _given(value: Any, name: str, meaning: str) -> Row:
    """A field that was given; of a list of records how many there are, and each."""
    if isinstance(value, tuple) and all(dataclasses.is_dataclass(one) for one in value):
        entries = tuple(entry_said(one, exact=True) for one in value)
        return Row(name=titled(name_said(name)), said=str(len(value)), meaning=meaning, entries=entries)
    return Row(name=titled(name_said(name)), said=value_said(value, name, exact=True), meaning=meaning)


def _source(key: str) -> Source:
    entry = bibliography().get(key)
    if entry is None:
        return Source(key=key, said=_("Common practice; no source was found.") if key == NO_SOURCE else key, anchor="")
    return Source(key=key, said=citation(entry), anchor=entry.anchor)
