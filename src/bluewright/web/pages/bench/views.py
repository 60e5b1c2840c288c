"""The bench: a calculator reads what is typed from the address, answers, and shows both. Nothing is kept."""

from __future__ import annotations

import json
from contextlib import AbstractContextManager, nullcontext
from zoneinfo import ZoneInfo

from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.measures import System
from bluewright.science.base.records import dump
from bluewright.web.pages.bench.calculators import BY_SLUG, TABLE, Calculator
from bluewright.web.pages.bench.form import UNITS, WAY, BenchForm
from bluewright.web.pages.bench.labels import plain
from bluewright.web.pages.bench.page import BenchPage, answer_part, answer_to, what_was_typed
from bluewright.web.pages.bench.typed import Typed, example, typed_as
from bluewright.web.ui.context import open_garden
from bluewright.words.numbers import sentence

LONGEST_QUERY = 12_000
"""Characters: a longer address is cut by some programs on its way."""
MOST_FIELDS = 900
ONE_WAY = gettext_lazy("Only one way can be told at a time: empty what is typed for the others.")
AS, BLANK, MORE = "as", "blank", "more"
OWN = (AS, BLANK, MORE)
"""Names in the address that are the page's own."""


@require_safe
def index(request: HttpRequest) -> HttpResponse:
    """All calculators, in the order of the work."""
    return render(request, "bench/index.html", {"calculators": TABLE})


@require_safe
def show(request: HttpRequest, calculator: str) -> HttpResponse:
    """One calculator: its form and, if anything was typed or nothing at all, an answer."""
    chosen = BY_SLUG.get(calculator)
    if chosen is None:
        raise Http404("there is no such calculator")
    if _too_long(request.META.get("QUERY_STRING", "")):
        return render(request, "bench/too_long.html", {"calculator": chosen}, status=414)
    asked = {name: str(text) for name, text in request.GET.items() if name not in OWN}
    if any(not text.strip() for text in asked.values()) and MORE not in request.GET:
        return redirect(f"{request.path}?{_without_blanks(request)}")
    with _clock(request):
        return _shown(request, chosen, asked)


def _too_long(query: str) -> bool:
    return len(query) > LONGEST_QUERY or query.count("&") > MOST_FIELDS


def _without_blanks(request: HttpRequest) -> str:
    """The query without what was left out: short enough to send on."""
    kept = request.GET.copy()
    for name in [name for name, text in kept.items() if not str(text).strip()]:
        del kept[name]
    return kept.urlencode()


def _clock(request: HttpRequest) -> AbstractContextManager[object]:
    """The garden's clock, if one is open."""
    garden = open_garden(request)
    return timezone.override(ZoneInfo(garden.time_zone)) if garden is not None else nullcontext()


def _system(request: HttpRequest) -> System:
    """Whose units bare numbers are in: as the address says, else the garden's."""
    garden = open_garden(request)
    usual = garden.system if garden is not None else "metric"
    return "us" if request.GET.get(UNITS, usual) == "us" else "metric"


def _shown(request: HttpRequest, chosen: Calculator, asked: dict[str, str]) -> HttpResponse:
    system = _system(request)
    unasked = bool(request.GET.get(BLANK) or request.GET.get(MORE))
    invented = not asked and not unasked
    typed = typed_as(chosen, example(chosen.slug), system=system) if invented else asked
    form = BenchForm(chosen, {UNITS: system, **typed}, system=system, more=request.GET.get(MORE, ""))
    found, trouble = (None, "") if unasked else _answer(form)
    if request.GET.get(AS) == "json":
        return _as_json(form, found, trouble)
    page = BenchPage(
        slug=chosen.slug,
        title=str(chosen.title),
        question=chosen.question,
        method=chosen.method,
        invented=invented,
        answer=answer_part(chosen, found) if found is not None else None,
        trouble=trouble,
        typed=what_was_typed(form),
        as_json=_query_as_json(request),
    )
    wrong = found is None and not unasked
    if unasked:
        form.forget_errors()
    return render(request, "bench/show.html", {"page": page, "form": form}, status=422 if wrong else 200)


def _answer(form: BenchForm) -> tuple[object | None, str]:
    """The answer to a form; or None, with the mistake at its field, or why there is none."""
    if not form.is_valid():
        return None, ""
    typed = Typed(form)
    try:
        return answer_to(form.calculator.slug, json.dumps(typed.record)), ""
    except InputError as error:
        name = typed.field_of(error.where)
        form.add_error(name, ONE_WAY if name == WAY else _mistake(error, form.calculator))
        return None, ""
    except BluewrightError as error:
        return None, plain(str(error)) or _("This cannot be worked out.")


def _mistake(error: InputError, calculator: Calculator) -> str:
    """What is wrong and what would be right, in the words of the form."""
    if error.right == "it is required":
        return _("This is still missing.")
    said = sentence(plain(f"{error.what}; {error.right}", calculator.labels))
    return said if said.endswith("?") else f"{said}."


def _query_as_json(request: HttpRequest) -> str:
    """The query that asks for the same as JSON."""
    query = request.GET.copy()
    query[AS] = "json"
    return query.urlencode()


def _as_json(form: BenchForm, found: object | None, trouble: str) -> HttpResponse:
    """The answer as the commands give it, or what is wrong with each field."""
    if found is not None:
        return JsonResponse(dump(found))
    return JsonResponse({"errors": form.errors, "trouble": trouble}, status=422)
