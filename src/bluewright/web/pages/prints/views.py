"""Prints: a page to be printed from the browser, and the same as a PDF."""

from __future__ import annotations

from typing import Any
from urllib.parse import urljoin
from uuid import UUID
from zoneinfo import ZoneInfo

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from bluewright.journal.bridge import scheduling
from bluewright.journal.models import Garden
from bluewright.journal.models.card import PAPERS
from bluewright.journal.queries import cards, jars, schedules, threads
from bluewright.journal.queries import plan as wants_queries
from bluewright.journal.queries.threads import Thing
from bluewright.web.pages.alkali.card import alkali_card
from bluewright.web.pages.alkali.views.dose import chosen, to_dose
from bluewright.web.pages.cloth.telling import told_story
from bluewright.web.pages.law.page import law_said
from bluewright.web.pages.plan.found import plan_found
from bluewright.web.pages.prints.alkali_sheet import alkali_sheet
from bluewright.web.pages.prints.batch_sheet import batch_sheet
from bluewright.web.pages.prints.card_sheet import SHEETS_MM, card_sheet
from bluewright.web.pages.prints.jar_label import MOST, jar_labels
from bluewright.web.pages.prints.paper import invented_mark
from bluewright.web.pages.prints.plan_sheet import plan_sheet
from bluewright.web.pages.prints.trial_sheet import trial_sheet
from bluewright.web.pages.prints.vat_sheet import vat_sheet
from bluewright.web.pages.threads.page import thread_page
from bluewright.web.pages.vats.asked import answered_now, the_vat
from bluewright.web.prints import typeset
from bluewright.web.ui.found import or_404, the_batch, the_trial
from bluewright.web.ui.respond import in_garden, shown
from bluewright.words.card import printing_steps
from bluewright.words.numbers import moment


@require_safe
@in_garden
def batch(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The sheet of a batch."""
    found = the_batch(garden, key)
    thread = or_404(threads.thread(Thing("batch", key), of=garden), "batch in this garden")
    told = thread_page(thread, sources=threads.sources(thread, of=garden), of=garden)
    return _printed(request, "batch", batch_sheet(found, thread=told))


@require_safe
@in_garden
def jar(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The label of a jar, as often as asked for."""
    found = or_404(jars.jars(garden).filter(pk=key).first(), "jar in this garden")
    thread = or_404(threads.thread(Thing("jar", key), of=garden), "jar in this garden")
    way = reverse("threads.show", kwargs={"kind": "jar", "key": key})
    page = jar_labels(
        found, thread=thread, address=urljoin(settings.DOOR or request.build_absolute_uri("/"), way),
        in_house=bool(settings.DOOR), copies=_number(request.GET.get("copies", "")),
    )  # fmt: skip
    return _printed(request, "jar", page, choices=(1, 2, 4, MOST))


@require_safe
@in_garden
def alkali(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The alkali card as a PDF; its page is the card itself, without an alkali the dose."""
    found = the_batch(garden, key)
    asked = chosen(request, found)
    if asked is None:
        return redirect(to_dose(found, None))
    page = alkali_sheet(alkali_card(found, asked, now=timezone.now()), garden)
    if request.GET.get("as") in {"pdf", "json"}:
        return _printed(request, "alkali", page)
    return redirect(f"{reverse('alkali.card', kwargs={'key': key})}?alkali={asked.pk}")


@require_safe
@in_garden
def card(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The card for photos; its page says how it is printed, the PDF is what is printed."""
    found = or_404(cards.card(key, of=garden), "card in this garden")
    paper = request.GET.get("paper", "")
    mark = invented_mark(garden)
    page = card_sheet(
        number=found.number, paper=paper if paper in SHEETS_MM else found.paper, key=str(key),
        printed=found.printed_at.astimezone(ZoneInfo(garden.time_zone)).date(),
        garden=f"{garden.name} ({mark})" if mark else garden.name,
    )  # fmt: skip
    return _printed(request, "card", page, papers=PAPERS, steps=printing_steps())


@require_safe
@in_garden
def plan(request: HttpRequest, garden: Garden) -> HttpResponse:
    """The plan of the season; the plan's own page where there is neither plan nor schedule."""
    answer, trouble = plan_found(garden)
    row, today = schedules.latest_found(garden), timezone.localdate()
    season = None if row is None else scheduling.answer_of(row)
    if row is None or season is None:
        season, reckoned = None, ""
    else:
        reckoned = moment(row.reckoned_at.astimezone(ZoneInfo(garden.time_zone)))
    if answer is None and season is None and not trouble:
        return redirect("plan.index")
    page = plan_sheet(
        garden, answer=answer, trouble=trouble, wants=wants_queries.wants(garden), season=season, reckoned=reckoned,
        law_said=law_said(garden, wants_queries.basis(garden).plant), today=today,
    )  # fmt: skip
    return _printed(request, "plan", page)


@require_safe
@in_garden
def cloth(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The story of a piece on one sheet, with the photo that the address chooses."""
    return _printed(request, "cloth", told_story(request, garden, key, printed=request.GET.get("as") == "pdf"))


@require_safe
@in_garden
def vat(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The card of a vat."""
    found = the_vat(garden, key)
    answer, trouble = answered_now(found)
    page = vat_sheet(
        found, answer=answer, trouble=trouble, now=timezone.now(), in_house=bool(settings.DOOR),
        address=urljoin(settings.DOOR or request.build_absolute_uri("/"), reverse("vats.show", kwargs={"key": key})),
    )  # fmt: skip
    return _printed(request, "vat", page)


@require_safe
@in_garden
def trial(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The lots of a trial as slips to fold."""
    return _printed(request, "trial", trial_sheet(the_trial(garden, key), now=timezone.now()))


def _printed(request: HttpRequest, name: str, page: Any, **beside: Any) -> HttpResponse:
    if request.GET.get("as") != "pdf":
        return shown(request, f"prints/{name}.html", page, **beside)
    file = f"{name}-{slugify(page.name) or page.key}.pdf"
    headers = {"Content-Disposition": f'inline; filename="{file}"'}
    return HttpResponse(typeset.pdf(name, page), content_type="application/pdf", headers=headers)


def _number(text: str) -> int:
    """How many were asked for: one, unless a number says otherwise."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 4 else 1
