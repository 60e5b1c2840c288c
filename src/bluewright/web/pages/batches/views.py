"""Batches: each view reads the journal, builds a page, shows it; each post is an action and a redirect."""

from __future__ import annotations

import secrets
from itertools import chain
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import batches as actions
from bluewright.journal.actions import keeping
from bluewright.journal.models import Batch, Garden, Strain
from bluewright.journal.queries import kept, photos, work
from bluewright.web.pages.batches.forms import BeginForm, ChangeForm, EndForm
from bluewright.web.pages.batches.head import batch_head
from bluewright.web.pages.batches.page import batch_page, rows
from bluewright.web.pages.costs.beside import year_costs
from bluewright.web.ui.found import the_batch
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Batches that are worked on, and liquor that waits for one."""
    waiting, found = kept.unworked_strains(garden), rows(kept.working(garden))
    return render(request, "batches/index.html", {"batches": found, "waiting": waiting})


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def begin(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Begin a batch from strained liquor, or join batches."""
    strain = _asked_strain(garden, request.GET.get("strain", ""))
    first: dict[str, Any] = {"begun_at": timezone.localtime()}
    if strain is not None:
        first |= {"strains": [str(strain.pk)], "name": strain.steep.name}
    form = BeginForm(posted(request), garden=garden, initial=first)
    if request.method == "POST" and form.is_valid():
        data = form.cleaned_data
        seed = 1 + secrets.randbelow(2**31 - 1)
        batch = Batch(garden=garden, name=data["name"], begun_at=data["begun_at"], note=data["note"], seed=seed)
        actions.begin_batch(batch, liquor=_liquor(data), by=request.user)
        undo = reverse("batches.delete", kwargs={"key": batch.pk})
        messages.success(request, _("%(batch)s is begun.") % {"batch": batch.name}, extra_tags=undo)
        return redirect("batches.show", key=batch.pk)
    return render(request, "batches/begin.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One batch: its stages and its story."""
    batch = the_batch(garden, key)
    pictures = photos.of_things([batch.pk, *(look.pk for look in batch.looks.all())], of=garden)
    return shown(
        request,
        "batches/show.html",
        batch_page(
            batch,
            now=timezone.now(),
            photos=chain.from_iterable(pictures.values()),
            work_min=work.noted_min(batch),
            costs=year_costs(garden, timezone.localtime(batch.begun_at).year),
        ),
    )


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Another name, another pH to aim at."""
    batch = the_batch(garden, key)
    first = {"name": batch.name, "target_ph": batch.target_ph, "note": batch.note}
    form = ChangeForm(posted(request), initial=first)
    if request.method == "POST" and form.is_valid():
        for name, value in form.cleaned_data.items():
            setattr(batch, name, value)
        keeping.keep(batch, by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("batches.show", key=key)
    context = {"form": form, "page": {"head": batch_head(batch)}}
    return render(request, "batches/change.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def end(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Give a batch up, with the reason: what went wrong counts as much as what went well."""
    batch = the_batch(garden, key)
    form = EndForm(posted(request), initial={"ended_at": timezone.localtime()})
    if request.method == "POST" and form.is_valid():
        batch.ended_at, batch.ended_why = form.cleaned_data["ended_at"], form.cleaned_data["ended_why"]
        keeping.keep(batch, by=request.user)
        undo = reverse("batches.go_on", kwargs={"key": key})
        messages.info(request, _("%(batch)s is given up.") % {"batch": batch.name}, extra_tags=undo)
        return redirect("batches.show", key=key)
    context = {"form": form, "page": {"head": batch_head(batch)}}
    return render(request, "batches/end.html", context, status=422 if form.errors else 200)


@require_POST
@in_garden
def go_on(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """It is not given up after all."""
    batch = the_batch(garden, key)
    batch.ended_at, batch.ended_why = None, ""
    keeping.keep(batch, by=request.user)
    messages.success(request, _("%(batch)s goes on.") % {"batch": batch.name})
    return redirect("batches.show", key=key)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a batch out; its liquor waits again. One that went on into a jar or a batch stays."""
    batch = the_batch(garden, key)
    if batch.jarred.all() or batch.went_into.all():
        messages.warning(request, _("It went on into a jar or another batch: take that out first."))
        return redirect("batches.show", key=key)
    said = _("%(batch)s is taken out.") % {"batch": batch.name}
    taken_out(request, batch, said=said, undo=reverse("batches.restore", kwargs={"key": key}))
    return redirect("batches.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a batch back, unless its liquor is in another one by now."""
    batch = get_object_or_404(Batch.everything, pk=key, garden=garden)
    strains = [part.strain_id for part in batch.came_from.all() if part.liquor_l is None and part.strain_id]
    taken = Batch.objects.filter(came_from__strain__in=strains).exclude(pk=key)
    if batch.deleted_at is not None and taken.exists():
        messages.warning(request, _("Its liquor is in another batch by now: take that out first."))
        return redirect("batches.index")
    return redirect("batches.show", key=key) if brought_back(request, batch) else redirect("batches.index")


def _asked_strain(garden: Garden, key: str) -> Strain | None:
    """The straining of the key in the address; None if there is none, or the key is no key."""
    try:
        mine = Q(steep__garden=garden, steep__deleted_at=None)
        return Strain.objects.filter(mine, pk=UUID(key)).select_related("steep").first()
    except ValueError:
        return None


def _liquor(data: dict[str, Any]) -> list[actions.LiquorIn]:
    part = data["liquor"]
    return [
        actions.LiquorIn(source=one, liquor_l=part.value if part else None, liquor_typed=part.typed if part else "")
        for one in [*data["strains"], *(data.get("batches") or [])]
    ]
