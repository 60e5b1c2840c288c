"""`/jars/<key>/taken/<taken>/restore/`: it was taken out after all."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Jar, JarTaken
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def row(garden: Garden) -> JarTaken:
    found = cast.taken(cast.a_jar_from_the_bed(garden, 12.0), 5.0)
    delete(found, by=None)
    return found


def where(row: JarTaken) -> str:
    return url("jars.take_again", key=row.jar_id, taken=row.pk)


def test_it_is_out_again(client: Client, row: JarTaken) -> None:
    response = client.post(where(row), follow=True)
    assert response.redirect_chain == [(url("jars.show", key=row.jar_id), 302)]
    assert response.context["page"].stock.left == "7 g left of 12 g"


def test_after_thirty_days_it_is_too_late(client: Client, row: JarTaken) -> None:
    JarTaken.everything.filter(pk=row.pk).update(deleted_at=timezone.now() - timedelta(days=31))
    response = client.post(where(row), follow=True)
    assert "more than thirty days ago" in response.content.decode()
    assert not JarTaken.objects.exists()


def test_what_was_never_put_back_stays_as_it_is(client: Client, row: JarTaken) -> None:
    client.post(where(row), follow=True)
    response = client.post(where(row), follow=True)
    assert list(response.context["messages"]) == []
    assert JarTaken.objects.count() == 1


def test_a_wrong_key_or_a_stranger_s_is_not_there(client: Client, row: JarTaken) -> None:
    assert client.post(url("jars.take_again", key=row.jar_id, taken=NOBODY)).status_code == 404
    Jar.objects.filter(pk=row.jar_id).update(garden=cast.a_garden())
    assert client.post(where(row)).status_code == 404
    assert not JarTaken.objects.exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jars.take_again", key=NOBODY, taken=NOBODY), "post")


def test_it_is_only_posted(client: Client, row: JarTaken) -> None:
    only(client, where(row), "post")
