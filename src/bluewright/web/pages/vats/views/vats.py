"""Vats: each view reads the journal, builds a page, shows it; each post is an action and a redirect."""

from __future__ import annotations

from typing import Final
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import vats as actions
from bluewright.journal.models import Garden, Vat
from bluewright.journal.queries import photos, vats
from bluewright.journal.queries.history import histories
from bluewright.science.base.errors import InputError
from bluewright.web.pages.vats import typed
from bluewright.web.pages.vats.asked import answered_now, the_vat
from bluewright.web.pages.vats.forms import NEW, EndForm, VatForm
from bluewright.web.pages.vats.kept import known_vats
from bluewright.web.pages.vats.page import vat_page, vats_page
from bluewright.web.pages.vats.plan_forms import AmountsForm
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.turning import turned
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.numbers import sentence

MOST_STANDING: Final = 30
"""So many vats, each with its picture, stand on one page."""


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Vats: those that stand as they would look, with what to do; then those that were ended."""
    standing = known_vats(garden, timezone.now(), most=MOST_STANDING)
    rows, pages = turned(vats.ended(garden), request.GET)
    return shown(request, "vats/index.html", vats_page(standing, rows), pages=pages)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One vat: how it stands, what to do, its story."""
    vat = the_vat(garden, key)
    answer, trouble = answered_now(vat)
    page = vat_page(
        vat, answer=answer, trouble=trouble, photos=photos.of_things([vat.pk], of=garden),
        steps=histories([vat, *vat.additions.all(), *vat.poured.all(), *vat.readings.all()]),
    )  # fmt: skip
    parts = {} if answer is None else {part.what: part.mass_g.p50 for part in answer.parts}
    form = AmountsForm(amounts=parts) if parts and vat.ended_at is None else None
    return shown(request, "vats/show.html", page, sharpening=form)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of how a vat stands is what it is."""
    vat = the_vat(garden, key)
    return why_shown(
        request, answered_now(vat)[0], figure=figure, address=why_address("vats.why", key=key),
        back=Link(to=reverse("vats.show", kwargs={"key": key}), name=vat.name),
        missing=_("Nothing can be said of %(vat)s now.") % {"vat": vat.name},
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Correct what was written of a vat."""
    vat = the_vat(garden, key)
    form = VatForm(posted(request), initial=typed.vat_as_typed(vat))
    if request.method == "POST" and form.is_valid():
        try:
            actions.change_vat(typed.write_vat(form, vat), by=request.user)
        except InputError as error:
            form.add_error(error.where, f"{sentence(error.what)}: {error.right}.")
        else:
            messages.success(request, _("Corrected."))
            return redirect("vats.show", key=key)
    return render(request, "vats/change.html", {"form": form, "key": key}, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a vat out, with its looks; its powder is back in the jars."""
    vat = get_object_or_404(Vat, pk=key, garden=garden)
    said = _("%(vat)s is taken out.") % {"vat": vat.name}
    undo = reverse("vats.restore", kwargs={"key": key})
    gone = taken_out(request, vat, said=said, undo=undo, delete=actions.delete_vat)
    return redirect("vats.index") if gone else redirect("vats.show", key=key)


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a vat back with its powder."""
    vat = get_object_or_404(Vat.everything, pk=key, garden=garden)
    back = brought_back(request, vat, restore=actions.restore_vat)
    return redirect("vats.show", key=key) if back else redirect("vats.index")


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def end(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """A vat is no more: what became of it."""
    vat = the_vat(garden, key)
    if vat.ended_at is not None:
        messages.info(request, _("%(vat)s is ended already.") % {"vat": vat.name})
        return redirect("vats.show", key=key)
    others = [other for other in vats.standing(garden) if other.pk != vat.pk]
    form = EndForm(posted(request), vat=vat, others=others, initial={"ended_at": timezone.localtime()})
    answer, trouble = answered_now(vat)
    if request.method == "POST" and form.is_valid():
        chosen = form.cleaned_data["into"]
        at = form.cleaned_data["ended_at"]
        into = form.others.get(chosen)
        if chosen == NEW:
            went = form.cleaned_data["poured"]
            into = typed.poured_into(
                vat, name=form.cleaned_data["new_name"], at=at, litres=0.0 if went is None else went.value
            )
        if into is not None and answer is None:
            form.add_error("into", _("What is in it cannot be said: %(why)s") % {"why": trouble})
        else:
            ended, heel = typed.ended(form, vat), None
            if into is not None and answer is not None:
                heel = typed.heel(form, ended, into=into, stood=answer)
            actions.end_vat(ended, heel=heel, by=request.user)
            undo = reverse("vats.go_on", kwargs={"key": key})
            messages.success(request, _("%(vat)s is ended.") % {"vat": vat.name}, extra_tags=undo)
            return redirect("vats.show", key=vat.pk if into is None else into.pk)
    page = vat_page(vat, answer=answer, trouble=trouble, photos={}, steps={})
    return shown(request, "vats/end.html", page, status=422 if form.errors else 200, form=form)


@require_POST
@in_garden
def go_on(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """A vat was not ended after all."""
    actions.go_on(get_object_or_404(Vat, pk=key, garden=garden), by=request.user)
    messages.success(request, _("It goes on."))
    return redirect("vats.show", key=key)
