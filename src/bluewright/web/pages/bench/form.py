"""The form of a calculator: made from its record, filled from the address, arranged with what matters up front."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from django import forms
from django.forms.boundfield import BoundField
from django.forms.utils import ErrorDict
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.science.base.measures import Measure, System
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.web.pages.bench.inputs import beyond, input_field, unit
from bluewright.web.pages.bench.labels import LABELS, Words, choice, help_of
from bluewright.web.pages.bench.tree import Entry, Item, Part, Rows, tree

MOST_ROWS: Final = 60
SPARE_ROWS: Final = 1
"""Blank rows below those that are filled."""
ROW: Final = re.compile(r"(.*?)\.(\d{1,4})\.")
WAY: Final = "way"
UNITS: Final = "units"
SYSTEMS: Final = [
    ("metric", gettext_lazy("metric: kg, L, °C, cm")),
    ("us", gettext_lazy("US: lb, gal, °F, in")),
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A stretch of the form: one field, or more of them under a heading of their own."""

    field: BoundField | None = None
    unit: str = ""
    legend: str = ""
    help: str = ""
    helps: tuple[tuple[str, str], ...] = ()
    """Of rows: what each field of theirs means, by its label, said once for all."""
    blocks: tuple[Block, ...] = ()
    rest: tuple[Block, ...] = ()
    """What stands folded below."""
    folds: bool = False
    row: bool = False
    more: str = ""
    """The name of the rows to which another can be added."""

    @property
    def opened(self) -> bool:
        """Whether something in it is typed or wrong."""
        return self.wrong or any(block.opened for block in (*self.blocks, *self.rest)) or self._typed

    @property
    def wrong(self) -> bool:
        """Whether something in it is wrong."""
        own = self.field is not None and bool(self.field.errors)
        return own or any(block.wrong for block in (*self.blocks, *self.rest))

    @property
    def rest_opened(self) -> bool:
        """Whether something folded below is typed or wrong."""
        return any(block.opened for block in self.rest)

    @property
    def next_count(self) -> int:
        """How many rows there are with one more."""
        return len(self.blocks) + 1

    @property
    def _typed(self) -> bool:
        return self.field is not None and self.field.name in self.field.form.typed  # type: ignore[attr-defined]


