"""`/vats/`: vats that stand, as they would look; below those that were ended."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db

WHERE = "/vats/"


def test_vats_that_stand_are_drawn_with_what_to_do(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    client.get(url("vats.show", key=vat.pk))
    (row,) = client.get(WHERE).context["page"].standing
    assert "clear yellow to amber" in row.drawing
    assert row.advice
    assert "g/L" in row.stands


def test_what_is_not_reckoned_yet_keeps_nobody_waiting(client: Client, garden: Garden) -> None:
    cast.a_made_vat(garden, name="By the wall")
    page = client.get(WHERE).context["page"]
    assert page.standing[0].advice == ""
    assert "By the wall" in page.waits


def test_an_ended_vat_stands_below_with_what_became_of_it(client: Client, garden: Garden) -> None:
    cast.a_vat(garden, ended_at=cast.moment(2), end="recovered")
    page = client.get(WHERE).context["page"]
    assert page.standing == ()
    assert "the blue kept" in page.ended[0].ended


def test_a_vat_that_cannot_be_says_so(client: Client, garden: Garden) -> None:
    cast.a_vat_addition(cast.a_vat(garden), "dithionite")
    assert "Nothing can be said" in client.get(WHERE).context["page"].standing[0].advice


def test_more_vats_need_no_more_statements(client: Client, garden: Garden) -> None:
    cast.a_made_vat(garden)
    flat(client, WHERE, lambda: [cast.a_made_vat(garden) for _ in range(4)])


def test_a_stranger_s_vats_are_not_shown(client: Client, garden: Garden, other_garden: Garden) -> None:
    cast.a_vat(other_garden, name="Theirs")
    assert "Theirs" not in client.get(WHERE).content.decode()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")
