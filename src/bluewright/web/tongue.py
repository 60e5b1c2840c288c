"""In which language a page is: the browser's own, if it is there, else English; words and charts follow."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.utils.translation import get_language, trans_real

from bluewright.words.language import spoken

Answer = Callable[[HttpRequest], HttpResponse]


def speak(answer: Answer) -> Answer:
    """Middleware, after Django's own that finds the language: what `words` says is said in it too."""

    def spoken_to(request: HttpRequest) -> HttpResponse:
        with spoken(trans_real.translation(get_language() or "en")):
            return answer(request)

    return spoken_to
