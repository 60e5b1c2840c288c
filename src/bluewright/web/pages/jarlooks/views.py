"""Looks at jars: each view reads the tub or batch, measures what was drawn, shows it; a valid form is kept."""

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
from bluewright.journal.bridge.jar_looks import jar_record, looked_at, read_as
from bluewright.journal.bridge.measuring import measured_in
from bluewright.journal.models import Batch, Garden, JarLook, Measured, Photo, Steep
from bluewright.journal.photos.measuring import picture_of
from bluewright.journal.queries import batches, photos, tubs
from bluewright.journal.queries.measured import jar_looks
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump
from bluewright.science.photo.foam import blue_frac
from bluewright.science.photo.jar_record import JarAnswer
from bluewright.web.pages.jarlooks.forms import JarForm, PhotoForm, first_typed
from bluewright.web.pages.jarlooks.page import (
    add_page,
    answer_of,
    how_jar_page,
    how_light_page,
    jar_page,
    of_said,
)
from bluewright.web.ui.answered import answered
from bluewright.web.ui.boxes import drawn
from bluewright.web.ui.found import or_404, the_photo
from bluewright.web.ui.photos import keep_photos, sent_files
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.jar_look import said
from bluewright.words.own_text import own_text


@require_safe
@in_garden
def how_jar(request: HttpRequest, garden: Garden) -> HttpResponse:  # noqa: ARG001 - needs an open garden
    """How to stand jars and light for the jar test, on one sheet."""
    return shown(request, "jarlooks/how.html", how_jar_page())


