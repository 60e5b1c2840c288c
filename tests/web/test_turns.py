"""Pages that are read are made one after another, and nothing waits for long."""

import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from threading import Event

import pytest
from django.http import HttpRequest, HttpResponse
from django.test import RequestFactory

from bluewright.web import turns

WAIT_S = 10.0
ASK = RequestFactory()


def under_way(
    monkeypatch: pytest.MonkeyPatch, patience_s: float
) -> tuple[Callable[[HttpRequest], HttpResponse], Event]:
    """Pages in turn, of which `/slow/` is made until the event is set and `/wrong/` never is."""
    monkeypatch.setattr(turns, "PATIENCE_S", patience_s)
    go = Event()

    def answer(request: HttpRequest) -> HttpResponse:
        if request.path == "/slow/":
            assert go.wait(WAIT_S)
        if request.path == "/wrong/":
            raise ValueError("spilt")
        return HttpResponse(request.path)

    return turns.in_turn(answer), go


def test_a_page_waits_for_the_one_that_is_being_made(monkeypatch: pytest.MonkeyPatch) -> None:
    pages, go = under_way(monkeypatch, WAIT_S)
    with ThreadPoolExecutor() as phones:
        slow = phones.submit(pages, ASK.get("/slow/"))
        while not (second := phones.submit(pages, ASK.get("/quick/"))).running():
            time.sleep(0.001)
        time.sleep(0.05)
        assert not second.done()
        go.set()
        assert second.result(WAIT_S).content == b"/quick/"
        assert slow.result(WAIT_S).content == b"/slow/"


def test_it_waits_no_longer_than_it_has_patience(monkeypatch: pytest.MonkeyPatch) -> None:
    pages, go = under_way(monkeypatch, 0.01)
    with ThreadPoolExecutor() as phones:
        slow = phones.submit(pages, ASK.get("/slow/"))
        assert pages(ASK.get("/quick/")).content == b"/quick/"
        assert not slow.done()
        go.set()


def test_a_post_waits_for_no_page_and_no_page_for_it(monkeypatch: pytest.MonkeyPatch) -> None:
    pages, go = under_way(monkeypatch, WAIT_S)
    with ThreadPoolExecutor() as phones:
        slow = [phones.submit(pages, ask("/slow/")) for ask in (ASK.post, ASK.get)]
        assert pages(ASK.post("/quick/")).content == b"/quick/"
        assert not any(one.done() for one in slow)
        go.set()


def test_a_page_that_goes_wrong_gives_its_turn_on(monkeypatch: pytest.MonkeyPatch) -> None:
    pages, _go = under_way(monkeypatch, WAIT_S)
    with pytest.raises(ValueError, match="spilt"):
        pages(ASK.get("/wrong/"))
    began = time.monotonic()
    assert pages(ASK.get("/quick/")).content == b"/quick/"
    assert time.monotonic() - began < WAIT_S / 2


def test_who_waits_for_a_lull_waits_until_nobody_is_answered_and_no_longer_than_it_may() -> None:
    asked = turns.Asked()
    asked.wait_for_lull(most_s=WAIT_S)
    with ThreadPoolExecutor() as beside:
        with asked.answering():
            began = time.monotonic()
            asked.wait_for_lull(most_s=0.02)
            assert time.monotonic() - began >= 0.02, "it goes on in the end"
            waits = beside.submit(asked.wait_for_lull, lull_s=0.01, most_s=WAIT_S)
            with asked.answering():
                pass
            time.sleep(0.05)
            assert not waits.done(), "one of the two is still answered"
        waits.result(WAIT_S)
    asked.wait_for_lull(lull_s=0.0, most_s=WAIT_S)


def test_a_post_and_a_page_both_count_as_answered(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(turns, "ASKED", turns.Asked())
    found: list[float] = []

    def answer(_request: HttpRequest) -> HttpResponse:
        began = time.monotonic()
        turns.ASKED.wait_for_lull(lull_s=0.0, most_s=0.02)
        found.append(time.monotonic() - began)
        return HttpResponse()

    pages = turns.in_turn(answer)
    pages(ASK.get("/"))
    pages(ASK.post("/"))
    assert min(found) >= 0.02
