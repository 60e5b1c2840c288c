"""`/bench/`: the list of calculators."""

import pytest
from django.test import Client

from bluewright.cli.commands import COMMANDS
from bluewright.journal.models import Garden
from bluewright.web.pages.bench.calculators import TABLE
from tests.cast import a_garden
from tests.cli.commands import RECORD_COMMANDS
from tests.web.checks import flat, only, url

pytestmark = pytest.mark.django_db
WHERE = url("bench.index")


def test_every_command_with_a_record_has_its_calculator_and_its_question(client: Client) -> None:
    """The words of a command with a dash are its place on the bench; they ask the same question.

    A command of one word takes a garden's whole record: it has a page of the journal instead.
    """
    asked = {words.replace(" ", "-"): command.question for words, command in RECORD_COMMANDS.items() if " " in words}
    assert {calculator.slug: calculator.question for calculator in TABLE} == asked
    assert len(TABLE) == len([c for c in COMMANDS if len(c.words) == 2 and c.words[0] != "photo"])
    page = client.get(WHERE).content.decode()
    for slug, question in asked.items():
        assert url("bench.show", calculator=slug) in page
        assert question.replace("'", "&#x27;") in page


def test_each_calculator_stands_under_one_heading(client: Client) -> None:
    rooms = client.get(WHERE).context["rooms"]
    assert sorted(one.slug for room in rooms for one in room.calculators) == sorted(one.slug for one in TABLE)
    assert all(room.calculators for room in rooms)


def test_it_needs_no_garden(client: Client) -> None:
    assert not Garden.objects.exists()
    assert client.get(WHERE).status_code == 200


def test_each_page_leads_to_it(client: Client) -> None:
    assert WHERE in client.get(url("gardens.begin")).content.decode()


def test_other_methods_are_refused(client: Client) -> None:
    only(client, WHERE, "get")


def test_more_gardens_need_no_more_statements(client: Client, garden: Garden) -> None:
    flat(client, WHERE, a_garden)
