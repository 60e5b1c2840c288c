"""The strips of a ladder: their masses and colours, typed or from a photo; and that forecasts may learn from them."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from bluewright.journal.actions import ladders as actions
from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Garden, LadderRung
from bluewright.journal.queries import measured as measurings
from bluewright.journal.queries.ladders import is_measured
from bluewright.web.pages.ladders.forms import ColoursForm, StripForm, StripsForm, strip_said
from bluewright.web.pages.ladders.views.plain import a_ladder
from bluewright.web.pages.measured.page import chips
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.found import or_404
from bluewright.web.ui.respond import in_garden, posted


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def strips(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Masses and colours of all strips, typed."""
    row = a_ladder(garden, key)
    form = StripsForm(posted(request), ladder=row)
    if request.method == "POST" and form.is_valid():
        actions.correct_strips(form.written(), by=request.user)
        messages.success(request, _("Written down."))
        return redirect("ladders.show", key=key)
    context = {"form": form, "row": row, "strips": [(strip_said(rung.dips), fields) for rung, fields in form.rows()]}
    return render(request, "ladders/strips.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add_strip(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One strip more."""
    row = a_ladder(garden, key)
    form = StripForm(posted(request), initial={"dips": request.GET.get("dips", "")})
    if request.method == "POST" and form.is_valid():
        strip = keep(LadderRung(ladder=row, dips=form.cleaned_data["dips"]), by=request.user)
        undo = reverse("ladders.delete_strip", kwargs={"key": key, "row": strip.pk})
        messages.success(request, _("Written down."), extra_tags=undo)
        return redirect("ladders.show", key=key)
    return render(request, "ladders/add_strip.html", {"form": form, "row": row}, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete_strip(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a strip out."""
    mine, said = LadderRung.objects.filter(ladder=a_ladder(garden, key)), _("The strip is taken out.")
    return out_of(request, mine, key=key, row=row, page="ladders.show", undo="ladders.restore_strip", said=said)


@require_POST
@in_garden
def restore_strip(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a strip back."""
    mine = LadderRung.everything.filter(ladder=a_ladder(garden, key))
    return back_to(request, mine, key=key, row=row, page="ladders.show")


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def colours(request: HttpRequest, garden: Garden, key: UUID, photo: UUID) -> HttpResponse:
    """Which sample of a measured photo is which strip; each becomes a swatch."""
    row = a_ladder(garden, key)
    found = or_404(measurings.one(photo, of=garden), "measured photo in this garden")
    form = ColoursForm(posted(request), ladder=row, measured=found)
    if request.method == "POST" and form.is_valid():
        actions.colour_strips(form.samples(), ladder=row, measured=found, by=request.user)
        messages.success(request, _("Written down."))
        return redirect("ladders.show", key=key)
    context = {"form": form, "row": row, "chips": chips(sample["lab"] for sample in found.answer["samples"])}
    return render(request, "ladders/colours.html", context, status=422 if form.errors else 200)


@require_POST
@in_garden
def done(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Forecasts learn from a ladder from now on; or, of one that is done, no more."""
    row = a_ladder(garden, key)
    if row.done_at is None and not any(is_measured(rung) for rung in row.rungs.all()):
        messages.warning(request, _("No strip is measured yet: write down colours or masses first."))
        return redirect("ladders.strips", key=key)
    row.done_at = None if row.done_at is not None else timezone.now()
    keep(row, by=request.user)
    said = _("Forecasts of this fibre learn from it now.") if row.done_at else _("Forecasts leave it out again.")
    messages.success(request, said, extra_tags=reverse("ladders.done", kwargs={"key": key}))
    return redirect("ladders.show", key=key)
