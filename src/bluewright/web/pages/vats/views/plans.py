"""A vat planned and made: the recipe of what an address asks for, and what was really weighed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final
from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from bluewright.journal.actions import vats as actions
from bluewright.journal.bridge.vats import recipe_of
from bluewright.journal.models import Garden
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.vat.recipe_record import VatRecipeAnswer
from bluewright.web.pages.vats import typed
from bluewright.web.pages.vats.asked import jars_holding
from bluewright.web.pages.vats.plan_forms import MadeForm, PlanForm, totals
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.respond import in_garden, posted, shown
from bluewright.web.ui.turning import Linked
from bluewright.words.measures import fitting
from bluewright.words.numbers import sentence
from bluewright.words.own_text import own_text
from bluewright.words.vat_recipe import said

FIRST: Final = {"kind": "fructose", "fibre": "cotton", "volume": "20 L", "depth": "medium", "opened": "opened"}
SCALES: Final = (0.5, 0.75, 1.5, 2.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPage:
    """A recipe, with ways to a smaller and a larger one."""

    answer: Answered | None
    scales: tuple[Linked, ...]
    mix: str
    """Where jars are mixed for it; empty without a recipe."""


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def plan(request: HttpRequest, garden: Garden) -> HttpResponse:
    """The recipe that the address asks for; what is posted is the vat as it was made by it."""
    jars = jars_holding(garden)
    asked = request.GET if "kind" in request.GET else None
    told = {name: value for name, value in request.GET.items() if name in PlanForm.base_fields}
    begun: dict[str, Any] = FIRST | {"jar": typed.first_jar(jars)} | ({"depth": ""} if "wanted" in told else {}) | told
    form = PlanForm(asked, jars=jars, initial=begun)
    found = _recipe(form)
    made: MadeForm | None = None
    if found is not None:
        first = {"started_at": timezone.localtime(), "covered": True}
        made = MadeForm(posted(request), amounts=totals(found), shares=form.shares(), initial=first)
        if request.method == "POST" and made.is_valid():
            vat = typed.new_vat(made, form, record=found.inputs, garden=garden)
            try:
                added = typed.new_additions(made, vat=vat, at=vat.started_at, plan=form)
                actions.make_vat(vat, added=added, by=request.user)
            except InputError as error:
                made.add_error(None if made.of_jars else "mass_powder", f"{sentence(error.what)}: {error.right}.")
            else:
                messages.success(request, _("%(vat)s is made.") % {"vat": vat.name})
                return redirect("vats.show", key=vat.pk)
    page = PlanPage(
        answer=None if found is None else answered(said(found)),
        scales=() if found is None else _scales(request.GET, found.inputs.volume_l),
        mix="" if found is None else _mix(found),
    )
    wrong = (form.is_bound and form.errors) or (made is not None and made.errors)
    return shown(request, "vats/plan.html", page, status=422 if wrong else 200, form=form, made=made)


def _recipe(form: PlanForm) -> VatRecipeAnswer | None:
    """The recipe of a form; None where nothing was asked, or with what is wrong said in the form."""
    if not form.is_bound or not form.is_valid():
        return None
    try:
        return recipe_of(form.record())
    except BluewrightError as error:
        form.add_error(None, own_text(str(error)))
        return None


def _mix(found: VatRecipeAnswer) -> str:
    """Which jars to mix for this vat: its pure indigo, litres, fibre and kind."""
    asked = {
        "pure_g": f"{found.pure_g.p50:.4g}", "volume": fitting(found.inputs.volume_l, "volume_l"),
        "fibre": found.inputs.fibre, "kind": found.inputs.kind,
    }  # fmt: skip
    return f"{reverse('lots.index')}?{urlencode(asked)}"


def _scales(asked: QueryDict, volume_l: float) -> tuple[Linked, ...]:
    """The same recipe for less and for more."""
    found = []
    for factor in SCALES:
        other = asked.copy()
        other["volume"] = fitting(volume_l * factor, "volume_l")
        other.pop("as", None)
        found.append(Linked(name=_("for %(volume)s") % {"volume": other["volume"]}, href=f"?{other.urlencode()}"))
    return tuple(found)
