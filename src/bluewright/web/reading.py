"""For whom a page is said: dates as the browser's English has them; units are the garden's (`respond.in_garden`)."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponseBase
from django.utils.translation import get_language

from bluewright.words.reader import read_by

Answer = Callable[[HttpRequest], HttpResponseBase]


def dates_by_browser(answer: Answer) -> Answer:
    """Middleware, after the one that finds the language: a US browser reads `Sun, Jul 5, 6:00 pm`."""

    def read(request: HttpRequest) -> HttpResponseBase:
        with read_by(dates="month_first" if get_language() == "en-us" else "day_first"):
            return answer(request)

    return read
