"""What is typed of a home test: a grade by eye, or which two samples of a measured photo tell it."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.bridge.fastness import Graded, graded
from bluewright.journal.models import HomeTest, Measured
from bluewright.science.base.errors import InputError
from bluewright.web.pages.cloth.forms import said
from bluewright.web.ui.typed import MomentField, not_to_come, shown_moment, write_moment
from bluewright.words.cloth import HOME_TESTS

HALVES: Final = tuple(f"{grade / 2:g}" for grade in range(10, 1, -1))
EYE_SD: Final = 0.5
"""By which two people differ (common practice)."""


def half_said(grade: str) -> Any:
    """`5`, `4-5`."""
    value = float(grade)
    plain = f"{value:g}" if value == int(value) else f"{value - 0.5:g}-{value + 0.5:g}"
    ends = {"5": gettext_lazy("5: nothing to be seen"), "1": gettext_lazy("1: very much")}
    return ends.get(plain, plain)


class HomeTestForm(forms.Form):
    """A home test whose grade is judged by eye."""

    kind = forms.ChoiceField(choices=said(HOME_TESTS), label=gettext_lazy("Which test"))
    grade = forms.ChoiceField(
        choices=[("", "–"), *((grade, half_said(grade)) for grade in HALVES)], required=False,
        label=gettext_lazy("Grade by eye"),
    )  # fmt: skip
    done_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])
    how = forms.CharField(
        required=False, max_length=160, label=gettext_lazy("How"),
        help_text=gettext_lazy("Strokes, minutes, degrees, days in the sun."),
    )  # fmt: skip
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def write(self, row: HomeTest) -> HomeTest:
        """The test of the valid form; a grade that was typed anew is no longer the photo's."""
        for name in ("kind", "how", "note"):
            setattr(row, name, self.cleaned_data[name])
        write_moment(self, "done_at", row)
        if "grade" in self.changed_data:
            grade = self.cleaned_data["grade"]
            row.grade, row.grade_sd = (float(grade), EYE_SD) if grade else (None, None)
            row.off_de, row.measured_key = None, None
        return row


class PhotoTestForm(HomeTestForm):
    """A home test whose grade two samples of one measured photo tell."""

    unused = forms.ChoiceField(label=gettext_lazy("Unused: which sample"))
    tried = forms.ChoiceField(label=gettext_lazy("Tried: which sample"))

    field_order = ("kind", "unused", "tried", "done_at", "how", "note")

    def __init__(self, *args: Any, found: Measured, **options: Any) -> None:
        super().__init__(*args, **options)
        self.found = found
        self.graded: Graded | None = None
        del self.fields["grade"]
        numbers = range(len(found.answer["samples"]))
        for name in ("unused", "tried"):
            field: Any = self.fields[name]
            field.choices = [(str(one), _("sample %(number)d") % {"number": one + 1}) for one in numbers]

    def clean(self) -> dict[str, Any]:
        """Two samples, of which the first is unused."""
        found = super().clean() or {}
        if not self.errors:
            try:
                self.graded = graded(self.found, found["kind"], unused=int(found["unused"]), tried=int(found["tried"]))
            except InputError as error:
                self.add_error(error.where, f"{error.what}; {error.right}.")
        return found

    def write(self, row: HomeTest) -> HomeTest:
        """The test with the grade that the photo tells."""
        super().write(row)
        assert self.graded is not None  # the form is valid
        row.grade, row.grade_sd, row.off_de = self.graded.grade, self.graded.grade_sd, self.graded.off_de00
        row.measured_key = self.found.pk
        return row


def home_test_as_typed(row: HomeTest) -> dict[str, Any]:
    """A test as its form shows it again."""
    half = "" if row.grade is None or row.measured_key is not None else f"{row.grade:g}"
    return {"kind": row.kind, "grade": half, "done_at": shown_moment(row.done_at), "how": row.how, "note": row.note}
