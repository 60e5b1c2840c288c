"""Method: texts as pages. They need no garden."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from bluewright.web.pages.method.page import index_page, text_page
from bluewright.web.ui.respond import shown
from bluewright.words import texts


@require_safe
def index(request: HttpRequest) -> HttpResponse:
    """Every page, with the question it answers."""
    return shown(request, "method/index.html", index_page())


@require_safe
def show(request: HttpRequest, name: str) -> HttpResponse:
    """One page."""
    if name not in texts.NAMES:
        raise Http404("there is no such page")
    return shown(request, "method/show.html", text_page(name))
