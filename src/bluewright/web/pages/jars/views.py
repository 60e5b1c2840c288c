"""Jars: each view reads the journal, builds a page, shows it; each post is an action and a redirect."""

from __future__ import annotations

from typing import Any, Final
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import batches as actions
from bluewright.journal.actions import keeping, vats
from bluewright.journal.bridge import stock
from bluewright.journal.bridge.cupboard import weighed
from bluewright.journal.models import Garden, Jar, JarTaken
from bluewright.journal.queries import jars, kept, threads
from bluewright.journal.queries.history import histories
from bluewright.journal.queries.threads import Thing
from bluewright.web.pages.jars.forms import JarForm, TakeForm, WeighForm
from bluewright.web.pages.jars.page import jar_page, stock_page, stock_row
from bluewright.web.pages.jars.reckoning import reckoned, unknown_said
from bluewright.web.pages.jars.typed import as_typed, changed_jar, new_jar, new_taken, new_weighing, pigment_in
from bluewright.web.pages.threads.page import ThreadPage, thread_page
from bluewright.web.ui.found import the_jar
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.turning import turned
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.stock import difference_said

MOST_AT_ONCE: Final = 12
"""Jars reckoned at one press: each may take a second."""


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Jars: stock at a glance, those that hold something first."""
    held = {row.pk: row for row in kept.held_jars(garden)}
    shown_keys, pages = turned(jars.in_stock(garden, holding=held), request.GET)
    rows = held | {row.pk: row for row in jars.these(garden, [key for key in shown_keys if key not in held])}
    holding = list(held.values())
    unknown = unknown_said(garden, holding)
    page = stock_page([rows[key] for key in shown_keys], holding=holding, unknown=unknown, pages=pages)
    return shown(request, "jars/index.html", page)


@require_POST
@in_garden
def reckon(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Work out what the jars hold that were not reckoned since they were filled or changed, some at a time."""
    waiting = [one.pk for one in jars.jars(garden) if not stock.is_reckoned(one)]
    trouble = [said for key in waiting[:MOST_AT_ONCE] if (said := reckoned(the_jar(garden, key))[1])]
    left = len(waiting) - MOST_AT_ONCE
    if left > 0:
        messages.info(request, ngettext("%(n)d jar is left.", "%(n)d jars are left.", left) % {"n": left})
    for said in trouble:
        messages.warning(request, said)
    return redirect("jars.index")


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def fill(request: HttpRequest, garden: Garden) -> HttpResponse:
    """A new jar."""
    asked = _key(request.GET.get("batch", ""))
    batches = list(jars.fillable(garden, also=[asked] if asked else []))
    form = JarForm(posted(request), batches=batches, initial={"filled_at": timezone.localtime()})
    if request.method == "POST" and form.is_valid():
        jar = actions.fill_jar(new_jar(form, garden=garden), pigment=pigment_in(form), by=request.user)
        undo = reverse("jars.delete", kwargs={"key": jar.pk})
        messages.success(request, _("%(jar)s is filled.") % {"jar": jar.name}, extra_tags=undo)
        return redirect("jars.show", key=jar.pk)
    context = {"form": form, "batches": batches, "jar": None}
    return render(request, "jars/fill.html", context, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One jar: what it holds, where the rest went, its stock, its thread."""
    jar = the_jar(garden, key)
    found, trouble = reckoned(jar)
    steps = histories([jar]).get(jar.pk, [])
    page = jar_page(jar, found=found, trouble=trouble, thread=_thread(garden, key), steps=steps)
    return shown(request, "jars/show.html", page)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of what the jar holds is so."""
    jar = the_jar(garden, key)
    return why_shown(
        request, reckoned(jar)[0], figure=figure, address=why_address("jars.why", key=key),
        back=Link(to=reverse("jars.show", kwargs={"key": key}), name=jar.name),
        missing=_("Where the blue of %(jar)s went cannot be said.") % {"jar": jar.name},
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """What is said of a jar, put right."""
    jar = the_jar(garden, key)
    batches = list(jars.fillable(garden, also=[part.batch_id for part in jar.came_from.all()]))
    form = JarForm(posted(request), batches=batches, least_g=stock.least_put_in_g(jar), initial=as_typed(jar))
    if request.method == "POST" and form.is_valid():
        actions.change_jar(changed_jar(jar, form), pigment=pigment_in(form), by=request.user)
        messages.success(request, _("%(jar)s is changed.") % {"jar": jar.name})
        return redirect("jars.show", key=key)
    context = {"form": form, "batches": batches, "jar": jar}
    return render(request, "jars/fill.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def take(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take pigment out."""
    jar = the_jar(garden, key)
    form = TakeForm(
        posted(request), jar=jar, most_g=stock.most_left_g(jar), left_g=jars.left_g(jar),
        initial={"taken_at": timezone.localtime()},
    )  # fmt: skip
    if request.method == "POST" and form.is_valid():
        row = keeping.keep(new_taken(form.cleaned_data, jar=jar), by=request.user)
        undo = reverse("jars.put_back", kwargs={"key": key, "taken": row.pk})
        messages.success(request, _("%(typed)s taken out.") % {"typed": row.taken_typed}, extra_tags=undo)
        return redirect("jars.show", key=key)
    context = {"form": form, "jar": stock_row(jar, None)}
    return render(request, "jars/take.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def weigh(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Weigh a jar again, and see whether scale and book agree."""
    jar = the_jar(garden, key)
    form = WeighForm(posted(request), jar=jar, initial={"weighed_at": timezone.localtime()})
    if request.method == "POST" and form.is_valid():
        data = form.cleaned_data
        found = weighed(jar, weighed_g=data["weighed"].value, dried_again=data["dried"])
        row = keeping.keep(new_weighing(data, jar=jar), by=request.user)
        told = difference_said(
            jar.name, difference_g=found.difference_g, usual_g=found.usual_g, chance=found.chance
        )  # fmt: skip
        undo = reverse("jars.put_back", kwargs={"key": key, "taken": row.pk})
        messages.success(request, told, extra_tags=undo)
        return redirect("jars.show", key=key)
    context = {"form": form, "jar": stock_row(jar, None)}
    return render(request, "jars/weigh.html", context, status=422 if form.errors else 200)


@require_POST
@in_garden
def put_back(request: HttpRequest, garden: Garden, key: UUID, taken: UUID) -> HttpResponse:
    """It was not taken out after all."""
    row = get_object_or_404(JarTaken, pk=taken, jar__pk=key, jar__garden=garden, jar__deleted_at=None)
    undo = reverse("jars.take_again", kwargs={"key": key, "taken": row.pk})
    taken_out(request, row, said=_back_said(row), undo=undo, delete=vats.delete_taking)
    return redirect("jars.show", key=key)


@require_POST
@in_garden
def take_again(request: HttpRequest, garden: Garden, key: UUID, taken: UUID) -> HttpResponse:
    """It was taken out after all."""
    row = get_object_or_404(JarTaken.everything, pk=taken, jar__pk=key, jar__garden=garden, jar__deleted_at=None)
    brought_back(request, row)
    return redirect("jars.show", key=key)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a jar out of sight."""
    row = get_object_or_404(Jar, pk=key, garden=garden)
    undo = reverse("jars.restore", kwargs={"key": key})
    taken_out(request, row, said=_("%(jar)s is taken out.") % {"jar": row.name}, undo=undo)
    return redirect("jars.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a jar back that was taken out."""
    row = get_object_or_404(Jar.everything, pk=key, garden=garden)
    return redirect("jars.show", key=key) if brought_back(request, row) else redirect("jars.index")


def _back_said(row: JarTaken) -> str:
    """What was undone: a taking, or a weighing."""
    if row.weighed_g is not None:
        return _("The weighing is taken out.")
    return _("%(typed)s is back in the jar.") % {"typed": row.taken_typed}


def _thread(garden: Garden, key: UUID) -> ThreadPage:
    found: Any = threads.thread(Thing("jar", key), of=garden)
    return thread_page(found, sources=threads.sources(found, of=garden), of=garden)


def _key(text: str) -> UUID | None:
    try:
        return UUID(text)
    except ValueError:
        return None