class BenchForm(forms.Form):
    """What is typed for a calculator; `typed` holds what was, `places` each field's entry by its name."""

    def __init__(self, calculator: Calculator, typed: Mapping[str, str], *, system: System, more: str = "") -> None:
        self.calculator, self.system, self.more = calculator, system, more
        self.typed = {name: text for name, text in typed.items() if text.strip()}
        self.places: dict[str, Entry] = {}
        self._helps: dict[str, dict[str, str]] = {}
        super().__init__(dict(self.typed))
        self.fields[UNITS] = forms.ChoiceField(
            choices=SYSTEMS, label=_("Numbers without a unit are"), required=False,
            help_text=_("A unit that is typed always holds: 2 lb, 1½ gal, 64 F, 5,5 kg."),
        )  # fmt: skip
        made = list(self._made(tree(calculator.record), name="", path=""))
        self.front, self.rest = self._arranged(made)

    def _made(self, items: Sequence[Item], *, name: str, path: str, loose: bool = False) -> Iterator[tuple[str, Block]]:
        """Each item as a block with its path (`readings[].ph`); `loose` where leaving out is always right."""
        for item in items:
            at, stands = f"{name}{item.name}", f"{path}{item.field}"
            if stands in self.calculator.left_out:
                continue
            if isinstance(item, Entry):
                yield stands, self._field(item, at, stands, loose=loose)
            elif isinstance(item, Part):
                yield from self._part(item, at, stands, loose=loose)
            else:
                yield stands, self._rows(item, at, stands)

    def _field(self, entry: Entry, name: str, path: str, *, loose: bool) -> Block:
        needed = entry.needed and not loose
        self.fields[name] = input_field(
            entry, label=self._label(path), required=needed, may_be_blank=loose, system=self.system
        )
        self.places[name] = entry
        if entry.sort in {"choice", "yes_no"} and not loose and entry.default is not None:
            usual = {True: "yes", False: "no"}.get(entry.default, str(entry.default))
            self.data.setdefault(name, usual)  # type: ignore[attr-defined]
        if row := ROW.match(name):
            self._helps.setdefault(row[1], {})[str(self.fields[name].label)] = str(self.fields[name].help_text)
            self.fields[name].help_text = ""
        return Block(field=self[name], unit=unit(entry, self.system))

    def _part(self, part: Part, name: str, path: str, *, loose: bool) -> Iterator[tuple[str, Block]]:
        loose = loose or part.may_miss
        inner = list(self._made(part.items, name=f"{name}.", path=f"{path}.", loose=loose))
        lifted = [(at, block) for at, block in inner if at in self.calculator.front]
        yield from lifted
        kept = tuple(block for at, block in inner if at not in self.calculator.front)
        if kept:
            legend = self._label(path)
            yield path, Block(legend=legend, help=help_of(part.field, part.about), blocks=kept, folds=part.may_miss)

    def _rows(self, rows: Rows, name: str, path: str) -> Block:
        made = []
        for number in range(self.count(name)):
            inner = list(self._made(rows.items, name=f"{name}.{number}.", path=f"{path}[].", loose=True))
            ahead = self._ahead(inner)
            made.append(
                Block(
                    legend=f"{number + 1}",
                    row=True,
                    blocks=tuple(block for _at, block in ahead or inner),
                    rest=tuple(block for at, block in inner if ahead and (at, block) not in ahead),
                )
            )
        return Block(
            legend=self._label(path), help=help_of(rows.field, rows.about), blocks=tuple(made), folds=not rows.needed,
            more=name, helps=tuple((label, text) for label, text in self._helps.get(name, {}).items() if text),
        )  # fmt: skip

    def count(self, name: str) -> int:
        """How many rows are shown: those filled, a blank one, and another if it was asked for."""
        found = [int(m[1]) for typed in self.typed if (m := re.match(rf"{re.escape(name)}\.(\d{{1,4}})\.", typed))]
        asked = [int(self.more.rpartition(":")[2])] if re.fullmatch(rf"{re.escape(name)}:\d{{1,3}}", self.more) else [0]
        return min(MOST_ROWS, max(1 + max(found, default=-1) + SPARE_ROWS, *asked))

    def _arranged(self, made: list[tuple[str, Block]]) -> tuple[tuple[Block, ...], tuple[Block, ...]]:
        """What stands up front, in the calculator's order, and the rest."""
        if self.calculator.one_of:
            choices = [("", _("choose")), *((one, choice(WAY, one)) for one in self.calculator.one_of)]
            self.fields[WAY] = forms.ChoiceField(choices=choices, label=self._label(WAY))
            made.append((WAY, Block(field=self[WAY])))
        ahead = self._ahead(made)
        rest = tuple(block for at, block in made if (at, block) not in ahead)
        return tuple(block for _at, block in ahead), (*rest, Block(field=self[UNITS]))

    def _ahead(self, made: list[tuple[str, Block]]) -> list[tuple[str, Block]]:
        """Those blocks that stand up front, in the calculator's order; what must be given comes first."""
        order = {path: place for place, path in enumerate(self.calculator.front)}
        found = [(at, block) for at, block in made if at in order or (block.field and block.field.field.required)]
        return sorted(found, key=lambda one: order.get(one[0], -1))

    def _label(self, path: str) -> str:
        own: Words | None = self.calculator.labels.get(path)
        field = path.rpartition(".")[2].removesuffix("[]")
        return str(own or LABELS.get(field) or field.replace("_", " "))

    @property
    def rest_wrong(self) -> bool:
        """Whether something is wrong in what is folded."""
        return any(block.wrong for block in self.rest)

    @property
    def wrong_fields(self) -> list[tuple[BoundField, str]]:
        """The fields with a mistake, in their order, each with its label and its row."""
        found = [(self[name], ROW.match(name)) for name in self.fields if name in self.errors]
        return [(bound, f"{bound.label} ({int(row[2]) + 1})" if row else str(bound.label)) for bound, row in found]

    def forget_errors(self) -> None:
        """Show what was typed so far without judging it yet."""
        self._errors = ErrorDict()
        self.cleaned_data = {}

    def clean(self) -> dict[str, Any]:
        """Refuse what is outside its limits, and what this page does not know."""
        found = super().clean() or {}
        for name, entry in self.places.items():
            value = found.get(name)
            number = value.value if isinstance(value, Measure) else value
            if isinstance(number, float) and (wrong := beyond(entry, number, self.system)):
                self.add_error(name, wrong)
        unknown = [name for name in self.typed if name not in self.fields]
        if unknown:
            self.add_error(None, _("This page has no field ‘%(field)s’.") % {"field": unknown[0][:60]})
        return found
