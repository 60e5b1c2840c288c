"""`/jarlooks/<kind>/<key>/<row>/delete/`: take a look at a jar out, and what a forecast read of it."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, JarLook, Measured, Reading, Steep
from tests.web.checks import NOBODY, gone_and_back, only, to_the_start_without_a_garden, url
from tests.web.measuring import a_jar_look

pytestmark = pytest.mark.django_db


def where(look: JarLook, tub: Steep, verb: str = "delete") -> str:
    return url(f"jarlooks.{verb}", kind="tub", key=tub.pk, row=look.pk)


def test_both_go_and_both_come_back(client: Client, garden: Garden, steeping: Steep) -> None:
    look, before = a_jar_look(client, garden, of=steeping, kind="tub"), Reading.objects.count()
    gone_and_back(client, look, delete=where(look, steeping), restore=where(look, steeping, "restore"))
    assert Reading.objects.count() == before
    client.post(where(look, steeping))
    assert Reading.objects.count() == before - 1
    assert Measured.objects.count() == JarLook.objects.count() == 0


def test_another_tub_s_look_stays(
    client: Client, garden: Garden, steeping: Steep, strained: Steep, other_garden: Garden, strangers_tub: Steep
) -> None:
    look = a_jar_look(client, garden, of=steeping, kind="tub")
    for tub in (strained, strangers_tub):
        assert client.post(where(look, tub)).status_code == 404
    assert client.post(url("jarlooks.delete", kind="tub", key=steeping.pk, row=NOBODY)).status_code == 404
    assert JarLook.objects.get() == look


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jarlooks.delete", kind="tub", key=NOBODY, row=NOBODY), "post")


def test_it_is_only_posted(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, where(a_jar_look(client, garden, of=steeping, kind="tub"), steeping), "post")
