"""The bench: a calculator reads what is typed from the address, answers, and shows both. Nothing is kept."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_safe

from bluewright.science.base.records import dump
from bluewright.web.pages.bench.asked import AS, ask, asked_by, query, too_long, with_blanks
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.web.pages.bench.calculators import BY_SLUG, TABLE
from bluewright.web.pages.bench.page import bench_page, why_address
from bluewright.web.pages.bench.rooms import rooms
from bluewright.web.ui.respond import shown
from bluewright.web.ui.why import Link, why_page


@require_safe
def index(request: HttpRequest) -> HttpResponse:
    """All calculators, in the order of the work, under headings."""
    return render(request, "bench/index.html", {"rooms": rooms(TABLE)})


@require_safe
def show(request: HttpRequest, calculator: str) -> HttpResponse:
    """One calculator: its form, and an answer to what is typed, or to the example if nothing is."""
    chosen = _chosen(calculator)
    if too_long(request):
        return render(request, "bench/too_long.html", {"calculator": chosen}, status=414)
    if with_blanks(request):
        return redirect(f"{request.path}?{query(request)}")
    with asked_by(request):
        asked = ask(request, chosen)
        if request.GET.get(AS) == "json":
            wrong = {"errors": asked.form.errors, "trouble": asked.trouble}
            return JsonResponse(dump(asked.found) if asked.found is not None else wrong, status=asked.status)
        page = bench_page(asked, query=query(request, without=(AS,)))
        return render(request, "bench/show.html", {"page": page, "form": asked.form}, status=asked.status)


@require_safe
def why(request: HttpRequest, calculator: str, figure: str) -> HttpResponse:
    """Why a figure of an answer is what it is."""
    chosen = _chosen(calculator)
    if too_long(request):
        return render(request, "bench/too_long.html", {"calculator": chosen}, status=414)
    typed = query(request, without=(AS,))
    back = Link(to=f"{reverse('bench.show', kwargs={'calculator': calculator})}?{typed}", name=str(chosen.title))
    with asked_by(request):
        found = ask(request, chosen).found
        if found is None:
            return redirect(back.to)
        try:
            page = why_page(
                found, figure=figure, address=lambda path: f"{why_address(calculator, path)}?{typed}", back=back
            )
        except KeyError:
            raise Http404("the answer has no such figure") from None
    return shown(request, "why/page.html", page)


def _chosen(calculator: str) -> Calculator:
    if calculator not in BY_SLUG:
        raise Http404("there is no such calculator")
    return BY_SLUG[calculator]
