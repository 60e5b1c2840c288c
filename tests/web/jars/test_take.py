"""`/jars/<key>/take/`: pigment taken out."""

from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Jar, JarTaken
from tests import cast
from tests.cast import moment, typed
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def jar(garden: Garden) -> Jar:
    return cast.a_jar_from_the_bed(garden, 12.0, filled_at=moment(48))


def where(jar: Jar) -> str:
    return url("jars.take", key=jar.pk)


def entry(**other: Any) -> dict[str, Any]:
    return {"taken": "5 g", "taken_at": typed(moment()), "what_for": "wool vat", **other}


def test_what_is_taken_out_is_written_as_typed(client: Client, jar: Jar) -> None:
    response = client.post(where(jar), entry(), follow=True)
    assert response.redirect_chain == [(url("jars.show", key=jar.pk), 302)]
    row = JarTaken.objects.get()
    assert (row.taken_g, row.taken_typed, row.what_for, row.taken_at) == (5.0, "5 g", "wool vat", moment())
    assert response.context["page"].stock.left == "7 g left of 12 g"
    undo = url("jars.put_back", key=jar.pk, taken=row.pk)
    assert undo in [message.extra_tags for message in response.context["messages"]]


def test_the_last_of_it_may_weigh_a_little_more_than_the_sum(client: Client, jar: Jar) -> None:
    """A scale good to 0.5 g, one filling and this taking: 2 * 0.5 * sqrt(2) = 1.4 g may be in it beyond the 12 g."""
    client.post(where(jar), entry(taken="13.3 g"))
    assert JarTaken.objects.get().taken_g == pytest.approx(13.3)


def test_more_than_there_is_is_refused_in_words(client: Client, jar: Jar) -> None:
    cast.taken(jar, 4.5)
    unchanged = no_rows(JarTaken)
    refused(client, where(jar), entry(taken="12 g"), field="taken", says="only 7.5 g are left in it")
    unchanged()


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("taken", "some", "some"),
        ("taken", "", "required"),
        ("taken", "0 g", "cannot be"),
        ("taken_at", "2001-07-01T08:00", "before the jar was filled"),
        ("taken_at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, jar: Jar, field: str, text: str, says: str) -> None:
    unchanged = no_rows(JarTaken)
    refused(client, where(jar), entry() | {field: text}, field=field, says=says)
    unchanged()


def test_it_says_what_pigment_dust_does(client: Client, jar: Jar) -> None:
    assert "dust mask" in client.get(where(jar)).content.decode()


def test_there_is_no_jar_of_a_wrong_key(client: Client, jar: Jar) -> None:
    assert client.post(url("jars.take", key=NOBODY), entry()).status_code == 404


def test_a_stranger_s_jar_stays_full(client: Client, jar: Jar) -> None:
    strange = cast.a_jar_from_the_bed(cast.a_garden(), filled_at=moment(48))
    assert client.get(where(strange)).status_code == 404
    assert client.post(where(strange), entry()).status_code == 404
    assert not JarTaken.objects.exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jars.take", key=NOBODY))


def test_other_methods_are_refused(client: Client, jar: Jar) -> None:
    only(client, where(jar), "get", "post")


def test_more_takings_need_no_more_statements(client: Client, jar: Jar) -> None:
    cast.taken(jar, 1.0)
    flat(client, where(jar), lambda: [cast.taken(jar, 1.0) for _ in range(3)])
