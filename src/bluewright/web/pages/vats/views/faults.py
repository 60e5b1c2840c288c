"""What ails a vat: its looks filled in, what else was seen asked for, causes with their chances."""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import timedelta
from typing import Any, Final
from uuid import UUID

from django import forms
from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from bluewright.journal.bridge.stored import word
from bluewright.journal.bridge.vats import faults_of
from bluewright.journal.models import Garden, Vat
from bluewright.science.vat.faults_record import FaultRecord, SignName
from bluewright.web.pages.vats.asked import the_vat
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.respond import in_garden, shown
from bluewright.web.ui.typed import DecimalField, MeasureField
from bluewright.words.numbers import sentence
from bluewright.words.vat_faults import SIGNS, said

FRESH_FOR: Final = timedelta(days=2)
"""What was seen longer ago says nothing of what ails it now."""
READ: Final = frozenset({"ph_high", "ph_low", "cold"})
"""Signs that follow from a reading."""
LOOKED_AT: Final[tuple[SignName, ...]] = tuple(
    name for one in fields(FaultRecord) for name in SIGNS if name == one.name and name not in READ
)
FERMENTED: Final = frozenset({"foul", "lifeless"})
CUPS: Final = frozenset({"cup_clears", "fresh_tin_clears"})
"""Cups with a pinch of reductant: not of a fermented vat."""
BLUE, FEW, COPPERY = 1, 1, 2
"""From this level down the liquor is blue or green; from this up there are grains, or a film."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultPage:
    """What ails one vat."""

    key: str
    name: str
    answer: Answered


class FaultForm(forms.Form):
    """Signs: yes, no, or not looked at."""

    ph = DecimalField(min_value=0, max_value=14, required=False, label="pH")
    temp = MeasureField(kind="temp_c", low=0, high=100, required=False, label=gettext_lazy("Warmth"))

    def __init__(self, *args: Any, vat: Vat, **options: Any) -> None:
        super().__init__(*args, **options)
        for name in signs_of(vat):
            self.fields[name] = forms.ChoiceField(
                choices=[("yes", _("yes")), ("no", _("no")), ("", _("not looked at"))], required=False,
                widget=forms.RadioSelect, label=sentence(_(SIGNS[name])),
            )  # fmt: skip


def signs_of(vat: Vat) -> list[SignName]:
    """What can be looked at in a vat of its kind and with its fibre."""
    gone: set[str] = set() if vat.kind == "ferment" else set(FERMENTED)
    gone |= set(CUPS) if vat.kind == "ferment" else set()
    gone |= set() if vat.fibre in {"wool", "silk"} else {"harsh"}
    return [name for name in LOOKED_AT if name not in gone]


def already_seen(vat: Vat, *, since: Any) -> dict[str, Any]:
    """What the latest looks of a vat say, as the form takes it."""
    known: dict[str, Any] = {}
    for row in vat.readings.all():
        if row.taken_at < since:
            continue
        known |= {"ph": f"{row.ph:g}"} if row.ph is not None else {}
        known |= {"temp": row.temp_typed} if row.temp_c is not None else {}
        if row.liquor_look is not None:
            known["liquor_blue"] = "yes" if row.liquor_look <= BLUE else "no"
        if row.grains_seen is not None:
            known["grains"] = "yes" if row.grains_seen >= FEW else "no"
        if row.film is not None:
            known["no_film"] = "no" if row.film >= COPPERY else "yes"
        if row.strip_s is not None:
            known["blues_at_once"] = "yes" if row.strip_s <= 5 else "no"
    return known


@require_safe
@in_garden
def fault(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """What ails it, by what the address says was seen; at first by its own looks."""
    vat = the_vat(garden, key)
    known = already_seen(vat, since=timezone.now() - FRESH_FOR)
    form = FaultForm(request.GET if "ph" in request.GET else known, vat=vat)
    seen = {name: form.cleaned_data.get(name) for name in signs_of(vat)} if form.is_valid() else {}
    temp = form.cleaned_data.get("temp")
    record = FaultRecord(
        id=vat.name, kind=word(vat.kind), fibre=word(vat.fibre), ph=form.cleaned_data.get("ph"),
        temp_c=None if temp is None else temp.value, **{name: value == "yes" for name, value in seen.items() if value},
    )  # fmt: skip
    page = FaultPage(key=str(vat.pk), name=vat.name, answer=answered(said(faults_of(record))))
    return shown(request, "vats/fault.html", page, status=422 if form.errors else 200, form=form)
