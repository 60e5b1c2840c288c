"""Form fields that take what people type (`64 F`, `1 1/2 lb`, `5,5`) and keep it as typed beside the value."""

from __future__ import annotations

import re
from datetime import date, datetime, timedelta
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.utils import timezone
from django.utils.dateparse import parse_datetime
from django.utils.translation import gettext as _

from bluewright.science.base.errors import InputError
from bluewright.science.base.measures import Measure, MeasureKind, System, read_measure, say_measure
from bluewright.science.base.typed_numbers import plain, signed
from bluewright.words.reader import reader

CLOCKS_DIFFER: Final = timedelta(minutes=5)
UNIT: Final = re.compile(r"[^\W\d_]|[%°'\"′″’”]")
"""What a number without a unit does not have."""
CM_OR_IN: Final[dict[System, str]] = {"metric": "cm", "us": "in"}
"""What a bare number of a tub's or a vessel's size means to who measures it."""
YEARS: Final = range(1900, 9999)
"""The years that a moment may be in: earlier ones were mistyped, and of the last one not each moment can be kept."""
MOST_TYPED: Final = 30
"""Characters of a measure: as many as its column holds."""


class MeasureField(forms.CharField):
    """A measure of one kind; cleaned to a `Measure` (typed text and canonical value), or None if left empty.

    A number without a unit is kept with the one that it was understood in: `17` is kept as `17 C`. That is the unit of
    whoever reads the page, unless `system` says another; `bare` names it by system of measures where people think in
    another than their garden's: the depth of a tub in centimetres.
    """

    def __init__(
        self,
        *,
        kind: MeasureKind,
        system: System | None = None,
        low: float | None = None,
        high: float | None = None,
        bare: dict[System, str] | None = None,
        **options: Any,
    ) -> None:
        self.kind, self.chosen, self.low, self.high, self.bare = kind, system, low, high, bare or {}
        super().__init__(max_length=MOST_TYPED, **options)
        self.widget.attrs |= {"inputmode": "decimal", "autocomplete": "off"}

    @property
    def system(self) -> System:
        """In which measures bare numbers are read and limits are said."""
        return self.chosen or reader().system

    def clean(self, value: Any) -> Measure | None:
        """Read the text; a mistake is said with what would be right."""
        text = super().clean(value)
        if not text:
            return None
        try:
            found = self._read(text)
        except InputError as error:
            raise ValidationError(f"{error.what}; {error.right}") from None
        if (self.low is not None and found.value < self.low) or (self.high is not None and found.value > self.high):
            limits = {"what": found.typed, "low": self._said(self.low), "high": self._said(self.high)}
            raise ValidationError(_("%(what)s cannot be; give %(low)s to %(high)s") % limits)
        return found

    def _read(self, text: str) -> Measure:
        if UNIT.search(text):
            return read_measure(text, kind=self.kind, prefer=self.system)
        unit = self.bare.get(self.system) or read_measure(text, kind=self.kind, prefer=self.system).unit
        whole = f"{text} {unit.removeprefix('US ').removeprefix('°')}".strip()
        return read_measure(whole if len(whole) <= MOST_TYPED else text, kind=self.kind, prefer=self.system)

    def _said(self, limit: float | None) -> str:
        return _("any") if limit is None else say_measure(limit, kind=self.kind, system=self.system)


def write_measure(
    form: forms.Form, name: str, row: Any, *, value: str, typed: str, nothing: float | None = None
) -> None:
    """Write a measure of a valid form into its two columns of a row.

    A text that stayed as it was is left alone: the garden may have changed its units since it was typed.
    """
    if name in form.changed_data:
        found: Measure | None = form.cleaned_data[name]
        setattr(row, value, nothing if found is None else found.value)
        setattr(row, typed, "" if found is None else found.typed)


def write_moment(form: forms.Form, name: str, row: Any) -> None:
    """Write a moment of a valid form into its column; one that stayed as it was keeps its seconds."""
    if name in form.changed_data or getattr(row, name) is None:
        setattr(row, name, form.cleaned_data[name])


def shown_moment(moment: datetime) -> datetime:
    """A moment as its field shows it again: by the garden's clock, to the minute."""
    return timezone.localtime(moment).replace(second=0, microsecond=0)


def not_to_come(moment: datetime) -> None:
    """Validator: what has been done or seen was not done in the future; clocks may differ by a few minutes."""
    if moment > timezone.now() + CLOCKS_DIFFER:
        raise ValidationError(_("That moment is still to come."))


def not_a_day_to_come(day: date) -> None:
    """Validator: what has been done or seen was not done on a day still to come."""
    if day > timezone.localdate():
        raise ValidationError(_("This day is still to come."))


class DayField(forms.DateField):
    """A day, as the browser's own field gives and takes it in any language."""

    def __init__(self, **options: Any) -> None:
        super().__init__(widget=forms.DateInput({"type": "date"}, "%Y-%m-%d"), **options)


class DecimalField(forms.FloatField):
    """A bare number, with a decimal point or a decimal comma."""

    widget = forms.TextInput

    def __init__(self, **options: Any) -> None:
        super().__init__(**options)
        self.widget.attrs |= {"inputmode": "decimal", "autocomplete": "off"}

    def clean(self, value: Any) -> Any:
        """Read the number; one that could mean two (`1,234`, `1 234`) is refused with what would be right."""
        if not isinstance(value, str) or not value.strip():
            return super().clean(value)
        if len(value) > MOST_TYPED:
            raise ValidationError(f"This is longer than {MOST_TYPED} characters.")
        try:
            found = signed(plain(value).removeprefix("+"))
        except InputError as error:
            raise ValidationError(f"{error.what}; {error.right}") from None
        return super().clean(found)


class MomentField(forms.DateTimeField):
    """A moment by the garden's clock."""

    def __init__(self, **options: Any) -> None:
        widget = forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M")
        super().__init__(widget=widget, input_formats=["%Y-%m-%dT%H:%M", "%Y-%m-%d %H:%M"], **options)

    def to_python(self, value: Any) -> datetime | None:
        """Read the moment; a year that nobody means and an hour that the clocks left out are refused in words."""
        wall = _wall_clock(value)
        if wall is None:
            return super().to_python(value)
        if wall.year not in YEARS:
            typed = {"year": wall.year, "first": YEARS[0]}
            raise ValidationError(_("The year %(year)s cannot be; give one from %(first)s on.") % typed)
        return _at(wall)


def _wall_clock(value: Any) -> datetime | None:
    """What a clock on the wall shows at a moment that was typed; None if it is none, or has its offset with it."""
    try:
        found = parse_datetime(value.strip()) if isinstance(value, str) else None
    except ValueError:
        return None
    return None if found is None or found.tzinfo is not None else found


def _at(wall: datetime) -> datetime:
    """The moment at which the garden's clock shows that; where it does so twice, the later one that has been."""
    first, second = (wall.replace(tzinfo=timezone.get_current_timezone(), fold=fold) for fold in (0, 1))
    gained = (first.utcoffset() or timedelta()) - (second.utcoffset() or timedelta())
    if gained < timedelta():
        raise ValidationError(_("The clocks went forward then, and left that hour out. Give one before or after it."))
    return second if gained and second <= timezone.now() else first
