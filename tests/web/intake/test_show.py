"""`/intake/<key>/`: what became of a file."""

from datetime import timedelta

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Steep
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.intake.sent import bring, lines

pytestmark = pytest.mark.django_db


def test_it_tells_what_was_written_and_what_was_left_out(client: Client, steeping: Steep) -> None:
    """Own hand: lines 2 to 37 are readings; 20 to 25 are taken away, a pause of 70 minutes; two are spoilt."""
    body = lines().splitlines()
    spoilt = [*body[:19], *body[25:], body[30], "rubbish", "2026-07-01 18:00,"]
    intake = bring(client, "\n".join(spoilt), of=steeping)
    page = client.get(url("intake.show", key=intake.pk)).context["page"]
    assert page.told == (
        "30 temperatures written.",
        "1 skipped: the time of a line before.",
        "2 lines could not be read.",
        "Usually one each 10 minutes; 1 gap of more than three times that.",
    )
    assert page.unread == ("Line 33: it has too few columns.", "Line 34: it has no temperature.")
    assert len(page.gaps) == 1
    assert page.gaps[0].endswith("70 minutes without a reading")
    assert (page.of, page.steep_key) == ("Tub 3", str(steeping.pk))


def test_of_the_air_and_of_a_tub_that_was_taken_out_there_is_no_tub_to_open(client: Client, steeping: Steep) -> None:
    air, tub = bring(client, lines(), of=None), bring(client, lines(), of=steeping)
    delete(steeping, by=None)
    pages = [client.get(url("intake.show", key=one.pk)).context["page"] for one in (air, tub)]
    assert [(page.of, page.steep_key) for page in pages] == [("the air of the garden", ""), ("Tub 3", "")]


def test_a_length_is_said_in_a_unit_that_fits() -> None:
    from bluewright.web.pages.intake.page import _length

    spans = [timedelta(seconds=40), timedelta(minutes=10), timedelta(hours=5.5), timedelta(days=4)]
    assert [_length(span.total_seconds()) for span in spans] == ["40 seconds", "10 minutes", "5.5 hours", "4 days"]


def test_as_json_it_is_the_same(client: Client, steeping: Steep) -> None:
    intake = bring(client, lines(), of=steeping)
    assert client.get(url("intake.show", key=intake.pk), {"as": "json"}).json()["of"] == "Tub 3"


def test_there_is_no_file_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("intake.show", key=NOBODY)).status_code == 404


def test_a_stranger_s_file_is_not_shown(client: Client, steeping: Steep, other_garden: Garden) -> None:
    intake = bring(client, lines(), of=steeping)
    client.post(url("gardens.open", key=other_garden.pk))
    assert client.get(url("intake.show", key=intake.pk)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("intake.show", key=NOBODY))


def test_it_is_only_read(client: Client, steeping: Steep) -> None:
    only(client, url("intake.show", key=bring(client, lines(), of=steeping).pk), "get")


def test_more_readings_need_no_more_statements(client: Client, steeping: Steep) -> None:
    intake = bring(client, lines(), of=steeping)
    flat(client, url("tubs.show", key=steeping.pk), lambda: bring(client, lines(step_min=7), of=steeping))
    flat(client, url("intake.show", key=intake.pk), lambda: bring(client, lines(step_min=11), of=steeping))
