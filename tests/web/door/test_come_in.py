"""`/door/`: name and passphrase."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.actions import people as actions
from bluewright.journal.models import DoorTry, Garden
from tests.web.checks import only, url
from tests.web.visitors import ELSEWHERE, PASSPHRASE, a_person, visitor

pytestmark = pytest.mark.django_db
WHERE = "/door/"
WRONG = {"name": "Rowan", "passphrase": "not it at all"}
RIGHT = {"name": "Rowan", "passphrase": PASSPHRASE}


def later(seconds: float) -> None:
    """All that was tried was tried earlier by so much."""
    for row in DoorTry.objects.all():
        row.last_at -= timedelta(seconds=seconds)
        row.save()


def test_the_right_passphrase_lets_in_to_the_page_that_was_asked_for(garden: Garden) -> None:
    a_person()
    phone = visitor("stranger")
    asked = phone.get("/tubs/?as=json")
    assert asked["Location"] == "/door/?next=%2Ftubs%2F%3Fas%3Djson"
    page = phone.get(asked["Location"])
    assert page.status_code == 200
    assert 'value="/tubs/?as=json"' in page.content.decode()
    response = phone.post(WHERE, RIGHT | {"next": "/tubs/?as=json"})
    assert (response.status_code, response["Location"]) == (302, "/tubs/?as=json")
    assert phone.get("/tubs/").status_code == 200


@pytest.mark.parametrize("next_", ["https://evil.example/", "//evil.example", "javascript:alert(1)", ""])
def test_it_leads_nowhere_else(next_: str) -> None:
    a_person()
    assert visitor("stranger").post(WHERE, RIGHT | {"next": next_})["Location"] == "/"


def test_the_name_may_be_typed_as_a_phone_cases_it() -> None:
    a_person("Rowan")
    assert visitor("stranger").post(WHERE, {"name": " rowan ", "passphrase": PASSPHRASE}).status_code == 302


def test_a_wrong_passphrase_and_a_name_that_nobody_has_are_answered_alike() -> None:
    a_person()
    answers = []
    for name in ("Rowan", "Nobody"):
        response = visitor("stranger").post(WHERE, {"name": name, "passphrase": "not it at all"})
        assert response.status_code == 422
        page = response.content.decode()
        assert f'value="{name}"' in page
        assert "not it at all" not in page
        answers.append(response.context["form"].non_field_errors())
    assert answers[0] == answers[1]


def test_whoever_was_shut_out_is_answered_as_a_stranger_and_is_out_at_once() -> None:
    person = a_person()
    phone = visitor("stranger")
    phone.post(WHERE, RIGHT)
    assert phone.get("/gardens/").status_code == 200
    actions.shut_out(person)
    assert phone.get("/gardens/").status_code == 302
    assert phone.post(WHERE, RIGHT).status_code == 422
    actions.give_passphrase(person, PASSPHRASE)
    assert phone.get("/gardens/").status_code == 302, "the old session stays dead"


def test_a_new_passphrase_ends_what_came_in_by_the_old_one() -> None:
    person = a_person()
    phone = visitor("stranger")
    phone.post(WHERE, RIGHT)
    actions.give_passphrase(person, "another-one-altogether")
    assert phone.get("/gardens/").status_code == 302


def test_coming_in_gives_the_browser_a_new_session() -> None:
    a_person()
    phone = visitor("stranger")
    session = phone.session
    session["planted"] = True
    session.save()
    phone.cookies["bluewright_session"] = session.session_key
    phone.post(WHERE, RIGHT)
    assert phone.cookies["bluewright_session"].value != session.session_key


def test_after_five_wrong_tries_an_address_waits_and_each_further_one_doubles_it() -> None:
    """5, 10, 20, ... seconds, at most 900, as `journal/actions/door.py` says."""
    a_person()
    phone = visitor("stranger")
    names = (f"guess {n}" for n in range(100))
    for _ in range(5):
        assert phone.post(WHERE, {"name": next(names), "passphrase": "x"}).status_code == 422
    for wait_s in (5, 10, 20, 40, 80, 160, 320, 640, 900, 900):
        later(wait_s - 0.9)
        refused = phone.post(WHERE, RIGHT)
        assert refused.status_code == 429
        assert 1 <= int(refused["Retry-After"]) <= 2
        assert "Too many tries" in refused.content.decode()
        later(2)
        assert phone.post(WHERE, {"name": next(names), "passphrase": "x"}).status_code == 422
    other = Client(REMOTE_ADDR="192.0.2.8")
    assert other.post(WHERE, RIGHT).status_code == 302, "another address does not wait"


def test_a_name_waits_from_wherever_it_is_tried_but_never_longer_than_a_minute() -> None:
    a_person()
    for n in range(30):
        later(61)
        assert Client(REMOTE_ADDR=f"198.51.100.{n}").post(WHERE, WRONG).status_code == 422
    assert Client(REMOTE_ADDR="198.51.100.200").post(WHERE, RIGHT).status_code == 429
    later(61)
    assert Client(REMOTE_ADDR="198.51.100.200").post(WHERE, RIGHT).status_code == 302


def test_phones_of_one_ipv6_network_wait_together() -> None:
    a_person()
    for n in range(5):
        Client(REMOTE_ADDR=f"2001:db8::{n}").post(WHERE, {"name": f"guess {n}", "passphrase": "x"})
    assert Client(REMOTE_ADDR="2001:db8::ffff").post(WHERE, RIGHT).status_code == 429
    assert Client(REMOTE_ADDR="2001:db8:0:1::1").post(WHERE, RIGHT).status_code == 302


def test_a_right_passphrase_between_wrong_ones_does_not_make_guessing_free() -> None:
    a_person("Rowan")
    a_person("Hazel", passphrase="another-one-altogether")
    phone = visitor("stranger")
    for _ in range(5):
        phone.post(WHERE, {"name": "Hazel", "passphrase": "guess"})
        later(4.9)
        phone.post(WHERE, RIGHT)
        phone.post("/door/leave/")
    assert phone.post(WHERE, {"name": "Hazel", "passphrase": "guess"}).status_code == 429


def test_tries_are_forgotten_after_a_day_and_hold_no_name() -> None:
    visitor("stranger").post(WHERE, WRONG)
    assert {row.failures for row in DoorTry.objects.all()} == {1}
    assert not any("rowan" in row.key.lower() for row in DoorTry.objects.all())
    DoorTry.objects.update(last_at=timezone.now() - timedelta(days=1, seconds=1))
    Client(REMOTE_ADDR="192.0.2.9").post(WHERE, {"name": "other", "passphrase": "x"})
    assert not DoorTry.objects.filter(key=f"from {ELSEWHERE}").exists()


def test_nothing_typed_is_a_mistake_and_no_try() -> None:
    assert visitor("stranger").post(WHERE, {}).status_code == 422
    assert not DoorTry.objects.exists()


def test_at_the_machine_there_is_no_door(client: Client) -> None:
    assert client.get(WHERE)["Location"] == url("today")


def test_a_post_without_its_token_is_refused_in_words() -> None:
    a_person()
    response = visitor("stranger", strict=True).post(WHERE, RIGHT)
    page = response.content.decode()
    assert response.status_code == 403
    assert "Nothing was written" in page
    assert "<dt>name</dt><dd>Rowan</dd>" in page
    assert PASSPHRASE not in page


def test_the_page_is_not_kept_by_the_browser_and_other_methods_are_refused() -> None:
    assert "no-store" in visitor("stranger").get(WHERE)["Cache-Control"]
    only(visitor("stranger"), WHERE, "get", "post")
