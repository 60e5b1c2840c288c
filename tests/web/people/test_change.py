"""`/people/<key>/change/`: another role."""

import pytest
from django.test import Client

from tests.web.checks import only, url
from tests.web.visitors import a_person

pytestmark = pytest.mark.django_db


def test_the_role_is_another(client: Client) -> None:
    person = a_person()
    page = client.post(url("people.change", key=person.pk), {"role": "onlooker"}, follow=True).content.decode()
    person.refresh_from_db()
    assert person.role == "onlooker"
    assert "Rowan is onlooker now." in page


@pytest.mark.parametrize("role", ["", "king", "OWNER"])
def test_a_role_that_there_is_not_changes_nothing(client: Client, role: str) -> None:
    person = a_person()
    page = client.post(url("people.change", key=person.pk), {"role": role}, follow=True).content.decode()
    person.refresh_from_db()
    assert person.role == "helper"
    assert "there is no role" in page


def test_there_is_nobody_of_a_wrong_key_and_other_methods_are_refused(client: Client) -> None:
    assert client.post(url("people.change", key=0), {"role": "helper"}).status_code == 404
    only(client, url("people.change", key=a_person().pk), "post")
