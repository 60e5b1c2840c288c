"""`/learned/others/`: what other gardens taught, and what that changes here."""

from datetime import timedelta

import pytest
from django.test import Client

from bluewright.journal.bridge import learned
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/learned/others/"


def test_with_nothing_taken_in_it_says_so(client: Client, garden: Garden) -> None:
    page = client.get(WHERE).context["page"]
    assert (page.rows, page.here, page.table) == ((), "", None)


def test_the_latest_is_in_use_and_told_with_what_it_changes(client: Client, garden: Garden) -> None:
    cast.others_taught(garden, name="the hill")
    cast.others_taught(garden)
    page = client.get(WHERE).context["page"]
    assert [(row.name, row.in_use) for row in page.rows] == [("the valley", True), ("the hill", False)]
    assert page.here.startswith("By your tubs alone the next gives ")
    assert page.table.rows[0][1][0] == "what the leaf holds"
    kept, _fresh = learned.kept(garden)
    assert kept is not None and kept.answer is not None and kept.alone is not None
    assert kept.answer.pure_g_per_kg.p50 < 0.9 * kept.alone.p50, "other gardens' leaf was poor"


def test_a_garden_s_first_tub_begins_from_it(client: Client, garden: Garden) -> None:
    for steep in learned.queries.strained(garden):
        cast.left_out(steep)
    cast.others_taught(garden)
    assert "has no strained tub yet" in client.get(WHERE).context["page"].here
    tub = cast.a_tub(garden)
    record = steep_record(tub, air=(), now=tub.started_at + timedelta(hours=3))
    taught = learned.taught(record, tub).garden
    assert taught is not None and taught.moves["content_mmol_per_kg"].centre_z < -0.2


def test_as_many_queries_for_many_as_for_one(client: Client, garden: Garden) -> None:
    cast.others_taught(garden)
    flat(client, WHERE, lambda: [cast.others_taught(garden) for _ in range(3)])


def test_the_same_as_json(client: Client, garden: Garden) -> None:
    assert set(client.get(WHERE, {"as": "json"}).json()) == {"rows", "here", "table"}


def test_another_garden_s_rows_stay_there(client: Client, garden: Garden, other_garden: Garden) -> None:
    cast.others_taught(other_garden)
    assert client.get(WHERE).context["page"].rows == ()


def test_only_reading(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)
