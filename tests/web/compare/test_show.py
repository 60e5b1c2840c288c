"""`/compare/<key>/`: one trial, sealed lots, and what it says."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Garden, Strain, Trial, TrialTub
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(row: Trial) -> str:
    return url("compare.show", key=row.pk)


def test_a_sealed_lot_tells_its_way_to_nobody(client: Client, garden: Garden) -> None:
    row = cast.a_trial(garden, ways=["plain", "hidden-word"], open_lots=0)
    said = client.get(where(row)).content.decode().split('class="story"')[1].split("</ol>")[0]
    assert "sealed" in said
    assert "hidden-word" not in said
    page = client.get(where(row), {"as": "json"}).json()
    assert [lot["way"] for lot in page["lots"]] == [""] * 4
    assert page["next"] == "Next: envelope 1, picking 1, tub 1."
    assert "would show clearly with chance" in page["power"]


def test_the_result_waits_for_the_end(client: Client, garden: Garden) -> None:
    row = cast.a_trial(garden, open_lots=4)
    cast.weighed_by_hand(row, *(1.5 if lot.way == "clean" else 1.0 for lot in row.lots.all()))
    page = client.get(where(row)).context["page"]
    assert page.answer is None
    assert page.may_look
    row.ended_at = cast.moment()
    keep(row, by=None)
    page = client.get(where(row)).context["page"]
    assert page.answer.first.startswith("Spotted gives about 33% less pure blue beside clean")
    assert "2 pairs" in page.answer.first
    assert "<svg" in page.answer.chart
    assert not page.may_look


def test_a_tub_is_counted_from_its_jar_by_the_thread(client: Client, garden: Garden) -> None:
    """12 g of powder of which 30 % is indigo, from 5 kg of leaf: 0.72 g of pure blue from a kilogram."""
    row = cast.a_trial(garden, open_lots=1)
    strain = Strain.objects.get(steep__garden=garden)
    cast.a_jar((cast.a_batch(strain), 12.0), purity_frac=0.30, purity_sd_frac=0.03)
    lot = TrialTub.objects.filter(trial=row).exclude(opened_at=None).get()
    lot.steep = strain.steep
    keep(lot, by=None)
    assert client.get(where(row)).context["page"].lots[0].gave == "0.72 g/kg"


def test_liquor_that_was_joined_cannot_be_told_apart(client: Client, garden: Garden) -> None:
    row = cast.a_trial(garden, open_lots=1)
    strain = Strain.objects.get(steep__garden=garden)
    other = cast.a_straining(cast.a_tub(garden))
    cast.a_jar((cast.a_batch(strain, other), 20.0), purity_frac=0.30)
    lot = TrialTub.objects.filter(trial=row).exclude(opened_at=None).get()
    lot.steep = strain.steep
    keep(lot, by=None)
    assert "cannot be told apart" in client.get(where(row)).context["page"].lots[0].gave


def test_one_way_alone_is_no_result_yet(client: Client, garden: Garden) -> None:
    row = cast.a_trial(garden, open_lots=1, ended_at=cast.moment())
    page = client.get(where(row)).context["page"]
    assert page.answer is None
    assert "No result yet" in page.trouble


def test_more_lots_take_as_many_statements(client: Client, garden: Garden) -> None:
    row = cast.a_trial(garden, open_lots=1, days=6)
    cast.weighed_by_hand(row, 1.0)
    flat(client, where(row), lambda: TrialTub.objects.filter(trial=row, number__lt=9).update(opened_at=cast.moment()))


def test_only_one_s_own_and_only_read(client: Client, laid: Trial, theirs: Trial) -> None:
    assert client.get(where(theirs)).status_code == 404
    assert client.get(url("compare.show", key=NOBODY)).status_code == 404
    only(client, where(laid), "get")
    to_the_start_without_a_garden(client, where(laid))
