"""The one way in which a page of any noun answers `why`."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse

from bluewright.web.ui.respond import shown
from bluewright.web.ui.why import Link, why_page


def why_address(view: str, **keys: Any) -> Callable[[str], str]:
    """From the path of a figure to the address of its page; `view` is the name of that page."""
    return lambda figure: reverse(view, kwargs={**keys, "figure": figure})


def why_shown(
    request: HttpRequest, answer: Any | None, *, figure: str, address: Callable[[str], str], back: Link, missing: str
) -> HttpResponse:
    """Why a figure of an answer is so; back, with `missing` said, where there is no answer; 404 for no such figure."""
    if answer is None:
        messages.info(request, missing)
        return redirect(back.to)
    try:
        page = why_page(answer, figure=figure, address=address, back=back)
    except KeyError:
        raise Http404("the answer has no such figure") from None
    return shown(request, "why/page.html", page)
