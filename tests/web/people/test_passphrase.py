"""`/people/<key>/passphrase/`: another passphrase."""

import pytest
from django.contrib.auth import authenticate
from django.test import Client

from bluewright.journal.actions import people as actions
from tests.web.checks import only, url
from tests.web.visitors import PASSPHRASE, a_person

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("was_out", [False, True])
def test_the_new_one_lets_in_and_the_old_one_does_not(client: Client, was_out: bool) -> None:
    person = a_person()
    if was_out:
        actions.shut_out(person)
    response = client.post(url("people.passphrase", key=person.pk))
    name, made = response.context["made"]
    assert authenticate(username=name, password=made) is not None
    assert authenticate(username=name, password=PASSPHRASE) is None
    person.refresh_from_db()
    assert person.shut_out_at is None


def test_there_is_nobody_of_a_wrong_key_and_other_methods_are_refused(client: Client) -> None:
    assert client.post(url("people.passphrase", key=0)).status_code == 404
    only(client, url("people.passphrase", key=a_person().pk), "post")
