"""`/ladders/<key>/`: one ladder, its strips, and what they taught."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Ladder
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(row: Ladder) -> str:
    return url("ladders.show", key=row.pk)


def test_a_plan_says_which_strips_would_teach_most_and_that_it_guesses(client: Client, ladder: Ladder) -> None:
    page = client.get(where(ladder)).context["page"]
    assert page.stage == "planned"
    assert "without a swatch of yours" in page.answer.lines[0]
    assert page.rests == "Before it there were only guesses from literature."
    assert [strip.said for strip in page.strips] == ["not measured yet"] * 3


def test_measured_strips_tell_what_was_believed_before_and_now(client: Client, garden: Garden) -> None:
    """Four strips narrow L* of further cloth to less than half of what it was."""
    row = cast.a_done_ladder(garden)
    page = client.get(where(row)).context["page"]
    answer = client.get(url("ladders.why", key=row.pk, figure="per_dip_pct")).context["page"]
    assert page.stage == "done"
    assert "before these swatches it was" in page.answer.lines[0]
    assert page.answer.tables[0].caption == "Your swatches beside what is now believed"
    assert "<svg" in page.answer.chart
    assert answer.figure.said


def test_a_second_ladder_begins_with_what_the_first_taught(client: Client, garden: Garden) -> None:
    cast.a_done_ladder(garden, hours_ago=80)
    second = cast.a_ladder(garden)
    cast.a_rung(second, 3)
    page = client.get(where(second)).context["page"]
    assert page.rests == "Before it the figures rested on 1 other ladder of wool, 4 strips."


def test_what_cannot_be_is_said_instead_of_an_answer(client: Client, garden: Garden) -> None:
    row = cast.a_ladder(garden, strip_g=1000.0, bath_l=1.0)
    cast.a_rung(row, 1)
    page = client.get(where(row)).context["page"]
    assert page.answer is None and "too little" in page.trouble


def test_more_strips_take_as_many_statements_as_one(client: Client, ladder: Ladder) -> None:
    flat(client, where(ladder), lambda: [cast.a_rung(ladder, dips) for dips in (5, 6, 7)])


def test_only_one_s_own_and_only_read(client: Client, ladder: Ladder, theirs: Ladder) -> None:
    assert client.get(where(theirs)).status_code == 404
    assert client.get(url("ladders.show", key=NOBODY)).status_code == 404
    only(client, where(ladder), "get")
    assert client.get(where(ladder), {"as": "json"}).json()["stage"] == "planned"
    to_the_start_without_a_garden(client, where(ladder))
