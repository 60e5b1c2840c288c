"""`/door/leave/`: out again."""

import pytest

from tests.web.checks import only
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db
WHERE = "/door/leave/"


def test_whoever_leaves_has_to_come_in_anew() -> None:
    phone = visitor("helper")
    page = phone.get("/gardens/").content.decode()
    assert "You are helper of the tests, helper." in page
    assert phone.post(WHERE)["Location"] == "/door/"
    assert phone.get("/gardens/").status_code == 302


def test_a_session_that_was_left_is_worth_nothing() -> None:
    phone = visitor("helper")
    kept = phone.cookies["bluewright_session"].value
    phone.post(WHERE)
    phone.cookies["bluewright_session"] = kept
    assert phone.get("/gardens/").status_code == 302


def test_other_methods_are_refused() -> None:
    only(visitor("helper"), WHERE, "post")
