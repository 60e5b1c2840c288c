"""Intake: a file is sent, a person says how to read it, then it is written whole."""

from __future__ import annotations

from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import intakes as actions
from bluewright.journal.loggers import waiting as files
from bluewright.journal.loggers.columns import Columns, guess, signature
from bluewright.journal.loggers.lines import first_lines, lines
from bluewright.journal.loggers.reading import read_all
from bluewright.journal.models import Garden, Intake, Steep
from bluewright.journal.queries import intakes as queries
from bluewright.journal.queries.history import histories
from bluewright.science.base.errors import InputError
from bluewright.web.pages.intake.forms import ColumnsForm, FileForm
from bluewright.web.pages.intake.page import (
    AIR_LIMITS_C,
    TUB_LIMITS_C,
    index_page,
    intake_page,
    of_what,
    preview_page,
)
from bluewright.web.ui.found import or_404
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.words.numbers import sentence


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """All files that were brought in."""
    return shown(request, "intake/index.html", index_page(list(queries.intakes(garden))))


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Send a file."""
    steeps, zone = list(Steep.objects.filter(garden=garden)), ZoneInfo(garden.time_zone)
    sent = request.FILES if request.method == "POST" else None
    form = FileForm(
        posted(request), sent, garden=garden, steeps=steeps, zone=zone, initial={"of": request.GET.get("of", "")}
    )
    if request.method == "POST" and form.is_valid():
        file, steep = form.cleaned_data["file"], form.steeps.get(form.cleaned_data["of"])
        key = None
        try:
            key = files.keep_waiting(file.chunks(), name=file.name, garden=garden, steep=steep)
            _guessed(files.waiting(key, of=garden), garden)
        except InputError as error:
            if key is not None:
                files.drop(key)
            form.add_error("file", f"{sentence(error.what)}: {error.right}.")
        else:
            return redirect("intake.preview", key=key)
    return render(request, "intake/add.html", {"form": form}, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def preview(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The first lines, how they would be read, and the form that says so; `do=write` brings all of it in."""
    file = files.waiting(key, of=garden)
    if file is None:
        if Intake.everything.filter(pk=key, garden=garden).exists():
            return redirect("intake.show", key=key)
        raise Http404("there is no such file waiting in this garden")
    sample, columns, remembered = _guessed(file, garden, delimiter=request.POST.get("delimiter", ""))
    form = ColumnsForm(posted(request), sample=sample, columns=columns, garden=garden, of_air=file.steep_key is None)
    if request.method == "POST" and form.is_valid():
        columns = form.columns()
        if request.POST.get("do") == "write":
            try:
                _write(request, file, columns, garden=garden, told=signature(sample, columns))
            except InputError as error:
                form.add_error(None, f"{sentence(error.what)}: {error.right}.")
            else:
                return redirect("intake.show", key=key)
    ready = not set(form.errors) - {"__all__"} if form.is_bound else _is_told(columns)
    unwritten = _row(file, garden)
    page = preview_page(
        str(key), name=file.name, of=of_what(unwritten), sample=sample, columns=columns, ready=ready,
        remembered=remembered and not form.is_bound, garden=garden, limits_c=_limits(file),
    )  # fmt: skip
    return shown(request, "intake/preview.html", page, form=form, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """What became of a file."""
    intake = or_404(queries.intake(key, of=garden), "intake in this garden")
    return shown(request, "intake/show.html", intake_page(intake, steps=histories([intake])[intake.pk]))


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a file out with all its temperatures."""
    intake = get_object_or_404(Intake, pk=key, garden=garden)
    said = _("%(file)s is taken out, with its temperatures.") % {"file": intake.file_name}
    undo = reverse("intake.restore", kwargs={"key": key})
    taken_out(request, intake, said=said, undo=undo, delete=actions.delete_intake)
    return redirect("intake.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a file back with its temperatures."""
    intake = get_object_or_404(Intake.everything, pk=key, garden=garden)
    back = brought_back(request, intake, restore=actions.restore_intake)
    return redirect("intake.show", key=key) if back else redirect("intake.index")


def _guessed(file: Any, garden: Garden, *, delimiter: str = "") -> tuple[list[str], Columns, bool]:
    """The first lines, how to read them, and whether that was confirmed for a file like it before."""
    sample = first_lines(file.path, file.encoding)
    try:
        columns = guess(sample, delimiter=delimiter)
    except InputError:
        columns = guess(sample)
    last = queries.read_last(signature(sample, columns), of=garden)
    if last is None:
        return sample, columns, False
    return sample, Columns(**last | {"first_line": columns.first_line}), True


def _write(request: HttpRequest, file: Any, columns: Columns, *, garden: Garden, told: str) -> None:
    """Read the whole file and write it."""
    low_c, high_c = _limits(file)
    zone = ZoneInfo(garden.time_zone)
    found = read_all(lines(file.path, file.encoding), columns, zone=zone, low_c=low_c, high_c=high_c)
    intake = _row(file, garden)
    intake.columns, intake.signature = columns.plain(), told
    actions.bring_in(intake, found, by=request.user)
    files.drop(file.key)
    undo = reverse("intake.delete", kwargs={"key": file.key})
    messages.success(request, _("%(file)s is brought in.") % {"file": file.name}, extra_tags=undo)


def _row(file: Any, garden: Garden) -> Intake:
    steep = get_object_or_404(Steep, pk=file.steep_key, garden=garden) if file.steep_key else None
    return Intake(pk=file.key, garden=garden, steep=steep, file_name=file.name)


def _is_told(columns: Columns) -> bool:
    """Whether nothing is left open of how to read a file."""
    return bool(columns.order and columns.zone and (columns.unit or columns.temp_column is None))


def _limits(file: Any) -> tuple[float, float]:
    return TUB_LIMITS_C if file.steep_key else AIR_LIMITS_C
