"""The checklist at the vat: a dip begins, a dip ends, one is typed, a slip is taken back."""

from __future__ import annotations

from collections.abc import Callable
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import dips as actions
from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.models import Garden, Ladder, LadderDip
from bluewright.science.base.errors import InputError
from bluewright.web.pages.ladders.vat_page import at_the_vat
from bluewright.web.pages.ladders.views.plain import a_ladder
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.respond import in_garden, posted, shown
from bluewright.web.ui.taps import TapForm, tapped, why_not
from bluewright.web.ui.typed_dip import TypedDip, moments_as_typed


@require_safe
@in_garden
def dips(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """What is to be done at the vat now."""
    return shown(request, "ladders/dips.html", at_the_vat(a_ladder(garden, key), now=timezone.now()))


@require_POST
@in_garden
def dip_in(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """All strips that still want a dip go in. The same tap sent twice is one dip."""
    row, form = a_ladder(garden, key), TapForm(request.POST)

    def strips_in() -> LadderDip:
        return actions.strips_in(row, key=form.cleaned_data["dip"], at=form.moment(), by=request.user)

    return _tapped(request, row, form, strips_in, undo="ladders.delete_dip")


@require_POST
@in_garden
def dip_out(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """They come out."""
    row, form = a_ladder(garden, key), TapForm(request.POST)

    def take_out() -> LadderDip:
        dip = get_object_or_404(LadderDip, pk=form.cleaned_data["dip"], ladder=row)
        return actions.take_out(dip, at=form.moment(), by=request.user)

    return _tapped(request, row, form, take_out, undo="ladders.back_in")


@require_POST
@in_garden
def back_in(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """They did not come out after all."""
    dip = get_object_or_404(LadderDip, pk=row, ladder=a_ladder(garden, key))
    try:
        actions.back_in(dip, by=request.user)
    except InputError as error:
        messages.warning(request, why_not(error))
    else:
        messages.info(request, _("They are in the vat still."))
    return redirect("ladders.dips", key=key)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add_dip(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """A dip that was not timed."""
    ladder = a_ladder(garden, key)
    form = TypedDip(posted(request), row=LadderDip(ladder=ladder))
    if request.method == "POST" and form.is_valid():
        dip = keep(form.written(), by=request.user)
        undo = reverse("ladders.delete_dip", kwargs={"key": key, "row": dip.pk})
        messages.success(request, _("Written down."), extra_tags=undo)
        return redirect("ladders.dips", key=key)
    return _typed(request, form, ladder)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change_dip(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct a dip's times."""
    ladder = a_ladder(garden, key)
    dip = get_object_or_404(LadderDip, pk=row, ladder=ladder)
    form = TypedDip(posted(request), row=dip, initial=moments_as_typed(dip))
    if request.method == "POST" and form.is_valid():
        correct(form.written(), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("ladders.dips", key=key)
    return _typed(request, form, ladder)


@require_POST
@in_garden
def delete_dip(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a dip out that never was."""
    mine = LadderDip.objects.filter(ladder=a_ladder(garden, key))
    return out_of(
        request,
        mine,
        key=key,
        row=row,
        page="ladders.dips",
        undo="ladders.restore_dip",
        said=_("The dip is taken out."),
    )


@require_POST
@in_garden
def restore_dip(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a dip back, unless the strips were in the vat then by another one."""
    mine = LadderDip.everything.filter(ladder=a_ladder(garden, key))
    try:
        actions.check(get_object_or_404(mine, pk=row))
    except InputError as error:
        messages.warning(request, why_not(error))
        return redirect("ladders.dips", key=key)
    return back_to(request, mine, key=key, row=row, page="ladders.dips")


def _tapped(
    request: HttpRequest, row: Ladder, form: TapForm, write: Callable[[], LadderDip], *, undo: str
) -> HttpResponse:
    return tapped(
        request, form, write, undo=lambda dip: reverse(undo, kwargs={"key": row.pk, "row": dip.pk}),
        back=redirect("ladders.dips", key=row.pk),
    )  # fmt: skip


def _typed(request: HttpRequest, form: TypedDip, ladder: Ladder) -> HttpResponse:
    return render(request, "ladders/dip.html", {"form": form, "row": ladder}, status=422 if form.errors else 200)
