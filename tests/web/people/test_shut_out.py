"""`/people/<key>/shut-out/`: in no more, at once."""

import pytest
from django.contrib.auth import authenticate
from django.test import Client

from bluewright.journal.models import Garden, Person
from tests.web.checks import only, url
from tests.web.visitors import PASSPHRASE, a_person, visitor

pytestmark = pytest.mark.django_db


def test_whoever_is_shut_out_is_out_at_once_and_what_they_wrote_stays(client: Client, garden: Garden) -> None:
    phone = visitor("helper")
    phone.post("/beds/add/", {"name": "East", "plant": "woad", "origin": "sown"})
    person = Person.objects.get()
    client.post(url("people.shut_out", key=person.pk))
    assert phone.get("/beds/").status_code == 302
    assert phone.post("/beds/add/", {"name": "West", "plant": "woad", "origin": "sown"}).status_code == 403
    assert authenticate(username=person.user.get_username(), password=PASSPHRASE) is None
    bed = garden.beds.get(name="East")
    assert bed.made_by == person.user
    assert not garden.beds.filter(name="West").exists()


def test_there_is_nobody_of_a_wrong_key_and_other_methods_are_refused(client: Client) -> None:
    assert client.post(url("people.shut_out", key=0)).status_code == 404
    only(client, url("people.shut_out", key=a_person().pk), "post")
