"""`/jarlooks/<kind>/<key>/<row>/restore/`: bring a look at a jar back."""

import pytest
from django.test import Client

from bluewright.journal.actions.measuring import delete_jar_look
from bluewright.journal.models import Garden, JarLook, Reading, Steep
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, too_late, url
from tests.web.measuring import a_jar_look

pytestmark = pytest.mark.django_db


def where(look: JarLook, tub: Steep) -> str:
    return url("jarlooks.restore", kind="tub", key=tub.pk, row=look.pk)


def test_it_is_there_again_with_what_the_forecast_reads(client: Client, garden: Garden, steeping: Steep) -> None:
    look = a_jar_look(client, garden, of=steeping, kind="tub")
    delete_jar_look(look, by=None)
    client.post(where(look, steeping))
    assert JarLook.objects.get().reading in Reading.objects.all()


def test_after_thirty_days_it_is_too_late(client: Client, garden: Garden, steeping: Steep) -> None:
    look = a_jar_look(client, garden, of=steeping, kind="tub")
    too_late(client, look, where(look, steeping))


def test_strangers_and_wrong_keys_get_nothing(
    client: Client, garden: Garden, steeping: Steep, other_garden: Garden, strangers_tub: Steep
) -> None:
    look = a_jar_look(client, garden, of=steeping, kind="tub")
    delete_jar_look(look, by=None)
    assert client.post(where(look, strangers_tub)).status_code == 404
    assert client.post(url("jarlooks.restore", kind="tub", key=steeping.pk, row=NOBODY)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jarlooks.restore", kind="tub", key=NOBODY, row=NOBODY), "post")


def test_it_is_only_posted(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, where(a_jar_look(client, garden, of=steeping, kind="tub"), steeping), "post")
