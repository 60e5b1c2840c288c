"""Photos: added to a thing, shown, served, taken out and brought back."""

from __future__ import annotations

from typing import Final
from uuid import UUID

from django import forms
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.models import Garden, Photo
from bluewright.journal.photos import store
from bluewright.journal.photos.kinds import KINDS
from bluewright.web.pages.photos.page import Subject, photo_page, subject
from bluewright.web.ui.found import or_404, the_photo
from bluewright.web.ui.photos import PhotosField, how_many, keep_photos, sent_files
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out

SERVED: Final[dict[int, store.Size]] = {1600: "1600", 320: "320"}
FOR_A_YEAR: Final = "private, max-age=31536000, immutable"
"""A picture never changes under its address; only the browser that asked may keep it."""


class PhotosForm(forms.Form):
    """Photos of one thing."""

    photos = PhotosField()


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden, kind: str, thing: UUID) -> HttpResponse:
    """Add photos to a thing."""
    of = _subject(kind, thing, garden)
    form = PhotosForm(posted(request), sent_files(request))
    if request.method == "POST" and form.is_valid():
        ready = form.cleaned_data["photos"]
        if many := keep_photos(request, ready, garden=garden, kind=kind, key=thing):
            messages.success(request, _("%(photos)s written down.") % {"photos": how_many(many)})
        return redirect(of.page)
    return render(request, "photos/add.html", {"form": form, "of": of}, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One photo: what it is of and when."""
    photo = the_photo(garden, key)
    return shown(request, "photos/show.html", photo_page(photo, _subject(photo.about_kind, photo.about_id, garden)))


@require_safe
@in_garden
def image(_request: HttpRequest, garden: Garden, key: UUID, size: int) -> HttpResponse:
    """The picture itself, in one of two sizes."""
    photo = the_photo(garden, key)
    if size not in SERVED:
        raise Http404
    try:
        picture = store.path(photo, SERVED[size]).read_bytes()
    except FileNotFoundError:
        raise Http404 from None
    return HttpResponse(
        picture,
        content_type="image/jpeg",
        headers={"Cache-Control": FOR_A_YEAR, "X-Content-Type-Options": "nosniff", "Content-Disposition": "inline"},
    )


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a photo out; its files stay as long as it can be brought back."""
    photo = the_photo(garden, key)
    of = _subject(photo.about_kind, photo.about_id, garden)
    taken_out(request, photo, said=_("The photo is taken out."), undo=reverse("photos.restore", kwargs={"key": key}))
    return redirect(of.page)


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a photo back that was taken out."""
    photo = get_object_or_404(Photo.everything, pk=key, garden=garden)
    of = _subject(photo.about_kind, photo.about_id, garden)
    brought_back(request, photo, said=_("The photo is back."))
    return redirect(of.page)


def _subject(kind: str, key: UUID, garden: Garden) -> Subject:
    """What a photo is of; 404 where the garden has no such thing."""
    row = KINDS[kind].row(key, of=garden) if kind in KINDS else None
    return subject(kind, or_404(row, "thing in this garden"))
