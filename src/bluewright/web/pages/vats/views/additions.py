"""What goes into a vat: written down, corrected, taken out and brought back."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from bluewright.journal.actions import vats as actions
from bluewright.journal.models import Garden, Jar, Vat, VatAddition
from bluewright.science.base.errors import InputError
from bluewright.science.vat.order import HAZARDS
from bluewright.web.pages.vats import typed
from bluewright.web.pages.vats.asked import answered_now, jars_holding, the_vat
from bluewright.web.pages.vats.forms import AddForm, fitting
from bluewright.web.pages.vats.page import vat_page
from bluewright.web.pages.vats.plan_forms import AmountsForm
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.words.numbers import sentence
from bluewright.words.vat import SUBSTANCES, beside


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Something goes into a vat."""
    vat, jars = the_vat(garden, key), jars_holding(garden)
    first = {"added_at": timezone.localtime(), "jar": request.GET.get("jar", "")}
    form = AddForm(posted(request), vat=vat, jars=jars, initial=first)
    if request.method == "POST" and form.is_valid():
        one = typed.write_addition(form, VatAddition(vat=vat))
        try:
            actions.add([one], by=request.user)
        except InputError as error:
            form.add_error("jar", f"{sentence(error.what)}: {error.right}.")
        else:
            undo = reverse("vats.delete_addition", kwargs={"key": key, "row": one.row.pk})
            messages.success(request, _("Written down."), extra_tags=undo)
            return redirect("vats.show", key=key)
    return _add_page(request, form, vat)


@require_POST
@in_garden
def sharpen(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """What was advised went in, in the amounts that were really weighed."""
    vat = the_vat(garden, key)
    answer, trouble = answered_now(vat)
    parts = {} if answer is None else {part.what: part.mass_g.p50 for part in answer.parts}
    if not parts:
        messages.info(request, trouble or _("Nothing is to be added to it now."))
        return redirect("vats.show", key=key)
    form = AmountsForm(request.POST, amounts=parts)
    if form.is_valid():
        rows = actions.add(typed.new_additions(form, vat=vat, at=timezone.now()), by=request.user)
        undo = reverse("vats.delete_together", kwargs={"key": key, "row": rows[0].pk})
        messages.success(request, _("Written down."), extra_tags=undo)
        return redirect("vats.show", key=key)
    page = vat_page(vat, answer=answer, trouble=trouble, photos={}, steps={})
    return shown(request, "vats/show.html", page, status=422, sharpening=form)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change_addition(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct what went in."""
    vat = the_vat(garden, key)
    addition = next((one for one in vat.additions.all() if one.pk == row), None)
    if addition is None:
        addition = get_object_or_404(VatAddition, pk=row, vat=vat)
    form = AddForm(
        posted(request), vat=vat, jars=_with_its_own(jars_holding(garden), addition),
        initial=typed.addition_as_typed(addition),
    )  # fmt: skip
    if request.method == "POST" and form.is_valid():
        one = typed.write_addition(form, addition)
        try:
            actions.change_addition(one.row, jar=one.jar, by=request.user)
        except InputError as error:
            form.add_error("jar", f"{sentence(error.what)}: {error.right}.")
        else:
            messages.success(request, _("Corrected."))
            return redirect("vats.show", key=key)
    return _add_page(request, form, vat)


@require_POST
@in_garden
def delete_addition(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """It did not go in after all."""
    addition = get_object_or_404(VatAddition.objects.select_related("taken"), pk=row, vat=the_vat(garden, key))
    undo = reverse("vats.restore_addition", kwargs={"key": key, "row": row})
    taken_out(request, addition, said=_("Taken out."), undo=undo, delete=actions.delete_addition)
    return redirect("vats.show", key=key)


@require_POST
@in_garden
def restore_addition(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """It went in after all."""
    addition = get_object_or_404(VatAddition.everything.select_related("taken"), pk=row, vat=the_vat(garden, key))
    brought_back(request, addition, restore=actions.restore_addition)
    return redirect("vats.show", key=key)


@require_POST
@in_garden
def delete_together(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """None of what went in with it did after all: the undo of a sharpening in two parts."""
    addition = get_object_or_404(VatAddition, pk=row, vat=the_vat(garden, key))
    undo = reverse("vats.restore_together", kwargs={"key": key, "row": row})
    taken_out(request, addition, said=_("Taken out."), undo=undo, delete=actions.delete_together)
    return redirect("vats.show", key=key)


@require_POST
@in_garden
def restore_together(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """All that went in with it did after all."""
    addition = get_object_or_404(VatAddition.everything, pk=row, vat=the_vat(garden, key))
    brought_back(request, addition, restore=actions.restore_together)
    return redirect("vats.show", key=key)


def _add_page(request: HttpRequest, form: AddForm, vat: Vat) -> HttpResponse:
    page = vat_page(vat, answer=None, trouble="", photos={}, steps={})
    cares = [(_(SUBSTANCES[what]), beside(HAZARDS[what])) for what in fitting(vat) if HAZARDS[what]]
    return shown(request, "vats/add.html", page, status=422 if form.errors else 200, form=form, cares=cares)


def _with_its_own(jars: list[Jar], addition: VatAddition) -> list[Jar]:
    """The jars that can be chosen, with the one that an addition came out of."""
    own = None if addition.taken is None else addition.taken.jar
    return jars if own is None or any(jar.pk == own.pk for jar in jars) else [*jars, own]
