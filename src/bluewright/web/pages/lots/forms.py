"""What is asked of the jars: the job, and how they are to be mixed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.bridge.lots import Job
from bluewright.science.dyeing.lots_record import MOST_MIXED
from bluewright.science.vat.kinds import usual_kind
from bluewright.web.pages.vats.plan_forms import choices
from bluewright.web.ui.typed import DecimalField, MeasureField
from bluewright.words.cloth import FIBRES
from bluewright.words.numbers import by_scale
from bluewright.words.vat import KINDS

FIRST: Final = {"most_jars": 3, "volume": "40 L"}


class LotsForm(forms.Form):
    """A job."""

    job = forms.ChoiceField(required=False, label=gettext_lazy("For what"))
    pure_g = DecimalField(
        required=False, min_value=0.01, max_value=1_000_000, label=gettext_lazy("Pure indigo that it needs, g"),
        help_text=gettext_lazy("On the cloth, loose, and for the strength of the vat. Left out: what the job needs."),
    )  # fmt: skip
    volume = MeasureField(
        kind="volume_l", low=0.1, high=10_000, label=gettext_lazy("Vat that it goes into"),
    )  # fmt: skip
    fibre = forms.ChoiceField(required=False, label=gettext_lazy("For which fibre"))
    kind = forms.ChoiceField(
        required=False, label=gettext_lazy("Kind of vat"),
        help_text=gettext_lazy("Left out: dithionite for wool and silk, fructose for the rest."),
    )  # fmt: skip
    purity_pct = DecimalField(
        required=False, min_value=0.1, max_value=100, label=gettext_lazy("Purity that the mix is to have, per cent"),
        help_text=gettext_lazy("As that of an earlier one. Left out: any."),
    )  # fmt: skip
    most_jars = forms.IntegerField(
        min_value=1, max_value=MOST_MIXED, label=gettext_lazy("Jars opened at most"),
        widget=forms.TextInput({"inputmode": "numeric", "autocomplete": "off"}),
    )  # fmt: skip
    oldest_first = forms.BooleanField(required=False, label=gettext_lazy("Older jars go first"))

    def __init__(self, *args: Any, jobs: Sequence[Job], **options: Any) -> None:
        super().__init__(*args, **options)
        self.jobs = {one.key: one for one in jobs}
        job: Any = self.fields["job"]
        job.choices = [("", _("grams that are typed")), *((key, _said(one)) for key, one in self.jobs.items())]
        own: Any = self.fields
        own["fibre"].choices = [("", _("that of the job, or told later")), *choices(FIBRES)]
        own["kind"].choices = [("", _("the usual one for the fibre")), *choices(KINDS)]

    def clean(self) -> dict[str, Any]:
        """A job needs grams; the order of age leaves no choice of purity."""
        found = super().clean() or {}
        if not found.get("job") and not found.get("pure_g") and "pure_g" not in self.errors:
            self.add_error("pure_g", _("Say how much pure indigo it needs, or choose a job."))
        if found.get("oldest_first") and found.get("purity_pct"):
            self.add_error("purity_pct", _("The order of age leaves no choice of purity: leave one of them out."))
        return found

    def needs_g(self) -> float:
        """Pure indigo of the job of a valid form: what was typed, else what the job needs."""
        typed: float | None = self.cleaned_data["pure_g"]
        return typed or self.jobs[self.cleaned_data["job"]].pure_g

    def vat(self) -> dict[str, str]:
        """Fibre and kind of the vat of a valid form, as far as they are told; else the fibre decides the kind."""
        data, job = self.cleaned_data, self.jobs.get(self.cleaned_data["job"])
        fibre: Any = data["fibre"] or ("" if job is None else job.fibre)
        kind = data["kind"] or (usual_kind(fibre) if fibre else "")
        return {name: value for name, value in (("fibre", fibre), ("kind", kind)) if value}

    def name(self) -> str:
        """What the job is called."""
        job = self.jobs.get(self.cleaned_data["job"])
        return "" if job is None else job.name


def _said(job: Job) -> str:
    """A job in the list of choices; of a piece by what its depth is judged."""
    told = {"name": job.name, "grams": by_scale(job.pure_g), "like": job.like}
    if not job.piece:
        return _("%(name)s: %(grams)s g") % told
    if job.like:
        return _("%(name)s, like %(like)s: %(grams)s g") % told
    return _("%(name)s, if of medium depth: %(grams)s g") % told
