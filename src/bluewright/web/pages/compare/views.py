"""Compare: trials laid down, set tub by tub with sealed lots, told at the end; looks before it are counted."""

from __future__ import annotations

from collections.abc import Mapping
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import trials as actions
from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.bridge import many
from bluewright.journal.bridge import trials as bridge
from bluewright.journal.models import Garden, Trial, TrialTub
from bluewright.journal.queries import trials
from bluewright.journal.queries.history import histories
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.learn.mixed_record import BatchesAnswer
from bluewright.science.learn.trial_answer import TrialAnswer
from bluewright.science.learn.trial_record import EarlierPairs
from bluewright.web.pages.compare.forms import LotForm, NamesForm, OpenForm, TrialForm, as_typed
from bluewright.web.pages.compare.page import batches_page, next_lot, trial_page, trials_page
from bluewright.web.ui.answered import answered
from bluewright.web.ui.found import the_trial
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.turning import turned
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.own_text import own_text
from bluewright.words.trial_plan import beforehand

FIRST = {"worth": 25, "tubs": 2, "days": 4, "differs": "leaf"}


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """All trials."""
    rows, pages = turned(trials.trials(garden), request.GET)
    return shown(request, "compare/index.html", trials_page(rows, pages=pages))


@require_safe
@in_garden
def batches(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What the garden's many batches say of warmth, hours, beds, alkali and seasons, each by itself."""
    return shown(request, "compare/batches.html", batches_page(*_of_many(garden)))


@require_safe
@in_garden
def batches_why(request: HttpRequest, garden: Garden, figure: str) -> HttpResponse:
    """Why a figure of what many batches say is so."""
    return why_shown(
        request, _of_many(garden)[0], figure=figure, address=why_address("compare.batches_why"),
        back=Link(to=reverse("compare.batches"), name=_("What many batches say")),
        missing=_("There are too few batches to say anything."),
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Lay a trial down: its lots are drawn and sealed at once. Or only see what it could show, nothing written."""
    seeing = "see" in request.POST
    form = TrialForm(posted(request), garden=garden, seeing=seeing, initial=FIRST)
    if request.method == "POST" and form.is_valid():
        row = form.row()
        try:
            plan = bridge.laid_out(bridge.plan_record(row, earlier=_earlier(row)))
        except InputError as error:
            form.wrong(error)
        else:
            if seeing:
                return render(request, "compare/add.html", {"form": form, "shows": answered(beforehand(plan))})
            row.seal = plan.seal
            actions.lay_down(row, lots=bridge.lots_of(row, plan), by=request.user)
            undo = reverse("compare.delete", kwargs={"key": row.pk})
            messages.success(request, _("%(what)s is laid down.") % {"what": row.name}, extra_tags=undo)
            return redirect("compare.show", key=row.pk)
    return render(request, "compare/add.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One trial: what was laid down, its next envelope, every tub; the result once it is ended or looked at."""
    row = the_trial(garden, key)
    found, earlier = bridge.got([row], of=garden), _earlier(row)
    looking = row.ended_at is not None or request.GET.get("look") == str(row.looks or "none")
    answer, trouble = _told(row, found, earlier) if looking else (None, "")
    try:
        plan = bridge.laid_out(bridge.plan_record(row, earlier=earlier))
    except InputError:
        plan = None
    opened = any(lot.opened_at is not None for lot in row.lots.all())
    page = trial_page(
        row, plan=plan, found=found, answer=answer, may_look=row.ended_at is None and opened and not looking,
        trouble=trouble, steps=histories([row])[row.pk],
    )  # fmt: skip
    following = next_lot(row)
    form = None if following is None else OpenForm(garden=garden)
    return shown(request, "compare/show.html", page, form=form)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the result is what it is; before the end only for who has looked."""
    row = the_trial(garden, key)
    known = row.ended_at is not None or row.looks > 0
    answer = _told(row, bridge.got([row], of=garden), _earlier(row))[0] if known else None
    return why_shown(
        request, answer, figure=figure, address=why_address("compare.why", key=key),
        back=Link(to=reverse("compare.show", kwargs={"key": key}), name=row.name),
        missing=_("There is no result of %(trial)s to explain now.") % {"trial": row.name},
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Another name or note; what was laid down stays as it was."""
    row = the_trial(garden, key)
    form = NamesForm(posted(request), initial={"name": row.name, "note": row.note})
    if request.method == "POST" and form.is_valid():
        correct(form.write(row), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("compare.show", key=key)
    return render(request, "compare/change.html", {"form": form, "row": row}, status=422 if form.errors else 200)


@require_POST
@in_garden
def open(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The tub is full: open the next envelope for it."""
    row = the_trial(garden, key)
    form, lot = OpenForm(request.POST, garden=garden), next_lot(row)
    if lot is None or not form.is_valid():
        messages.warning(request, _("No envelope was opened: choose one of the tubs that are offered."))
        return redirect("compare.show", key=key)
    lot = actions.open_envelope(lot, steep=form.tub(), by=request.user)
    told = {"number": lot.number, "way": lot.way}
    messages.success(request, _("Envelope %(number)d: %(way)s.") % told)
    return redirect("compare.show", key=key)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def lot(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """What came of an opened lot: its tub, what it gave where that is not counted, why it is spoilt."""
    found = get_object_or_404(TrialTub, pk=row, trial=the_trial(garden, key), opened_at__isnull=False)
    form = LotForm(posted(request), garden=garden, lot=found, initial=as_typed(found))
    if request.method == "POST" and form.is_valid():
        correct(form.write(found), by=request.user)
        messages.success(request, _("Written down."))
        return redirect("compare.show", key=key)
    return render(request, "compare/lot.html", {"form": form, "lot": found}, status=422 if form.errors else 200)


@require_POST
@in_garden
def look(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """A look at the result before the end: it is counted, and said beside the result ever after."""
    row = the_trial(garden, key)
    if row.ended_at is None:
        row.looks += 1
        keep(row, by=request.user)
    return redirect(f"{reverse('compare.show', kwargs={'key': key})}?look={row.looks}")


@require_POST
@in_garden
def end(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """End a trial; or go on with one that was ended."""
    row = the_trial(garden, key)
    row.ended_at = None if row.ended_at is not None else timezone.now()
    keep(row, by=request.user)
    said = _("It is ended: here is what it says.") if row.ended_at else _("It goes on.")
    messages.success(request, said, extra_tags=reverse("compare.end", kwargs={"key": key}))
    return redirect("compare.show", key=key)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a trial out; its tubs stay."""
    row = get_object_or_404(Trial, pk=key, garden=garden)
    said = _("%(what)s is taken out.") % {"what": row.name}
    taken_out(request, row, said=said, undo=reverse("compare.restore", kwargs={"key": key}))
    return redirect("compare.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a trial back."""
    row = get_object_or_404(Trial.everything, pk=key, garden=garden)
    return redirect("compare.show", key=key) if brought_back(request, row) else redirect("compare.index")


def _of_many(garden: Garden) -> tuple[BatchesAnswer | None, str]:
    """What the garden's batches say, or why they say nothing yet."""
    try:
        return many.found(garden), ""
    except BluewrightError as error:
        return None, _why_not(error)


def _why_not(error: BluewrightError) -> str:
    told = error.what if isinstance(error, InputError) else str(error)
    return own_text(_("No result yet: %(why)s.") % {"why": told})


def _earlier(row: Trial) -> EarlierPairs | None:
    """How unlike tubs are, as the garden's trials had taught when this one was laid down."""
    return bridge.earlier_pairs(row.garden, before=row.laid_down_at, outcome=row.outcome)


def _told(row: Trial, found: Mapping[UUID, bridge.Got], earlier: EarlierPairs | None) -> tuple[TrialAnswer | None, str]:
    """The result, or why there is none yet."""
    try:
        record = bridge.trial_record(row, found, earlier=earlier)
        if record is None:
            return None, _("No envelope is opened yet.")
        return bridge.told(record), ""
    except BluewrightError as error:
        return None, _why_not(error)
