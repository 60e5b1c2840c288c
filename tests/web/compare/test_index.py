"""`/compare/`: all trials."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Trial
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/compare/"


def test_without_a_trial_it_says_what_four_pairs_show(client: Client, garden: Garden) -> None:
    assert "make four pairs" in client.get(WHERE).content.decode()


def test_each_stands_with_its_question_and_how_far_it_is(client: Client, laid: Trial, theirs: Trial) -> None:
    rows = client.get(WHERE, {"as": "json"}).json()["rows"]
    assert [(row["name"], row["stands"]) for row in rows] == [("Spots", "0 of 4 tubs set")]


def test_more_take_as_many_statements_and_only_reading_is_allowed(client: Client, laid: Trial) -> None:
    flat(client, WHERE, lambda: cast.a_trial(laid.garden, open_lots=2))
    only(client, WHERE, "get")
    to_the_start_without_a_garden(client, WHERE)
