"""`/jars/<key>/restore/`: bring a jar back."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Jar
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def jar(garden: Garden) -> Jar:
    found = cast.a_jar_from_the_bed(garden)
    delete(found, by=None)
    return found


def where(jar: Jar) -> str:
    return url("jars.restore", key=jar.pk)


def test_the_jar_is_back(client: Client, jar: Jar) -> None:
    response = client.post(where(jar), follow=True)
    assert response.redirect_chain == [(url("jars.show", key=jar.pk), 302)]
    assert response.context["page"].stock.left == "12 g left of 12 g"


def test_after_thirty_days_it_is_too_late(client: Client, jar: Jar) -> None:
    Jar.everything.filter(pk=jar.pk).update(deleted_at=timezone.now() - timedelta(days=31))
    response = client.post(where(jar), follow=True)
    assert response.redirect_chain == [(url("jars.index"), 302)]
    assert "more than thirty days ago" in response.content.decode()
    assert not Jar.objects.exists()


def test_a_wrong_key_or_a_stranger_s_is_not_there(client: Client, jar: Jar) -> None:
    assert client.post(url("jars.restore", key=NOBODY)).status_code == 404
    Jar.everything.filter(pk=jar.pk).update(garden=cast.a_garden())
    assert client.post(where(jar)).status_code == 404
    assert not Jar.objects.exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jars.restore", key=NOBODY), "post")


def test_it_is_only_posted(client: Client, jar: Jar) -> None:
    only(client, where(jar), "post")
