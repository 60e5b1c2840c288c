"""`/jars/<key>/weigh/`: a jar weighed again, and the difference booked openly."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, JarTaken
from bluewright.journal.queries.jars import left_g
from tests import cast
from tests.web.checks import NOBODY, no_rows, only, refused, url

pytestmark = pytest.mark.django_db


def typed(**other: str) -> dict[str, str]:
    return {"weighed": "17 g", "weighed_at": cast.typed(cast.moment()), "book": "on"} | other


def test_the_difference_is_booked_said_and_undone(client: Client, garden: Garden) -> None:
    """20 g less 2 g are 18 g; it weighs 17: one gram less, within the scale (0.5 g) and damp (3 %)."""
    jar = cast.a_jar_from_the_bed(garden, 20.0)
    cast.taken(jar, 2.0)
    response = client.post(url("jars.weigh", key=jar.pk), typed(), follow=True)
    row = JarTaken.objects.get(weighed_g=17.0)
    assert (row.taken_g, row.weighed_typed) == (1.0, "17 g")
    assert left_g(jar) == 17.0
    page = response.content.decode()
    assert "weighs 1 g less than booked; scale and damp bring up to" in page
    assert "weighed again, 17 g: 1 g less than booked, taken off the book" in page
    client.post(url("jars.put_back", key=jar.pk, taken=row.pk))
    assert left_g(type(jar).objects.get(pk=jar.pk)) == 18.0


def test_a_loss_beyond_scale_and_damp_is_asked_about(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 20.0)
    page = client.post(url("jars.weigh", key=jar.pk), typed(weighed="12 g", dried="on"), follow=True).content.decode()
    assert "was some taken or spilt that nobody noted?" in page


def test_without_booking_the_book_stays_as_it_was(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 20.0)
    asked = typed()
    del asked["book"]
    client.post(url("jars.weigh", key=jar.pk), asked)
    assert left_g(jar) == 20.0
    assert JarTaken.objects.get().weighed_g == 17.0


@pytest.mark.parametrize(
    ("wrong", "field", "says"),
    [
        ({"weighed": "heavy"}, "weighed", "heavy"),
        ({"weighed": "90 g"}, "weighed", "twice"),
        ({"weighed_at": "2001-01-01T10:00"}, "weighed_at", "before the jar was filled"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, wrong: dict[str, str], field: str, says: str
) -> None:
    jar = cast.a_jar_from_the_bed(garden, 20.0)
    unchanged = no_rows(JarTaken)
    refused(client, url("jars.weigh", key=jar.pk), typed(**wrong), field=field, says=says)
    unchanged()


def test_wrong_keys_strangers_and_methods(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("jars.weigh", key=NOBODY)).status_code == 404
    assert client.get(url("jars.weigh", key=cast.a_jar_from_the_bed(other_garden).pk)).status_code == 404
    only(client, url("jars.weigh", key=cast.a_jar_from_the_bed(garden).pk), "get", "post")
