"""What is typed about jars."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Batch, Jar
from bluewright.journal.queries.jars import put_in_g
from bluewright.web.ui.typed import DecimalField, MeasureField, MomentField, not_to_come
from bluewright.words.numbers import by_scale

MOST_G: Final = 1_000_000
SCALE_SD_G: Final = "0.5 g"


class PercentField(DecimalField):
    """A share typed in per cent, with or without the sign; cleaned to per cent."""

    def clean(self, value: Any) -> Any:
        """Read the number."""
        return super().clean(value.strip().removesuffix("%").rstrip() if isinstance(value, str) else value)


class JarForm(forms.Form):
    """A jar: its name, what went in, where it stands, how pure it is; one field of grams a batch."""

    name = forms.CharField(max_length=60, label=gettext_lazy("Which jar"))
    filled_at = MomentField(label=gettext_lazy("Filled"), validators=[not_to_come])
    scale = MeasureField(
        kind="mass_g", low=0.001, high=1000, initial=SCALE_SD_G, label=gettext_lazy("The scale is good to"),
        help_text=gettext_lazy("How far a weighing may be off."),
    )  # fmt: skip
    stands = forms.CharField(max_length=80, required=False, label=gettext_lazy("Where it stands"))
    purity = PercentField(
        min_value=0.5, max_value=99.5, required=False, label=gettext_lazy("Indigo in it, per cent"),
        help_text=gettext_lazy("Only if it was measured on this pigment. Left out, a range of such pigment is used."),
    )  # fmt: skip
    give_or_take = PercentField(
        min_value=0.1, max_value=50, required=False, label=gettext_lazy("Give or take, per cent"),
        help_text=gettext_lazy("Two measurements in three would come as close. Left out: 5."),
    )  # fmt: skip
    how = forms.CharField(max_length=80, required=False, label=gettext_lazy("How it was measured"))
    note = forms.CharField(max_length=500, required=False, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, batches: Sequence[Batch], least_g: float = 0, **options: Any) -> None:
        super().__init__(*args, **options)
        self.least_g = least_g
        self.batches = {f"g_{batch.pk}": batch for batch in batches}
        for name, batch in self.batches.items():
            self.fields[name] = MeasureField(
                kind="mass_g", low=0.001, high=MOST_G, required=False,
                label=_("Dry pigment of %(batch)s") % {"batch": batch.name},
                help_text=_("Weighed without the jar. Left empty: none of it."),
            )  # fmt: skip
        self.order_fields(["name", *self.batches, "filled_at", "stands", "scale"])

    def clean(self) -> dict[str, Any]:
        """A jar holds pigment of at least one batch; a purity's doubt needs a purity."""
        found = super().clean() or {}
        put_in_g = sum(typed.value for name in self.batches if (typed := found.get(name)) is not None)
        if not self.errors and not put_in_g:
            raise forms.ValidationError(_("Nothing is in it yet: give the grams of at least one batch."))
        if not self.errors and put_in_g < self.least_g:
            raise forms.ValidationError(_("More was taken out of this jar than that."))
        if found.get("purity") is None and (found.get("give_or_take") is not None or found.get("how")):
            self.add_error("purity", _("Give the purity that was measured, or leave out how it was."))
        return found


class WeighForm(forms.Form):
    """A jar weighed again."""

    weighed = MeasureField(
        kind="mass_g", low=0, high=MOST_G, label=gettext_lazy("It weighs now"),
        help_text=gettext_lazy("Without the jar."),
    )  # fmt: skip
    weighed_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])
    dried = forms.BooleanField(
        required=False, label=gettext_lazy("It was dried before, as when it was filled"),
        help_text=gettext_lazy("Else the damp of the air is in it: 3 to 10 per cent."),
    )  # fmt: skip
    book = forms.BooleanField(
        required=False, initial=True, label=gettext_lazy("Book the difference: from now on this is what is left")
    )

    def __init__(self, *args: Any, jar: Jar, **options: Any) -> None:
        super().__init__(*args, **options)
        self.jar = jar

    def clean(self) -> dict[str, Any]:
        """Not before it was filled, and no more than twice what went in."""
        found = super().clean() or {}
        when, weighed = found.get("weighed_at"), found.get("weighed")
        if when is not None and when < self.jar.filled_at:
            self.add_error("weighed_at", _("That is before the jar was filled."))
        if weighed is not None and weighed.value > 2 * put_in_g(self.jar):
            self.add_error("weighed", _("That is more than twice what went in: was it weighed without the jar?"))
        return found


class TakeForm(forms.Form):
    """Pigment taken out of a jar."""

    taken = MeasureField(kind="mass_g", low=0.001, high=MOST_G, label=gettext_lazy("How much"))
    taken_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])
    what_for = forms.CharField(max_length=120, required=False, label=gettext_lazy("What for"))

    def __init__(self, *args: Any, jar: Jar, most_g: float, left_g: float, **options: Any) -> None:
        super().__init__(*args, **options)
        self.jar, self.most_g, self.left_g = jar, most_g, left_g

    def clean(self) -> dict[str, Any]:
        """No more than there is, within what the scale may be off; not before it was filled."""
        found = super().clean() or {}
        taken, when = found.get("taken"), found.get("taken_at")
        if taken is not None and taken.value > self.most_g:
            self.add_error(
                "taken",
                _("By what was weighed only %(left)s g are left in it. If there is more, change what went in.")
                % {"left": by_scale(max(self.left_g, 0.0))},
            )
        if when is not None and when < self.jar.filled_at:
            self.add_error("taken_at", _("That is before the jar was filled."))
        return found
