"""`/people/add/`: let somebody in."""

import pytest
from django.contrib.auth import authenticate
from django.test import Client

from bluewright.journal.actions import people as actions
from bluewright.journal.models import Person
from tests.web.checks import only, refused
from tests.web.visitors import PASSPHRASE, a_person

pytestmark = pytest.mark.django_db
WHERE = "/people/add/"
HAZEL = {"name": "Hazel", "role": "onlooker", "passphrase": PASSPHRASE}


def test_a_chosen_passphrase_lets_in_and_is_not_shown_again(client: Client) -> None:
    response = client.post(WHERE, HAZEL, follow=True)
    page = response.content.decode()
    assert "Hazel may come in now." in page
    assert PASSPHRASE not in page
    assert authenticate(username="Hazel", password=PASSPHRASE) is not None
    assert Person.objects.get(user__username="Hazel").role == "onlooker"


def test_a_passphrase_that_is_made_is_shown_once(client: Client) -> None:
    response = client.post(WHERE, {"name": "Hazel", "role": "helper", "passphrase": ""})
    name, made = response.context["made"]
    assert response.content.decode().count(made) == 1
    assert authenticate(username=name, password=made) is not None
    assert "no-store" in response["Cache-Control"]
    assert made not in client.get("/people/").content.decode()


def test_made_passphrases_are_long_and_each_another() -> None:
    made = {actions.made_passphrase() for _ in range(50)}
    assert len(made) == 50
    assert {len(one) for one in made} == {20}


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"name": " "}, "name", "required"),
        ({"name": "x" * 41}, "name", "at most 40"),
        ({"name": "a\u202eb"}, "name", "is no name"),
        ({"role": "king"}, "role", "king"),
        ({"passphrase": "short"}, "passphrase", "short or easy to guess"),
        ({"passphrase": "password123"}, "passphrase", "short or easy to guess"),
        ({"passphrase": "12345678901234"}, "passphrase", "short or easy to guess"),
        ({"name": "hazelwoods", "passphrase": "hazelwoods1"}, "passphrase", "short or easy to guess"),
        ({"name": "ROWAN"}, "name", "Rowan is here already"),
        ({"name": "Owner"}, "name", "who sits at this machine"),
    ],
)
def test_a_mistake_keeps_the_typing_and_lets_nobody_in(
    client: Client, typed: dict[str, str], field: str, says: str
) -> None:
    a_person("Rowan")
    refused(client, WHERE, HAZEL | typed, field=field, says=says)
    assert Person.objects.count() == 1


def test_whoever_was_shut_out_may_be_let_in_anew(client: Client) -> None:
    actions.shut_out(a_person("Hazel", role="owner"))
    client.post(WHERE, HAZEL)
    person = Person.objects.get()
    assert (person.role, person.shut_out_at) == ("onlooker", None)
    assert authenticate(username="Hazel", password=PASSPHRASE) is not None


def test_the_owner_s_own_name_may_have_a_passphrase(client: Client) -> None:
    client.post(WHERE, HAZEL | {"name": "owner", "role": "owner"})
    assert Person.objects.get().user.get_username() == "owner"


def test_other_methods_are_refused(client: Client) -> None:
    only(client, WHERE, "post")
