"""`/jars/<key>/delete/`: a jar out of the journal."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Jar
from bluewright.journal.queries import jars
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(jar: Jar) -> str:
    return url("jars.delete", key=jar.pk)


def test_the_jar_is_gone_its_batch_waits_again_and_it_can_be_brought_back(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    batch = jar.came_from.get().batch
    response = client.post(where(jar), follow=True)
    assert response.redirect_chain == [(url("jars.index"), 302)]
    assert response.context["page"].jars == ()
    assert list(jars.fillable(garden)) == [batch]
    assert url("jars.restore", key=jar.pk) in [message.extra_tags for message in response.context["messages"]]


def test_it_cannot_be_taken_out_twice_nor_under_a_wrong_key(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    client.post(where(jar))
    assert client.post(where(jar)).status_code == 404
    assert client.post(url("jars.delete", key=NOBODY)).status_code == 404


def test_a_stranger_s_jar_stays(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(cast.a_garden())
    assert client.post(where(jar)).status_code == 404
    assert Jar.objects.filter(pk=jar.pk).exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jars.delete", key=NOBODY), "post")


def test_it_is_only_posted(client: Client, garden: Garden) -> None:
    only(client, where(cast.a_jar_from_the_bed(garden)), "post")
