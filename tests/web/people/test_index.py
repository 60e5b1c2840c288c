"""`/people/`: the address for phones, and who may come in."""

import re

import pytest
from django.test import Client

from bluewright.journal.actions import people as actions
from tests.web.checks import flat, only
from tests.web.visitors import a_person

pytestmark = pytest.mark.django_db
WHERE = "/people/"
ADDRESS = "http://192.0.2.5:8642/"


def test_it_lists_who_may_come_in_and_who_was_shut_out(client: Client) -> None:
    a_person("Hazel", role="onlooker")
    actions.shut_out(a_person("Ash"))
    rows = client.get(WHERE).context["page"].people
    assert [(row.name, row.role, row.may_come_in) for row in rows] == [
        ("Hazel", "onlooker", True),
        ("Ash", "helper", False),
    ]
    page = client.get(WHERE).content.decode()
    assert page.count("Let in again") == 1
    assert "shut out on" in page


def test_without_anybody_it_says_so(client: Client) -> None:
    assert "Nobody else yet." in client.get(WHERE).content.decode()


def test_while_phones_are_not_let_in_it_says_how_to_start(client: Client) -> None:
    page = client.get(WHERE).content.decode()
    assert "serve --lan" in page
    assert "<svg" not in page


def test_the_square_is_a_drawing_that_says_its_address(client: Client, settings: object) -> None:
    settings.DOOR = ADDRESS  # type: ignore[attr-defined]
    page = client.get(WHERE).content.decode()
    (svg,) = re.findall(r"<svg.*?</svg>", page, re.S)
    assert f"<title>{ADDRESS}</title>" in svg
    assert 'role="img"' in svg
    assert "style=" not in svg
    assert f'href="{ADDRESS}"' in page


def test_its_json_twin_says_the_same_and_no_secret(client: Client) -> None:
    person = a_person()
    twin = client.get(WHERE, {"as": "json"}).json()
    assert [row["name"] for row in twin["people"]] == ["Rowan"]
    assert person.user.password not in str(twin)


def test_more_people_need_no_more_statements(client: Client) -> None:
    a_person()
    flat(client, WHERE, lambda: [a_person(f"Helper {n}") for n in range(3)])


def test_it_is_only_read_and_not_kept_by_the_browser(client: Client) -> None:
    only(client, WHERE, "get")
    assert "no-store" in client.get(WHERE)["Cache-Control"]
