"""The form field for each sort of value, and the plain value that the record takes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Any, Final, get_args

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.science.base.errors import InputError
from bluewright.science.base.measures import Measure, MeasureKind, System, bare_unit, say_measure
from bluewright.science.base.typed_numbers import plain, signed
from bluewright.web.pages.bench.labels import choice, help_of
from bluewright.web.pages.bench.tree import Entry
from bluewright.web.ui.typed import DayField, DecimalField, MeasureField, MomentField

MEASURES: Final = frozenset(get_args(MeasureKind))
UNITLESS: Final = frozenset({"ph", "count"})
YES_NO: Final = [("yes", gettext_lazy("yes")), ("no", gettext_lazy("no"))]
MOST_TEXT: Final = 200
MOST_SERIES: Final = 3000


class Tick(forms.CheckboxInput):
    """A tick that an address may also write out: `opened=no`."""

    def value_from_datadict(self, data: Mapping[str, Any], files: Any, name: str) -> bool:  # noqa: ARG002
        """Whether it is ticked."""
        return str(data.get(name, "")).casefold() not in {"", "no", "off", "false", "0"}


class SeriesField(forms.CharField):
    """Any number of numbers in a line; whole ones stay whole."""

    def clean(self, value: Any) -> list[float] | None:
        """Read them."""
        text = super().clean(value)
        if not text:
            return None
        try:
            found = [signed(part) for part in plain(text.replace(";", " ")).split()]
        except (InputError, OverflowError):  # a number of hundreds of digits is no float
            found = []
        if not self.fits(len(found)):
            raise ValidationError(self.told())
        return [int(one) if one.is_integer() else one for one in found]

    def fits(self, many: int) -> bool:
        """Whether so many may stand there."""
        return many > 0

    def told(self) -> str:
        """What would be right."""
        return _("Write numbers with spaces between, like 14 0 22.")


class NumbersField(SeriesField):
    """Three numbers in a line."""

    def fits(self, many: int) -> bool:
        """Whether there are three."""
        return many == 3

    def told(self) -> str:
        """What would be right."""
        return _("Write three numbers with spaces between, like 62 8 31.")


def input_field(entry: Entry, *, label: str, required: bool, may_be_blank: bool, system: System) -> forms.Field:
    """The form field of an entry; `may_be_blank` offers to leave a choice out."""
    common: dict[str, Any] = {"label": label, "required": required, "help_text": _help(entry, system)}
    if entry.sort in MEASURES:
        return MeasureField(kind=entry.sort, system=system, **common)  # type: ignore[arg-type]
    if entry.sort in {"choice", "level", "yes_no"}:
        said = YES_NO if entry.sort == "yes_no" else [(str(v), choice(entry.field, v)) for v in entry.values]
        blank = [("", _("choose") if required else "–")] if may_be_blank or entry.default is None else []
        return forms.ChoiceField(choices=[*blank, *said], **common)
    return PLAIN[entry.sort](**common)


PLAIN: Final[dict[str, Callable[..., forms.Field]]] = {
    "number": DecimalField,
    "tick": lambda **common: forms.BooleanField(widget=Tick, **{**common, "required": False}),
    "moment": MomentField,
    "day": DayField,
    "text": lambda **common: forms.CharField(max_length=MOST_TEXT, **common),
    "words": lambda **common: forms.CharField(max_length=MOST_TEXT, **common),
    "numbers": lambda **common: NumbersField(max_length=MOST_TEXT, **common),
    "series": lambda **common: SeriesField(max_length=MOST_SERIES, **common),
}


def unit(entry: Entry, system: System) -> str:
    """The unit that a bare number is in, to stand beside the label."""
    if entry.sort == "fraction":
        return "%"
    if entry.sort in MEASURES:
        return bare_unit(entry.sort, system=system)  # type: ignore[arg-type]
    return _(entry.unit) if entry.unit else ""


def beyond(entry: Entry, value: float, system: System) -> str:
    """What is wrong with a value outside its limits, in the asker's own units; empty if it is inside."""
    if entry.least is not None and value < entry.least:
        return (
            _("It must be more than nothing.")
            if 0 < entry.least < 1e-6
            else _("At least %(limit)s.") % {"limit": _limit(entry, entry.least, system)}
        )
    if entry.most is None or value <= entry.most:
        return ""
    return _("At most %(limit)s.") % {"limit": _limit(entry, entry.most, system)}


def _limit(entry: Entry, limit: float, system: System) -> str:
    return f"{limit:,g} {entry.unit}".strip() if entry.sort not in MEASURES else said(entry, limit, system)


def said(entry: Entry, value: float, system: System) -> str:
    """A measure in words that can be typed again: exact in metric, to three figures in US units."""
    if entry.sort in UNITLESS:
        return f"{value:.12g}"
    if entry.sort == "fraction":
        return f"{100 * value:.12g}%"
    if system == "us":
        return say_measure(value, kind=entry.sort, system=system).replace("−", "-")  # type: ignore[arg-type]
    return f"{value:.12g} {bare_unit(entry.sort, system='metric')}"  # type: ignore[arg-type]


def _help(entry: Entry, system: System) -> str:
    """The docstring in plain words, and what holds if it is left out."""
    if entry.sort == "level" or any(f"`{value}`" in entry.about for value in entry.values):
        return ""  # the choices say it
    text = help_of(entry.field, entry.about)
    shown = entry.sort in MEASURES or entry.sort == "number"
    if not shown or not entry.default or "left out" in text or "default" in text or "without it" in text:
        return text
    usual = _("Left out: %(usual)s.") % {"usual": _limit(entry, entry.default, system)}
    return f"{text} {usual}".strip()


def plain_value(entry: Entry, cleaned: Any) -> Any:
    """What the record takes; None for what was left out."""
    if cleaned is None or cleaned == "" or cleaned is False:
        return None
    if isinstance(cleaned, Measure):
        return int(cleaned.value) if entry.sort == "count" else cleaned.value
    if entry.sort == "yes_no":
        return cleaned == "yes"
    if entry.sort == "level":
        return int(cleaned)
    if entry.sort == "words":
        return cleaned.split()
    return cleaned.isoformat() if entry.sort in {"moment", "day"} else cleaned


def as_typed(entry: Entry, value: Any, system: System) -> str:
    """A value of a record as a person would have typed it."""
    if entry.sort in MEASURES:
        return said(entry, float(value), system)
    if entry.sort == "yes_no":
        return "yes" if value else "no"
    if entry.sort == "tick":
        return "on" if value else ""
    if entry.sort == "moment":
        return datetime.fromisoformat(value).strftime("%Y-%m-%dT%H:%M")
    if entry.sort in {"words", "numbers", "series"}:
        return " ".join(str(one) for one in value)
    return f"{value:.12g}" if isinstance(value, float) else str(value)
