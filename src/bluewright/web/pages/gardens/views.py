"""Gardens."""

from __future__ import annotations

from uuid import UUID
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseBase, StreamingHttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal import demo as invented
from bluewright.journal import transfer
from bluewright.journal.actions import beds as actions
from bluewright.journal.models import Garden
from bluewright.journal.queries import gardens
from bluewright.journal.queries.history import histories
from bluewright.journal.queries.taken_out import taken_out as all_taken_out
from bluewright.science.base.errors import InputError
from bluewright.web.access import Standing
from bluewright.web.pages.gardens.forms import FileForm, GardenChangeForm, GardenForm, as_typed, write_garden
from bluewright.web.pages.gardens.page import taken_out_page
from bluewright.web.ui.context import OPEN_GARDEN
from bluewright.web.ui.history import history, written
from bluewright.web.ui.respond import in_garden, posted, shown


@require_http_methods(["GET", "HEAD", "POST"])
def begin(request: HttpRequest) -> HttpResponse:
    """Begin a garden, or open one that there is."""
    form = GardenForm(posted(request))
    if request.method == "POST" and form.is_valid():
        garden = actions.begin_garden(Garden(**form.cleaned_data), by=request.user)
        request.session[OPEN_GARDEN] = str(garden.pk)
        return redirect("today")
    return _page(request, form=form, file_form=FileForm())


@require_POST
def open_one(request: HttpRequest, key: UUID) -> HttpResponse:
    """Open a garden in this browser."""
    request.session[OPEN_GARDEN] = str(get_object_or_404(Garden, pk=key).pk)
    return redirect("today")


@require_safe
def take_out(request: HttpRequest, key: UUID) -> HttpResponseBase:
    """The whole garden as one JSON file; with `?photos=no` without its photos."""
    garden = get_object_or_404(Garden, pk=key)
    name = slugify(garden.name) or "garden"
    parts = transfer.parts(garden, photos=request.GET.get("photos") != "no")
    response = StreamingHttpResponse(parts, content_type="application/json; charset=utf-8")
    response["Content-Disposition"] = f'attachment; filename="{name}-{timezone.now():%Y-%m-%d}.json"'
    return response


@require_POST
def bring_in(request: HttpRequest) -> HttpResponse:
    """A garden from such a file, and open it."""
    file_form = FileForm(request.POST, request.FILES)
    if file_form.is_valid():
        try:
            garden = transfer.bring_in(file_form.cleaned_data["file"].read(), by=request.user)
        except InputError as error:
            file_form.add_error("file", _("%(why)s. Nothing was written.") % {"why": error})
        else:
            messages.success(request, _("%(garden)s is here.") % {"garden": garden.name})
            request.session[OPEN_GARDEN] = str(garden.pk)
            return redirect("today")
    return _page(request, form=GardenForm(), file_form=file_form)


@require_POST
def demo(request: HttpRequest) -> HttpResponse:
    """Open the invented garden, with a tub that has been steeping for two days; fill it in unless it is there."""
    garden = gardens.invented() or invented.plant(now=timezone.now(), by=request.user)
    request.session[OPEN_GARDEN] = str(garden.pk)
    return redirect("today")


@require_http_methods(["GET", "HEAD", "POST"])
def change(request: HttpRequest, key: UUID) -> HttpResponse:
    """Correct what was written of a garden, and say how high it lies and what its water is."""
    garden = get_object_or_404(Garden.objects.select_related("made_by"), pk=key)
    form = GardenChangeForm(posted(request), garden=garden, initial=as_typed(garden))
    if request.method == "POST" and form.is_valid():
        actions.change_garden(write_garden(form, garden), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("gardens.change", key=key)
    zone = ZoneInfo(garden.time_zone)
    told = {"written": written(garden, zone), "history": history(garden, histories([garden])[garden.pk], zone)}
    context = {"form": form, "one": garden, "page": told}
    return render(request, "gardens/change.html", context, status=422 if form.errors else 200)


@require_safe
@in_garden
def taken_out(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What was taken out in the last thirty days, each with its way back."""
    standing: Standing = request.standing  # type: ignore[attr-defined]
    page = taken_out_page(garden, all_taken_out(garden), now=timezone.now(), may_post=standing.may_post)
    return shown(request, "gardens/taken_out.html", page)


def _page(request: HttpRequest, *, form: GardenForm, file_form: FileForm) -> HttpResponse:
    """The page of gardens, with its two forms."""
    found = gardens.gardens()
    context = {"form": form, "file_form": file_form, "gardens": found, "has_demo": any(g.invented for g in found)}
    return render(request, "gardens/begin.html", context, status=422 if form.errors or file_form.errors else 200)
