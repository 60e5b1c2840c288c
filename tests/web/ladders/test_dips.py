"""`/ladders/<key>/dips/`: what is to be done at the vat now, step by step, and the clock beside it."""

from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Ladder
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db


def shown(client: Client, row: Ladder) -> Any:
    return client.get(url("ladders.dips", key=row.pk)).context["page"]


def at(client: Client, row: Ladder) -> tuple[str, str, str, str]:
    page = shown(client, row)
    step = next(one for one in page.steps if one.name == page.now)
    return step.name, step.to_do, step.then, step.done


def test_it_leads_from_the_first_dip_to_the_last(client: Client, ladder: Ladder) -> None:
    """Strips of 1, 2 and 4 dips: all go in, one stays out after the first, one after the second."""
    name, to_do, _then, done = at(client, ladder)
    assert (name, "all 3 go in" in to_do, done) == ("in-1", True, "")
    dip = cast.a_ladder_dip(ladder, hours_ago=4, minutes=None)
    name, to_do, then, _done = at(client, ladder)
    assert name == "out-1" and "out after 5 minutes" in to_do
    assert "The strip marked 1 is done" in then and "marked 2, 4 hang for 15 minutes" in then
    dip.delete()
    cast.a_ladder_dip(ladder, hours_ago=4)
    name, to_do, _then, done = at(client, ladder)
    assert name == "in-2" and "the strips marked 2, 4 go in" in to_do and done == "Done, hanging apart: 1."
    cast.a_ladder_dip(ladder, hours_ago=3)
    cast.a_ladder_dip(ladder, hours_ago=2)
    name, to_do, _then, done = at(client, ladder)
    assert name == "in-4" and "the strip marked 4 goes in" in to_do and done == "Done, hanging apart: 1, 2."
    cast.a_ladder_dip(ladder, hours_ago=1)
    name, to_do, then, _done = at(client, ladder)
    assert (name, to_do) == ("end", "All dips are done.") and "one photo of all with your card" in then
    page = shown(client, ladder)
    assert page.said == "" and page.clock.out_ms is None, "nothing waits for a further dip"


def test_all_steps_are_there_for_a_browser_that_loses_its_network(client: Client, ladder: Ladder) -> None:
    page = client.get(url("ladders.dips", key=ladder.pk))
    names = [step.name for step in page.context["page"].steps]
    assert names == [f"{way}-{number}" for number in (1, 2, 3, 4) for way in ("in", "out")] + ["end"]
    told = page.content.decode()
    assert told.count("data-step=") == 9 and told.count('data-step="in-1">') == 1, "only the first is in sight"


def test_the_clock_runs_by_the_dips_that_are_written_down(client: Client, ladder: Ladder) -> None:
    """Own hand: five minutes in the vat, fifteen in the air, as the ladder was planned."""
    first, second = cast.a_ladder_dip(ladder, hours_ago=2), cast.a_ladder_dip(ladder, hours_ago=0.05, minutes=None)
    clock = shown(client, ladder).clock
    assert (clock.dip, clock.done, clock.dip_s, clock.air_s) == (str(second.pk), 1, 300.0, 900.0)
    assert clock.began_ms == round(1000 * second.began_at.timestamp())
    assert clock.known == (f"{first.pk}:out", str(second.pk))
    assert shown(client, ladder).dips[0].said.endswith("5.0 minutes")


def test_an_onlooker_sees_it_without_its_buttons(ladder: Ladder) -> None:
    page = visitor("onlooker").get(url("ladders.dips", key=ladder.pk)).content.decode()
    assert "all 3 go in" in page and "dips.js" not in page and "tap out" not in page


def test_more_dips_need_no_more_statements(client: Client, ladder: Ladder) -> None:
    cast.a_ladder_dip(ladder, hours_ago=9)
    where = url("ladders.dips", key=ladder.pk)
    flat(client, where, lambda: [cast.a_ladder_dip(ladder, hours_ago=hours) for hours in (8, 7)])


def test_only_one_s_own_and_only_read(client: Client, ladder: Ladder, theirs: Ladder) -> None:
    for key in (NOBODY, theirs.pk):
        assert client.get(url("ladders.dips", key=key)).status_code == 404
    only(client, url("ladders.dips", key=ladder.pk), "get")
    to_the_start_without_a_garden(client, url("ladders.dips", key=ladder.pk))
