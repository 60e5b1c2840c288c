"""`/ladders/<key>/colours/<photo>/`: which sample of a measured photo is which strip."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder, Measured, Swatch
from tests.web.checks import NOBODY, only, url
from tests.web.measuring import measured_cloth

pytestmark = pytest.mark.django_db


@pytest.fixture
def found(client: Client, ladder: Ladder) -> Measured:
    """A photo of the ladder in which one sample was measured."""
    return measured_cloth(client, ladder.garden, of=ladder, kind="ladder")


def test_a_sample_becomes_the_strip_s_colour_and_a_swatch(client: Client, ladder: Ladder, found: Measured) -> None:
    where = url("ladders.colours", key=ladder.pk, photo=found.pk)
    assert where in client.get(url("ladders.show", key=ladder.pk)).content.decode()
    second = ladder.rungs.all()[1]
    client.post(where, {str(second.pk): "0"})
    swatch = Swatch.objects.get()
    assert ladder.rungs.get(dips=2).swatch == swatch
    assert (swatch.dips, swatch.fibre, swatch.measured_key) == (2, "wool", found.pk)
    assert [swatch.l_star, swatch.a_star, swatch.b_star] == found.answer["samples"][0]["lab"]
    assert where not in client.get(url("ladders.show", key=ladder.pk)).content.decode(), "it is named already"


def test_one_sample_is_not_two_strips_nor_none(client: Client, ladder: Ladder, found: Measured) -> None:
    where = url("ladders.colours", key=ladder.pk, photo=found.pk)
    one, two = (str(rung.pk) for rung in ladder.rungs.all()[:2])
    for typed, says in (({one: "0", two: "0"}, "cannot be two strips"), ({}, "of one strip at least")):
        response = client.post(where, typed)
        assert response.status_code == 422 and says in response.content.decode()
    assert not Swatch.objects.exists()


def test_only_one_s_own(client: Client, ladder: Ladder, theirs: Ladder, found: Measured) -> None:
    for key, photo in ((theirs.pk, found.pk), (NOBODY, found.pk), (ladder.pk, NOBODY)):
        assert client.get(url("ladders.colours", key=key, photo=photo)).status_code == 404
    only(client, url("ladders.colours", key=ladder.pk, photo=found.pk), "get", "post")
