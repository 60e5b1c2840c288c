"""`/ladders/<key>/dips/`: what is to be done at the vat now."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def at(client: Client, row: Ladder) -> tuple[str, str, str]:
    page = client.get(url("ladders.dips", key=row.pk)).context["page"]
    return page.button, page.to_do, page.then


def test_it_leads_from_the_first_dip_to_the_last(client: Client, ladder: Ladder) -> None:
    """Strips of 1, 2 and 4 dips: all go in, one stays out after the first, one after the second."""
    button, to_do, _then = at(client, ladder)
    assert (button, "all 3 go in" in to_do) == ("in", True)
    dip = cast.a_ladder_dip(ladder, hours_ago=4, minutes=None)
    button, to_do, then = at(client, ladder)
    assert button == "out" and "The strip marked 1 is done" in then and "marked 2, 4 hang for 15 minutes" in then
    dip.delete()
    cast.a_ladder_dip(ladder, hours_ago=4)
    button, to_do, _then = at(client, ladder)
    assert button == "in" and "the strips marked 2, 4 go in" in to_do
    cast.a_ladder_dip(ladder, hours_ago=3)
    cast.a_ladder_dip(ladder, hours_ago=2)
    button, to_do, _then = at(client, ladder)
    assert button == "in" and "Dip 4" in to_do and "the strip marked 4 goes in" in to_do
    cast.a_ladder_dip(ladder, hours_ago=1)
    button, to_do, then = at(client, ladder)
    assert (button, to_do) == ("", "All dips are done.") and "one photo of all with your card" in then


def test_each_strip_says_where_it_is(client: Client, ladder: Ladder) -> None:
    cast.a_ladder_dip(ladder)
    page = client.get(url("ladders.dips", key=ladder.pk)).context["page"]
    assert [strip.said for strip in page.strips] == ["done", "hangs, then goes in again", "hangs, then goes in again"]
    assert page.dips[0].said.endswith("5.0 minutes")


def test_only_one_s_own_and_only_read(client: Client, ladder: Ladder, theirs: Ladder) -> None:
    for key in (NOBODY, theirs.pk):
        assert client.get(url("ladders.dips", key=key)).status_code == 404
    only(client, url("ladders.dips", key=ladder.pk), "get")
    to_the_start_without_a_garden(client, url("ladders.dips", key=ladder.pk))
