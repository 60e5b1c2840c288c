"""Work beside the pages: one thing after another, nothing twice, and a mistake stops nothing."""

import threading

import pytest

from bluewright.web.aside import Aside

WAIT_S = 10.0


def test_where_no_server_runs_nothing_is_done() -> None:
    done: list[int] = []
    assert not Aside().ask("a", lambda: done.append(1))
    assert done == []


def test_it_is_done_in_order_and_what_waits_already_is_not_asked_twice() -> None:
    aside, go, over, done = Aside(), threading.Event(), threading.Event(), list[str]()
    aside.begin()
    aside.begin()
    assert aside.ask("first", lambda: (go.wait(WAIT_S), done.append("first"))[1])
    assert aside.ask("second", lambda: done.append("second"))
    assert not aside.ask("second", lambda: done.append("again"))
    assert aside.ask("third", over.set)
    go.set()
    assert over.wait(WAIT_S)
    assert done == ["first", "second"]


def test_a_mistake_is_logged_and_the_next_thing_is_done(caplog: pytest.LogCaptureFixture) -> None:
    aside, over = Aside(), threading.Event()
    aside.begin()

    def wrong() -> None:
        raise ValueError("spilt")

    aside.ask("wrong", wrong)
    aside.ask("right", over.set)
    assert over.wait(WAIT_S)
    assert aside.ask("wrong", lambda: None), "it may be asked for again"


def test_what_is_to_come_later_lets_others_go_first() -> None:
    aside, over, done = Aside(), threading.Event(), list[str]()
    aside.begin()
    aside.ask("late", lambda: (done.append("late"), over.set())[0], after_s=0.1)
    aside.ask("now", lambda: done.append("now"))
    assert aside.waits("late")
    assert over.wait(WAIT_S)
    assert done == ["now", "late"]


def test_what_is_repeated_comes_again_by_itself() -> None:
    aside, over, done = Aside(), threading.Event(), list[int]()
    aside.begin()

    def work() -> None:
        done.append(1)
        if len(done) == 3:
            over.set()

    aside.repeat("tick", work, every_s=0.01)
    assert over.wait(WAIT_S)
