"""`/jarlooks/<kind>/<key>/`: what the latest jar says, its course, every look."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Steep
from tests.cast import moment, typed
from tests.known_photos import BROWN_LIQUOR
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.measuring import a_jar_look
from tests.web.working import an_aired_batch

pytestmark = pytest.mark.django_db


def where(of: object, kind: str) -> str:
    return url("jarlooks.show", kind=kind, key=of.pk)  # type: ignore[attr-defined]


def test_a_series_tells_its_verdict_and_draws_its_course(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    a_jar_look(client, garden, of=batch, kind="batch", light=BROWN_LIQUOR, after_min="0", aired_min="0")
    a_jar_look(client, garden, of=batch, kind="batch", seed=2, after_min="15", aired_min="10")
    page = client.get(where(batch, "batch")).context["page"]
    assert page.answer.first.startswith("Blue dye is there")
    assert "Is blue still forming in Batch 9?" in page.answer.chart
    assert "50 mL" in page.answer.chart, "the dose is marked"
    assert [row.read for row in page.looks] == ["The airing reads it.", "The airing reads it."]
    assert "15 min after; settled or filtered; 7 cm; thinned 5 times; dye index of a jar +0.20" in page.looks[0].said
    assert "before the alkali" in page.looks[1].said


def test_of_a_tub_the_jars_of_other_days_do_not_mix(client: Client, garden: Garden, steeping: Steep) -> None:
    """A new jar each time: only looks whose alkali went in within half an hour are one series."""
    a_jar_look(client, garden, of=steeping, kind="tub", seen_at=typed(moment(20)))
    a_jar_look(client, garden, of=steeping, kind="tub", seed=2, after_min="10")
    page = client.get(where(steeping, "tub")).context["page"]
    assert len(page.looks) == 2
    assert page.answer.tables[0].rows[0][1][0] == "10"
    assert len(page.answer.tables[0].rows) == 1


def test_without_a_look_it_says_how_to_begin_and_the_tub_leads_there(
    client: Client, garden: Garden, steeping: Steep
) -> None:
    response = client.get(where(steeping, "tub"))
    assert response.context["page"].answer is None
    assert "No jar yet." in response.content.decode()
    assert where(steeping, "tub") in client.get(url("tubs.show", key=steeping.pk)).content.decode()


def test_the_airing_and_the_batch_lead_there_too(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    for name in ("airing.show", "batches.show"):
        assert where(batch, "batch") in client.get(url(name, key=batch.pk)).content.decode()


def test_strangers_and_wrong_keys_get_nothing(client: Client, other_garden: Garden, strangers_tub: Steep) -> None:
    assert client.get(where(strangers_tub, "tub")).status_code == 404
    assert client.get(url("jarlooks.show", kind="tub", key=NOBODY)).status_code == 404
    assert client.get(url("jarlooks.show", kind="spoon", key=strangers_tub.pk)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jarlooks.show", kind="tub", key=NOBODY))


def test_it_is_only_read(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, where(steeping, "tub"), "get")


def test_more_looks_need_no_more_statements(client: Client, garden: Garden, steeping: Steep) -> None:
    a_jar_look(client, garden, of=steeping, kind="tub")
    flat(client, where(steeping, "tub"), lambda: a_jar_look(client, garden, of=steeping, kind="tub", seed=2))


def test_its_json_twin_says_the_same(client: Client, garden: Garden, steeping: Steep) -> None:
    a_jar_look(client, garden, of=steeping, kind="tub")
    page, twin = client.get(where(steeping, "tub")).context["page"], client.get(where(steeping, "tub"), {"as": "json"})
    assert twin.json()["answer"]["first"] == page.answer.first
