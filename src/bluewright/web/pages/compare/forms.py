"""What is typed about trials: how they are laid down, and what came of each tub."""

from __future__ import annotations

import secrets
from collections.abc import Collection, Mapping
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Garden, Steep, Trial, TrialTub
from bluewright.journal.models.trial import MEASURED
from bluewright.journal.queries.trials import free_tubs
from bluewright.science.base.errors import InputError
from bluewright.science.learn.trial_record import MOST_WAYS
from bluewright.web.ui.typed import DecimalField, MeasureField
from bluewright.words.compare import ASSIGNED, DIFFERS, OUTCOMES
from bluewright.words.numbers import moment

MOST_SEED: Final = 2**31
MOST_WORK_H: Final = 1000.0
COLUMNS: Final = (
    "name", "question", "ways", "differs", "assigned", "outcome", "tubs", "days", "vessels_differ", "spoilt_if", "note",
)  # fmt: skip
"""What is typed as it is kept."""


def _choices(words: Mapping[Any, str], *, only: Collection[str] | None = None) -> list[tuple[Any, Any]]:
    return [(key, gettext_lazy(said)) for key, said in words.items() if only is None or key in only]


class TrialForm(forms.Form):
    """A trial to be laid down."""

    name = forms.CharField(max_length=60, label=gettext_lazy("Call it"))
    question = forms.CharField(
        max_length=200, label=gettext_lazy("What you want to know"),
        help_text=gettext_lazy("Is badly spotted leaf worth a tub?"),
    )  # fmt: skip
    ways = forms.CharField(
        label=gettext_lazy("What is compared"), widget=forms.Textarea(attrs={"rows": 3}), max_length=400,
        help_text=gettext_lazy("One a line, the usual way first: clean leaf, then spotted leaf."),
    )  # fmt: skip
    differs = forms.ChoiceField(choices=_choices(DIFFERS), label=gettext_lazy("What is different between them"))
    assigned = forms.ChoiceField(
        choices=_choices(ASSIGNED), label=gettext_lazy("What decides which leaf gets which way")
    )
    outcome = forms.ChoiceField(choices=_choices(OUTCOMES, only=MEASURED), label=gettext_lazy("What is measured"))
    tubs = forms.IntegerField(
        min_value=1, max_value=24, label=gettext_lazy("Tubs that you fill on one day"),
        help_text=gettext_lazy("Two, if two ways are compared: half of one picking in each."),
    )  # fmt: skip
    days = forms.IntegerField(min_value=1, max_value=60, label=gettext_lazy("Picking days for it"))
    vessels_differ = forms.BooleanField(
        required=False, label=gettext_lazy("The tubs are unlike in size, make or place")
    )
    leaf = MeasureField(
        kind="mass_kg", low=0.05, high=100_000, required=False, label=gettext_lazy("Leaf in each tub"),
        help_text=gettext_lazy("The same mass in all: the result is then told in grams of blue too."),
    )  # fmt: skip
    worth = DecimalField(
        min_value=1, max_value=1000, label=gettext_lazy("A difference worth finding, per cent"),
        help_text=gettext_lazy("The smallest that would change what you do."),
    )  # fmt: skip
    gain = DecimalField(
        min_value=-95, max_value=1000, required=False, label=gettext_lazy("It must give more by at least, per cent"),
        help_text=gettext_lazy("To be worth it beside the usual way. Empty: any more. Below 0: so much less would do."),
    )  # fmt: skip
    hours = forms.CharField(
        required=False, max_length=120, widget=forms.Textarea(attrs={"rows": 3}),
        label=gettext_lazy("Work for a tub of each, hours"),
        help_text=gettext_lazy("One a line, in the order of what is compared: 3, then 3.5."),
    )  # fmt: skip
    least_per_h = DecimalField(
        min_value=0.001, max_value=1_000_000, required=False,
        label=gettext_lazy("An hour of work must bring at least, g of pure blue"),
        help_text=gettext_lazy("This then decides whether it is worth it. It needs the leaf and the hours above."),
    )  # fmt: skip
    spoilt_if = forms.CharField(
        max_length=300, required=False, label=gettext_lazy("What makes a tub spoilt"),
        help_text=gettext_lazy("Said now, so that the result does not decide it: a leak, frost, strained late."),
    )  # fmt: skip
    note = forms.CharField(max_length=500, required=False, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, garden: Garden, seeing: bool = False, **options: Any) -> None:
        super().__init__(*args, **options)
        self.garden = garden
        if seeing:  # what it could show asks for neither name nor question
            self.fields["name"].required = self.fields["question"].required = False

    def clean_ways(self) -> list[str]:
        """Two ways to six, each its own."""
        ways = [line.strip() for line in self.cleaned_data["ways"].splitlines() if line.strip()]
        if not 2 <= len(ways) <= MOST_WAYS:
            raise ValidationError(_("Write two ways to %(most)d, one a line.") % {"most": MOST_WAYS})
        if len(set(ways)) < len(ways):
            raise ValidationError(_("One way stands there twice."))
        if any(len(way) > 60 for way in ways):
            raise ValidationError(_("Keep each to 60 characters."))
        return ways

    def clean_hours(self) -> list[float]:
        """Hours above nought, one a line; none at all where that is not asked."""
        field = DecimalField(min_value=0.01, max_value=MOST_WORK_H)
        return [field.clean(line.strip()) for line in self.cleaned_data["hours"].splitlines() if line.strip()]

    def clean(self) -> dict[str, Any]:
        """Hours go with the ways; grams for an hour with grams, leaf and hours."""
        data = super().clean() or self.cleaned_data
        hours, ways = data.get("hours"), data.get("ways")
        if hours and ways and len(hours) != len(ways):
            told = {"hours": len(hours), "ways": len(ways)}
            self.add_error("hours", _("These are %(hours)d numbers for %(ways)d ways: write one a line.") % told)
        if data.get("least_per_h") is not None:
            wanted = ((data.get("leaf"), _("the leaf in each tub")), (hours, _("the hours of each way")))
            missing = [said for there, said in wanted if not there]
            if missing:
                self.add_error("least_per_h", _("It needs %(what)s too.") % {"what": ", ".join(missing)})
            elif data.get("outcome") not in {None, "pure_blue"}:
                self.add_error("least_per_h", _("It is told in pure blue: measure that, or leave this out."))
        return data

    def row(self) -> Trial:
        """The trial of the valid form, its lots drawn from a number that nobody chose; the seal is still missing."""
        data = self.cleaned_data
        made = Trial(garden=self.garden, laid_down_at=timezone.now(), seed=secrets.randbelow(MOST_SEED))
        for column in COLUMNS:
            setattr(made, column, data[column])
        made.worth_finding_frac, made.least_gain_frac = data["worth"] / 100, (data["gain"] or 0.0) / 100
        made.work_h, made.least_g_per_h = data["hours"], data["least_per_h"]
        if data["leaf"] is not None:
            made.leaf_kg, made.leaf_typed = data["leaf"].value, data["leaf"].typed
        return made

    def wrong(self, error: InputError) -> None:
        """A mistake that the layout found, beside its field."""
        field = error.where if error.where in self.fields else None
        self.add_error(field, f"{error.what}; {error.right}.")


