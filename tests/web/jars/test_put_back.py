"""`/jars/<key>/taken/<taken>/delete/`: it was not taken out after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Jar, JarTaken
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def jar(garden: Garden) -> Jar:
    return cast.a_jar_from_the_bed(garden, 12.0)


def where(row: JarTaken) -> str:
    return url("jars.put_back", key=row.jar_id, taken=row.pk)


def test_the_grams_are_back_and_can_be_taken_again(client: Client, jar: Jar) -> None:
    row = cast.taken(jar, 5.0)
    response = client.post(where(row), follow=True)
    assert response.redirect_chain == [(url("jars.show", key=jar.pk), 302)]
    assert response.context["page"].stock.left == "12 g left of 12 g"
    again = url("jars.take_again", key=jar.pk, taken=row.pk)
    assert again in [message.extra_tags for message in response.context["messages"]]


def test_it_cannot_be_put_back_twice(client: Client, jar: Jar) -> None:
    row = cast.taken(jar, 5.0)
    client.post(where(row))
    assert client.post(where(row)).status_code == 404


def test_a_wrong_key_or_another_jar_s_is_not_there(client: Client, garden: Garden, jar: Jar) -> None:
    row, other = cast.taken(jar, 5.0), cast.a_jar_from_the_bed(garden)
    assert client.post(url("jars.put_back", key=jar.pk, taken=NOBODY)).status_code == 404
    assert client.post(url("jars.put_back", key=other.pk, taken=row.pk)).status_code == 404
    assert JarTaken.objects.filter(pk=row.pk).exists()


def test_a_stranger_s_stays_taken(client: Client, jar: Jar) -> None:
    row = cast.taken(cast.a_jar_from_the_bed(cast.a_garden()), 5.0)
    assert client.post(where(row)).status_code == 404
    assert JarTaken.objects.filter(pk=row.pk).exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jars.put_back", key=NOBODY, taken=NOBODY), "post")


def test_it_is_only_posted(client: Client, jar: Jar) -> None:
    only(client, where(cast.taken(jar, 5.0)), "post")
