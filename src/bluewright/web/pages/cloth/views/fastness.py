"""Home tests of a piece: by eye or by photo, corrected, out and back."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.models import Garden, HomeTest, Piece
from bluewright.web.pages.cloth.fastness_forms import HomeTestForm, PhotoTestForm, home_test_as_typed
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.found import measured_sample, the_piece
from bluewright.web.ui.respond import in_garden, posted


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def test(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """A home test; an address may name the measured photo that tells its grade."""
    piece, sample = the_piece(garden, key), measured_sample(request, garden)
    first: dict[str, Any] = {"done_at": timezone.localtime(), "kind": "dry_rub"}
    if sample is None:
        form = HomeTestForm(posted(request), initial=first)
    else:
        first |= {"done_at": timezone.localtime(sample[0].photo.taken_at), "unused": "0", "tried": "1"}
        form = PhotoTestForm(posted(request), found=sample[0], initial=first)
    if request.method == "POST" and form.is_valid():
        row = keep(form.write(HomeTest(piece=piece, done_at=form.cleaned_data["done_at"])), by=request.user)
        undo = reverse("cloth.delete_test", kwargs={"key": key, "row": row.pk})
        messages.success(request, _("Written down, as a home test."), extra_tags=undo)
        return redirect("cloth.show", key=key)
    return _typed(request, form, piece, by_photo=sample is not None)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change_test(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct a home test."""
    piece = the_piece(garden, key)
    told = get_object_or_404(HomeTest, pk=row, piece=piece)
    form = HomeTestForm(posted(request), initial=home_test_as_typed(told))
    if request.method == "POST" and form.is_valid():
        correct(form.write(told), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("cloth.show", key=key)
    return _typed(request, form, piece, by_photo=False)


@require_POST
@in_garden
def delete_test(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a home test out."""
    mine = HomeTest.objects.filter(piece__pk=key, piece__garden=garden, piece__deleted_at=None)
    return out_of(request, mine, key=key, row=row, page="cloth.show", undo="cloth.restore_test")


@require_POST
@in_garden
def restore_test(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a home test back."""
    mine = HomeTest.everything.filter(piece__pk=key, piece__garden=garden, piece__deleted_at=None)
    return back_to(request, mine, key=key, row=row, page="cloth.show")


def _typed(request: HttpRequest, form: HomeTestForm, piece: Piece, *, by_photo: bool) -> HttpResponse:
    context = {"form": form, "piece": piece, "by_photo": by_photo}
    return render(request, "cloth/test.html", context, status=422 if form.errors else 200)
