"""`/intake/`: the files of loggers that were brought in."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Steep
from tests.cast import a_garden
from tests.web.checks import flat, only, to_the_start_without_a_garden, url
from tests.web.intake.sent import bring, lines

pytestmark = pytest.mark.django_db
WHERE = "/intake/"


def test_each_file_is_shown_with_what_it_brought(client: Client, steeping: Steep) -> None:
    intake = bring(client, lines(), of=steeping)
    (row,) = client.get(WHERE).context["page"].intakes
    assert row.name == "log.csv"
    assert row.said.startswith("Tub 3; 36 temperatures. Written down")
    assert url("intake.show", key=intake.pk) in client.get(WHERE).content.decode()


def test_without_files_it_says_so(client: Client) -> None:
    a_garden()
    assert "No file yet" in client.get(WHERE).content.decode()


def test_a_stranger_s_files_are_not_shown(client: Client, steeping: Steep, other_garden: Garden) -> None:
    bring(client, lines(), of=steeping)
    client.post(url("gardens.open", key=other_garden.pk))
    assert client.get(WHERE).context["page"].intakes == ()


def test_as_json_it_is_the_same(client: Client, garden: Garden) -> None:
    assert client.get(WHERE, {"as": "json"}).json() == {"intakes": []}


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_files_need_no_more_statements(client: Client, steeping: Steep) -> None:
    bring(client, lines(), of=steeping)
    flat(client, WHERE, lambda: [bring(client, lines(step_min=m), of=steeping) for m in (7, 11)])