@require_safe
@in_garden
def how_light(request: HttpRequest, garden: Garden) -> HttpResponse:  # noqa: ARG001 - needs an open garden
    """How to light the jar for the two-light test, on one sheet."""
    return shown(request, "jarlooks/how.html", how_light_page())


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, kind: str, key: UUID) -> HttpResponse:
    """The jars of a tub or a batch: what the latest says, its course, every look."""
    of = _of(kind, key, garden)
    return shown(request, "jarlooks/show.html", jar_page(of, jar_looks(of)))


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, kind: str, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the jar is so."""
    of = _of(kind, key, garden)
    address = why_address("jarlooks.why", kind=kind, key=key)
    back = Link(to=reverse("jarlooks.show", kwargs={"kind": kind, "key": key}), name=of.name)
    missing = _("There is no look at a jar yet.")
    return why_shown(request, answer_of(of, jar_looks(of)), figure=figure, address=address, back=back, missing=missing)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden, kind: str, key: UUID) -> HttpResponse:
    """Take a photo of the jars, or choose one that is there."""
    of = _of(kind, key, garden)
    there = photos.of_things([of.pk], of=garden).get(of.pk, [])
    form = PhotoForm(posted(request), sent_files(request))
    if request.method == "POST" and form.is_valid():
        ready = form.cleaned_data["photos"]
        keep_photos(request, ready, garden=garden, kind=kind, key=key)
        sent = photos.by_bytes(ready[0].sha256, of_thing=key, of=garden)
        if sent is not None:
            return redirect("jarlooks.draw", kind=kind, key=key, photo=sent.pk)
        return redirect("jarlooks.add", kind=kind, key=key)
    page = add_page(of, list(reversed(there)))
    return shown(request, "jarlooks/add.html", page, status=422 if form.errors else 200, form=form)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def draw(request: HttpRequest, garden: Garden, kind: str, key: UUID, photo: UUID) -> HttpResponse:
    """Draw boxes on the jars; what is posted is measured and kept, with what a forecast reads of it."""
    of, of_photo = _of(kind, key, garden), the_photo(garden, photo)
    before = next(reversed(jar_looks(of)), None)
    form = JarForm(posted(request), of=of, initial=first_typed(of, of_photo, before))
    if request.method == "POST" and form.is_valid():
        made = _look(form, of_photo)
        if made is not None:
            return _kept(request, form, *made, kind=kind)
    trouble = "" if request.method == "POST" else _trouble(of_photo)
    address = reverse("jarlooks.live", kwargs={"kind": kind, "key": key, "photo": photo})
    boxes = drawn(of_photo, live=address, said=_("Photo of the jars of %(what)s") % {"what": of.name})
    status = 422 if form.errors else 200
    return shown(request, "jarlooks/draw.html", of_said(of), status=status, form=form, boxes=boxes, trouble=trouble)


@require_POST
@in_garden
def live(request: HttpRequest, garden: Garden, kind: str, key: UUID, photo: UUID) -> HttpResponse:
    """What the boxes drawn so far would say, as a piece of the page; nothing is written."""
    of, of_photo = _of(kind, key, garden), the_photo(garden, photo)
    form = JarForm(request.POST, of=of)
    made = _look(form, of_photo) if form.is_valid() else None
    found = answered(said(made[1])) if made is not None else None
    drawn_both = bool(form.data.get("jar") and form.data.get("water"))
    wrong = [f"{form[name].label}: {text}" if name in form.fields else text
             for name, texts in form.errors.items() for text in texts] if drawn_both else []  # fmt: skip
    html = render_to_string("jarlooks/found.html", {"found": found, "wrong": wrong}, request)
    return JsonResponse({"html": html})


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, kind: str, key: UUID, row: UUID) -> HttpResponse:
    """Take a look at a jar out, and what a forecast read of it."""
    look = get_object_or_404(JarLook, pk=row, **_mine(_of(kind, key, garden)))
    undo = reverse("jarlooks.restore", kwargs={"kind": kind, "key": key, "row": row})
    taken_out(request, look, said=_("Taken out."), undo=undo, delete=actions.delete_jar_look)
    return redirect("jarlooks.show", kind=kind, key=key)


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, kind: str, key: UUID, row: UUID) -> HttpResponse:
    """Bring it back."""
    look = get_object_or_404(JarLook.everything, pk=row, **_mine(_of(kind, key, garden)))
    brought_back(request, look, restore=actions.restore_jar_look)
    return redirect("jarlooks.show", kind=kind, key=key)


def _look(form: JarForm, photo: Photo) -> tuple[JarLook, JarAnswer] | None:
    """The look of a valid form with what it says, not written; None, with what is wrong in the form."""
    try:
        record = form.record()
        found = measured_in(photo, record)
        measured = Measured(
            photo=photo,
            name=str(form.of),
            measured_at=timezone.now(),
            roles=list(form.roles()),
            record=dump(record),
            answer={name: value for name, value in dump(found.answer).items() if name != "inputs"},
            card=found.card,
            card_off_de00=found.card_off_de00,
            program=__version__,
        )
        look = form.write(JarLook(measured=measured, **_mine(form.of)))
        foam = form.cleaned_data["foam"]
        look.foam_blue_frac = blue_frac(picture_of(photo), foam[0]) if foam else None
        return look, looked_at(jar_record([look], name=form.of.name))
    except InputError as error:
        form.add_error(_field(form, error), own_text(f"{error.what}; {error.right}."))
        return None


def _field(form: JarForm, error: InputError) -> str | None:
    """The field that an error of the science is about."""
    if error.where.startswith("samples["):
        return form.roles()[int(error.where[8:].partition("]")[0])]
    name = error.where.partition(".")[0]
    return name if name in form.fields else None


def _kept(request: HttpRequest, form: JarForm, look: JarLook, answer: JarAnswer, *, kind: str) -> HttpResponse:
    typed = form.cleaned_data
    alkaline = look.after_min > 0 or isinstance(form.of, Batch)
    row = None
    if typed.get("to_forecast") and alkaline:
        pours, minutes = typed.get("aired_pours"), typed.get("aired_min")
        row = read_as(look, answer.looks[0], after_pours=pours, after_min=minutes)
    actions.add_jar_look(look, read_as=row, by=request.user)
    undo = reverse("jarlooks.delete", kwargs={"kind": kind, "key": form.of.pk, "row": look.pk})
    messages.success(request, _("Written down."), extra_tags=undo)
    return redirect("jarlooks.show", kind=kind, key=form.of.pk)


def _mine(of: Steep | Batch) -> dict[str, Steep | Batch]:
    return {"steep": of} if isinstance(of, Steep) else {"batch": of}


def _of(kind: str, key: UUID, garden: Garden) -> Steep | Batch:
    if kind == "tub":
        return or_404(tubs.tub(key, of=garden), "tub in this garden")
    return or_404(batches.batch(key, of=garden) if kind == "batch" else None, "tub or batch in this garden")


def _trouble(photo: Photo) -> str:
    try:
        picture_of(photo)
    except InputError as error:
        return own_text(f"{error.what}; {error.right}.")
    return ""
