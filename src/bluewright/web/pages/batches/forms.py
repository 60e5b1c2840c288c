"""What is typed about batches."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext as _t
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models import Batch, Garden, Strain
from bluewright.journal.queries import batches
from bluewright.web.ui.typed import DecimalField, MeasureField, MomentField, not_to_come


class BeginForm(forms.Form):
    """Liquor of one or several tubs or batches that is worked together from now on."""

    name = forms.CharField(max_length=60, label=_("Name of the batch"))
    begun_at = MomentField(label=_("Poured together"), validators=[not_to_come])
    strains = forms.ModelMultipleChoiceField(
        queryset=Strain.objects.none(),
        required=False,
        widget=forms.CheckboxSelectMultiple,
        label=_("Strained liquor of"),
    )
    batches = forms.ModelMultipleChoiceField(
        queryset=Batch.objects.none(), required=False, widget=forms.CheckboxSelectMultiple, label=_("Join batches"),
        help_text=_("They go on in this batch from here."),
    )  # fmt: skip
    liquor = MeasureField(
        kind="volume_l", low=0.01, high=100_000, required=False, label=_("Only part of it"),
        help_text=_("Left out: all of it. With a part, choose one tub only; the rest can go into another batch."),
    )  # fmt: skip
    note = forms.CharField(required=False, max_length=500, label=_("Note"))

    def __init__(self, *args: Any, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        fields: dict[str, Any] = self.fields
        fields["strains"].queryset = _found(batches.with_liquor_left(garden)).select_related("steep")
        fields["strains"].label_from_instance = _strain_label
        fields["batches"].queryset = _found(batches.worked_on(garden))
        if not fields["batches"].queryset.exists():
            del fields["batches"]

    def clean(self) -> dict[str, Any]:
        """Some liquor, and a part only of one tub or batch."""
        found = super().clean() or {}
        chosen = [*(found.get("strains") or []), *(found.get("batches") or [])]
        if not chosen:
            self.add_error("strains", _t("Choose the tub whose liquor it is; strain it first if it is not there."))
        if found.get("liquor") and len(chosen) > 1:
            self.add_error("liquor", _t("A part can be taken of one tub at a time. Leave it out, or choose one tub."))
        return found


class ChangeForm(forms.Form):
    """The name of a batch and the pH that is aimed at."""

    name = forms.CharField(max_length=60, label=_("Name of the batch"))
    target_ph = DecimalField(min_value=7, max_value=13, label=_("Wanted pH"))
    note = forms.CharField(required=False, max_length=500, label=_("Note"))


class EndForm(forms.Form):
    """Why a batch is given up."""

    ended_at = MomentField(label=_("When"), validators=[not_to_come])
    ended_why = forms.CharField(max_length=120, label=_("Why"), help_text=_("Spoilt, spilt, no blue came, ..."))


def _found(rows: QuerySet[Any]) -> QuerySet[Any]:
    """The same rows by their keys: a field of choices asks for its rows again and again."""
    found: QuerySet[Any] = rows.model._default_manager.filter(pk__in=list(rows.values_list("pk", flat=True)))
    return found


def _strain_label(strain: Strain) -> str:
    liquor = f", {strain.liquor_typed}" if strain.liquor_typed else ""
    return f"{strain.steep.name}{liquor}"
