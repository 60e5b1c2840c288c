"""Measured colours: each view reads the photo, measures what was drawn, shows it; a valid form is kept."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright import __version__
from bluewright.journal.actions import measuring as actions
from bluewright.journal.bridge.measuring import CardFound, MeasuredIn, card_found, measured_in
from bluewright.journal.models import Garden, Measured, Photo
from bluewright.journal.photos.kinds import KINDS
from bluewright.journal.photos.measuring import picture_of
from bluewright.journal.queries import measured as queries
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from bluewright.science.photo.record import PhotoAnswer
from bluewright.web.pages.measured.forms import MeasureForm, as_drawn, in_window
from bluewright.web.pages.measured.page import (
    MeasuredIndex,
    card_said,
    draw_page,
    found_of,
    measured_page,
    measured_row,
)
from bluewright.web.pages.photos.page import Subject, subject
from bluewright.web.ui.boxes import drawn
from bluewright.web.ui.found import or_404, the_photo
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.turning import turned
from bluewright.words.own_text import own_text


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What was measured, the newest first."""
    rows, pages = turned(queries.measured(garden), request.GET)
    page = MeasuredIndex(rows=tuple(measured_row(row) for row in rows), pages=pages)
    return shown(request, "measured/index.html", page)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def draw(request: HttpRequest, garden: Garden, photo: UUID) -> HttpResponse:
    """Draw boxes on a photo; what is posted is measured and kept."""
    of_photo, of = _photo(photo, garden)
    trouble, seen = _seen(of_photo, garden)
    form = MeasureForm(posted(request), initial=_like(request, garden) or in_window(seen))
    if request.method == "POST" and form.is_valid() and (found := _answered(form, of_photo)) is not None:
        answer = found.answer
        row = Measured(
            photo=of_photo,
            name=form.cleaned_data["name"],
            note=form.cleaned_data["note"],
            measured_at=timezone.now(),
            roles=["sample"] * len(answer.samples),
            record=dump(answer.inputs),
            answer={name: value for name, value in dump(answer).items() if name != "inputs"},
            card=found.card,
            card_off_de00=found.card_off_de00,
            program=__version__,
        )
        actions.keep_measured(row, by=request.user)
        undo = reverse("measured.delete", kwargs={"key": row.pk})
        messages.success(request, _("Written down."), extra_tags=undo)
        return redirect("measured.show", key=row.pk)
    page = draw_page(of_photo, of, trouble=trouble, card=card_said(seen), before=queries.of_photo(of_photo))
    said = _("Photo of %(what)s") % {"what": of.said}
    boxes = drawn(of_photo, live=reverse("measured.live", kwargs={"photo": photo}), said=said)
    status = 422 if form.errors else 200
    return shown(request, "measured/draw.html", page, status=status, form=form, boxes=boxes)


@require_POST
@in_garden
def live(request: HttpRequest, garden: Garden, photo: UUID) -> HttpResponse:
    """What the boxes drawn so far would give, as a piece of the page; nothing is written."""
    of_photo, _of = _photo(photo, garden)
    form = MeasureForm(request.POST)
    answer = _answered(form, of_photo) if form.is_valid() else None
    wrong = [text for errors in form.errors.values() for text in errors] if form.data.get("samples") else []
    found = found_of(answer.answer) if answer is not None else None
    html = render_to_string("measured/found.html", {"found": found, "wrong": wrong}, request)
    return JsonResponse({"html": html})


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One measurement, as it was found then."""
    row = _measured(key, garden)
    answer = read(PhotoAnswer, {**row.answer, "inputs": row.record})
    return shown(request, "measured/show.html", measured_page(row, _subject(row.photo, garden), answer))


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a measurement out."""
    row = _measured(key, garden)
    taken_out(request, row, said=_("Taken out."), undo=reverse("measured.restore", kwargs={"key": key}))
    return redirect("photos.show", key=row.photo.pk)


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a measurement back."""
    row = get_object_or_404(Measured.everything, pk=key, photo__garden=garden, photo__deleted_at=None)
    return redirect("measured.show", key=key) if brought_back(request, row) else redirect("measured.index")


def _answered(form: MeasureForm, photo: Photo) -> MeasuredIn | None:
    """The colours in the boxes of a valid form; None, with what is wrong in the form, where there is no answer."""
    try:
        return measured_in(photo, form.record())
    except InputError as error:
        field = error.where.partition("[")[0].partition(".")[0]
        form.add_error(field if field in form.fields else None, own_text(f"{error.what}; {error.right}."))
        return None


def _like(request: HttpRequest, garden: Garden) -> dict[str, object]:
    """The boxes of an earlier measurement that are to be drawn again."""
    try:
        row = queries.one(UUID(request.GET["like"]), of=garden)
    except (KeyError, ValueError):
        row = None
    return as_drawn(row.record) if row is not None else {}


def _seen(photo: Photo, garden: Garden) -> tuple[str, CardFound]:
    """Why nothing can be measured in a photo, empty where it can; and the card that lies in it."""
    try:
        picture = picture_of(photo)
    except InputError as error:
        return own_text(f"{error.what}; {error.right}."), CardFound()
    return "", card_found(picture, of=garden)


def _photo(key: UUID, garden: Garden) -> tuple[Photo, Subject]:
    found = the_photo(garden, key)
    return found, _subject(found, garden)


def _subject(photo: Photo, garden: Garden) -> Subject:
    row = KINDS[photo.about_kind].row(photo.about_id, of=garden)
    return subject(photo.about_kind, or_404(row, "thing in this garden"))


def _measured(key: UUID, garden: Garden) -> Measured:
    return or_404(queries.one(key, of=garden), "measured photo in this garden")
