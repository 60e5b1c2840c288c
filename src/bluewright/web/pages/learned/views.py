"""The garden's memory: what was learned, what is left out, what could be given away, and what others gave."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge import learned as bridge
from bluewright.journal.models import Bed, Garden, LeftOut, OthersTaught
from bluewright.journal.queries import learned as queries
from bluewright.science.memory.pool_record import SharedGarden
from bluewright.web.aside import ASIDE
from bluewright.web.pages.learned.forms import LeaveOutForm, TakeInForm, new_left_out, others_row, unsealed
from bluewright.web.pages.learned.page import before_page, learned_page, others_page, share_page, share_text
from bluewright.web.ui.respond import brought_back, in_garden, shown, taken_out
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown

MOST_TUBS = 60
"""Tubs that can be chosen to be left out: the latest."""


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What was learned, and how much better the forecasts became."""
    return _shown(request, garden)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, figure: str) -> HttpResponse:
    """Why a figure of what was learned is so."""
    found, _fresh = _known(garden)
    return why_shown(
        request, None if found is None else found.answer, figure=figure, address=why_address("learned.why"),
        back=Link(to=reverse("learned.index"), name=_("What was learned")), missing=_("Nothing was learned yet."),
    )  # fmt: skip


@require_POST
@in_garden
def leave_out(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Learn nothing from a tub, and say why."""
    form = LeaveOutForm(request.POST, tubs=queries.choosable(garden, most=MOST_TUBS))
    if not form.is_valid():
        return _shown(request, garden, form=form, status=422)
    made = keep(new_left_out(form, garden=garden), by=request.user)
    messages.success(request, _("Left out."), extra_tags=reverse("learned.delete", kwargs={"key": made.pk}))
    return redirect("learned.index")


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Learn from a tub again."""
    row = get_object_or_404(LeftOut, pk=key, garden=garden)
    taken_out(request, row, said=_("It is learned from again."), undo=reverse("learned.restore", kwargs={"key": key}))
    return redirect("learned.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Leave it out after all."""
    brought_back(request, get_object_or_404(LeftOut.everything, pk=key, garden=garden))
    return redirect("learned.index")


@require_safe
@in_garden
def share(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What would be given away, in full. Nothing is sent anywhere."""
    return shown(request, "learned/share.html", share_page(_given(garden)))


@require_safe
@in_garden
def share_file(_request: HttpRequest, garden: Garden) -> HttpResponse:
    """The same as a file to keep."""
    response = HttpResponse(share_text(_given(garden)), content_type="application/json")
    response["Content-Disposition"] = 'attachment; filename="shared-garden.json"'
    return response


@require_safe
@in_garden
def others(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What other gardens taught, and what that changes here."""
    return _others_shown(request, garden)


@require_POST
@in_garden
def others_look(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What other gardens' files would change here. Nothing is taken in yet."""
    found, fresh = _known(garden)
    form = TakeInForm(request.POST, request.FILES, own=None if found is None else bridge.given_away(found))
    if not form.is_valid():
        return _others_shown(request, garden, form=form, status=422)
    in_use = next(iter(queries.others(garden)), None)
    page = before_page(others_row(form, garden=garden), in_use=in_use, found=found, fresh=fresh)
    return shown(request, "learned/before.html", page)


@require_POST
@in_garden
def take_in(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Let the memory begin from what other gardens taught, as it was looked at."""
    row = unsealed(request.POST.get("sealed", ""), garden=garden)
    if row is None:
        messages.warning(request, _("What was looked at did not come back whole. Choose the files again."))
        return _others_shown(request, garden, status=422)
    keep(row, by=request.user)
    messages.success(request, _("Taken in."), extra_tags=reverse("learned.others_delete", kwargs={"key": row.pk}))
    return redirect("learned.others")


@require_POST
@in_garden
def others_delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Begin without them again."""
    row = get_object_or_404(OthersTaught, pk=key, garden=garden)
    undo = reverse("learned.others_restore", kwargs={"key": key})
    taken_out(request, row, said=_("What they taught is taken out again."), undo=undo)
    return redirect("learned.others")


@require_POST
@in_garden
def others_restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take it in after all."""
    brought_back(request, get_object_or_404(OthersTaught.everything, pk=key, garden=garden))
    return redirect("learned.others")


def _others_shown(
    request: HttpRequest, garden: Garden, *, form: TakeInForm | None = None, status: int = 200
) -> HttpResponse:
    rows = queries.others(garden)
    found, fresh = _known(garden) if rows else (None, True)
    page = others_page(rows, found=found, fresh=fresh)
    return shown(request, "learned/others.html", page, status=status, form=form or TakeInForm())


def _given(garden: Garden) -> SharedGarden:
    found, _fresh = _known(garden)
    given = None if found is None else bridge.given_away(found)
    if given is None:
        raise Http404("nothing was learned yet")
    return given


def _known(garden: Garden) -> tuple[bridge.Kept | None, bool]:
    """What is known now; what is missing is reckoned beside the pages, or at once where nothing runs beside them."""
    found, fresh = bridge.kept(garden)
    key = ("learned", garden.pk)
    if not fresh and not ASIDE.ask(key, lambda: _reckon(garden)) and not ASIDE.waits(key):
        return bridge.reckon(garden), True
    return found, fresh


def _reckon(garden: Garden) -> None:
    bridge.reckon(garden)


def _shown(
    request: HttpRequest, garden: Garden, *, form: LeaveOutForm | None = None, status: int = 200
) -> HttpResponse:
    found, fresh = _known(garden)
    page = learned_page(
        found,
        fresh=fresh,
        progress=bridge.progress.get(garden.pk),
        rows=queries.left_out(garden),
        beds={str(key): name for key, name in Bed.everything.filter(garden=garden).values_list("pk", "name")},
    )
    form = form or LeaveOutForm(tubs=queries.choosable(garden, most=MOST_TUBS))
    return shown(request, "learned/index.html", page, status=status, form=form)
