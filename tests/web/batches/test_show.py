"""`/batches/<key>/`: one batch, its stages and its story."""

from typing import Any

import pytest
from django.test import Client

from bluewright.journal import written
from bluewright.journal.models import Batch, Garden, Steep
from bluewright.journal.written import Counts
from bluewright.web.pages.costs import beside
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def batch(strained: Steep) -> Batch:
    return cast.a_batch(strained.strains.get(), name="First blue")


def where(batch: Batch) -> str:
    return url("batches.show", key=batch.pk)


def test_it_says_where_it_came_from_and_what_comes_next(client: Client, batch: Batch, strained: Steep) -> None:
    """38 L were measured at straining, of 5 kg of leaf."""
    page = client.get(where(batch)).context["page"]
    assert "38 L" in page.head.facts
    assert "5 kg" in page.head.facts
    assert page.tubs == (("Tub 2", url("tubs.show", key=strained.pk)),)
    assert [(one.name, one.state) for one in page.head.stages[:3]] == [
        ("Liquor", "done"), ("Alkali", "next"), ("Air", "later")
    ]  # fmt: skip


def test_it_leads_to_what_it_wants_next(client: Client, batch: Batch) -> None:
    assert client.get(where(batch)).context["page"].next.href == url("alkali.dose", key=batch.pk)
    cast.an_alkali_part(batch, cast.an_alkali(batch.garden))
    assert client.get(where(batch)).context["page"].next.href == url("airing.show", key=batch.pk)
    cast.an_airing(batch, ended_at=cast.moment(0.1))
    assert client.get(where(batch)).context["page"].next.href == url("settling.show", key=batch.pk)
    cast.a_jar((batch, 10.0))
    assert client.get(where(batch)).context["page"].next is None


def test_a_stage_that_takes_days_wants_doing_until_it_is_over(client: Client, batch: Batch) -> None:
    cast.an_alkali_part(batch, cast.an_alkali(batch.garden))
    cast.an_airing(batch, ended_at=cast.moment(0.2))
    cast.a_standing(batch)
    stages = client.get(where(batch)).context["page"].head.stages
    assert [one.state for one in stages[3:]] == ["next", "later", "later"]
    drying = cast.a_drying(batch)
    stages = client.get(where(batch)).context["page"].head.stages
    assert [one.state for one in stages[3:]] == ["done", "next", "later"], "it is on the rack"
    drying.ended_at = cast.moment()
    cast.keep(drying, by=None)
    stages = client.get(where(batch)).context["page"].head.stages
    assert [one.state for one in stages[3:]] == ["done", "done", "next"]


def test_its_story_tells_everything_the_newest_first(client: Client, batch: Batch) -> None:
    soda = cast.an_alkali(batch.garden)
    cast.a_liquor_look(batch, hours_ago=0.45, ph=6.2, temp_c=17.0, temp_typed="17 C")
    cast.a_jar_test(batch, soda, (2.0, 9.2))
    cast.an_alkali_part(batch, soda, ph=9.4)
    cast.an_airing(batch)
    cast.a_standing(batch, hours_ago=0.2)
    cast.a_standing(batch, hours_ago=0.15, refill_l=20.0, refill_typed="20 L", decanted_at=cast.moment(0.1))
    cast.a_drying(batch, (0.02, 180.0), started_at=cast.moment(0.05))
    story = [one.said for one in client.get(where(batch)).context["page"].story]
    assert story == [
        "put to dry; last weighed 180 g with the dish",
        "washed with 20 L of fresh water, and decanted",
        "left to settle",
        "poured from vessel to vessel: 20 pours, 10 minutes",
        "50 mL soda, half molar; pH 9.4",
        "jar titration of 500 mL with soda, half molar",
        "liquor 17 C; pH 6.2",
    ]


def test_liquor_of_unknown_volume_and_no_leaf_says_what_is_missing(client: Client, garden: Garden) -> None:
    strain = cast.a_straining(cast.a_tub(garden, leaf=[]))
    page = client.get(where(cast.a_batch(strain))).context["page"]
    assert "leaf_kg" in page.head.facts


def test_a_batch_poured_on_names_the_one_it_went_into(client: Client, batch: Batch) -> None:
    cast.a_batch(batch, name="The great tub")
    page = client.get(where(batch)).context["page"]
    assert "The great tub" in page.head.over
    assert not page.can_end


def test_there_is_no_batch_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("batches.show", key=NOBODY)).status_code == 404


def test_a_stranger_s_batch_is_not_there(client: Client, strangers_tub: Steep) -> None:
    assert client.get(where(cast.a_batch(strangers_tub.strains.get()))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("batches.show", key=NOBODY))


def test_it_is_only_read(client: Client, batch: Batch) -> None:
    only(client, where(batch), "get")


def test_more_parts_need_no_more_statements(client: Client, batch: Batch) -> None:
    soda = cast.an_alkali(batch.garden)
    cast.an_alkali_part(batch, soda)
    cast.a_standing(batch, edges=[(0.1, 200.0)])
    flat(client, where(batch), lambda: [(cast.an_alkali_part(batch, soda), cast.a_standing(batch)) for _ in range(3)])


def test_its_json_twin_says_the_same(client: Client, batch: Batch) -> None:
    twin = client.get(where(batch), {"as": "json"}).json()
    assert twin["head"]["name"] == "First blue"
    assert twin["head"]["facts"] == client.get(where(batch)).context["page"].head.facts


def test_it_tells_what_the_batch_and_a_gram_of_its_blue_cost_as_the_costs_do(client: Client, garden: Garden) -> None:
    garden.wage_money_per_h, garden.currency = 12.0, "EUR"
    garden.save()
    jar = cast.a_jar_from_the_bed(garden)
    batch = Batch.objects.get(jarred__jar=jar)
    cast.an_alkali_part(batch, cast.an_alkali(garden, name="soda"))
    page = client.get(url("batches.show", key=batch.pk))
    said = " ".join(page.context["page"].cost)
    assert "of work and" in said
    assert "Alkali: soda " in said
    assert "A gram of its pure blue cost " in said
    first = client.get(url("costs.index")).context["page"].answer.first
    assert first.partition(" cost ")[2].rstrip(".") in said, "the same band as the Costs have of their one batch"
    assert "What it cost" in page.content.decode()


def test_a_note_of_work_written_since_is_in_it(client: Client, garden: Garden) -> None:
    batch = Batch.objects.get(jarred__jar=cast.a_jar_from_the_bed(garden))
    before = client.get(url("batches.show", key=batch.pk)).context["page"].cost
    cast.a_work_note(garden, 600.0, kind="airing", batch=batch)
    assert client.get(url("batches.show", key=batch.pk)).context["page"].cost != before


def test_a_server_works_its_cost_out_beside_the_page(
    client: Client, garden: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    batch = Batch.objects.get(jarred__jar=cast.a_jar_from_the_bed(garden))
    cast.a_work_note(garden, batch=batch)
    asked: list[Any] = []
    monkeypatch.setattr(beside.ASIDE, "ask", lambda _key, work: asked.append(work) or True)
    monkeypatch.setattr(beside.ASIDE, "waits", lambda _key: True)
    monkeypatch.setattr(written, "counts", lambda: Counts(1, {}))
    page = client.get(url("batches.show", key=batch.pk))
    assert page.context["page"].cost_waits
    assert "is being worked out" in page.content.decode()
    asked[0]()
    assert client.get(url("batches.show", key=batch.pk)).context["page"].cost