class NamesForm(forms.Form):
    """What may be said otherwise afterwards: the name and the note. What was laid down stays."""

    name = forms.CharField(max_length=60, label=gettext_lazy("Call it"))
    note = forms.CharField(max_length=500, required=False, label=gettext_lazy("Note"))

    def write(self, row: Trial) -> Trial:
        """The trial as the valid form says it."""
        row.name, row.note = self.cleaned_data["name"], self.cleaned_data["note"]
        return row


class _WithTub(forms.Form):
    """A form that offers the tubs which are no lot yet."""

    steep = forms.ChoiceField(required=False, label=gettext_lazy("Which tub it is"))

    def __init__(self, *args: Any, garden: Garden, lot: TrialTub | None = None, **options: Any) -> None:
        super().__init__(*args, **options)
        self.offered = {str(row.pk): row for row in free_tubs(garden, but_lot=lot)}
        field: Any = self.fields["steep"]
        named = [
            (key, f"{row.name}, {moment(timezone.localtime(row.started_at))}") for key, row in self.offered.items()
        ]
        field.choices = [("", _("not in this book, or not yet")), *named]

    def tub(self) -> Steep | None:
        """The tub that was chosen."""
        return self.offered.get(self.cleaned_data["steep"])


class OpenForm(_WithTub):
    """The next envelope is opened, for a tub."""


class LotForm(_WithTub):
    """What came of a lot that is open."""

    got = DecimalField(
        min_value=0.000001, max_value=10_000, required=False, label=gettext_lazy("It gave, g from a kilogram of leaf"),
        help_text=gettext_lazy("Only where the journal cannot count it from the jar: it goes before what is counted."),
    )  # fmt: skip
    spoilt = forms.CharField(
        max_length=200, required=False, label=gettext_lazy("Spoilt: why"),
        help_text=gettext_lazy("It stays in the list with this reason, and does not count."),
    )  # fmt: skip

    def write(self, lot: TrialTub) -> TrialTub:
        """The lot as the valid form says it."""
        data = self.cleaned_data
        lot.steep, lot.spoilt = self.tub(), data["spoilt"]
        lot.got_g_per_kg = data["got"]
        lot.got_typed = "" if data["got"] is None else f"{data['got']:g} g/kg"
        return lot


def as_typed(lot: TrialTub) -> dict[str, Any]:
    """A lot as its form shows it again."""
    return {"steep": str(lot.steep_id or ""), "got": lot.got_g_per_kg, "spoilt": lot.spoilt}
