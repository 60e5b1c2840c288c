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
    assert "2 pairs: a difference of 20% would show clearly" in page["power"]["first"]
    assert "hidden-word" not in str(page["power"])


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


def test_grams_for_an_hour_decide_where_they_were_asked(client: Client, garden: Garden) -> None:
    """6 kg give 6 g of pure blue: two of three hours' worth at 3 g asked, and not at 1 g."""
    for asked, said in ((3.0, "Not worth it"), (1.0, "Worth it by what you asked")):
        row = cast.a_trial(
            garden, days=4, open_lots=8, ended_at=cast.moment(), work_h=[3.0, 3.0], least_g_per_h=asked
        )  # fmt: skip
        cast.weighed_by_hand(row, *(1.1 if lot.way == "clean" else 1.0 for lot in row.lots.all()))
        page = client.get(where(row)).context["page"]
        assert any(line.startswith(said) for line in page.answer.lines), page.answer.lines
        assert ("Work for a tub", "clean 3 h, spotted 3 h") in page.facts


def test_an_ended_trial_teaches_the_next_how_unlike_tubs_are(client: Client, garden: Garden) -> None:
    quiet = cast.a_trial(garden, days=6, open_lots=12, hours_ago=400, ended_at=cast.moment(200))
    cast.weighed_by_hand(quiet, *(1.0 + 0.01 * lot.number for lot in quiet.lots.all()))
    row, before = cast.a_trial(garden, days=4), cast.a_trial(garden, days=4, hours_ago=300)
    taught, guessed = (client.get(where(one)).context["page"].power for one in (row, before))
    assert any("from 6 pairs of your own" in line for line in taught.lines)
    assert any("is a guess" in line for line in guessed.lines), "it was laid down before the other had ended"


def test_what_could_fool_one_is_told_from_the_rows(client: Client, garden: Garden) -> None:
    """Ended with one of two pairs set on two days, of two pickings, in three ways."""
    row = cast.a_trial(garden, ways=["a", "b", "c"], tubs=3, open_lots=3, assigned="lot", ended_at=cast.moment())
    tubs = [cast.a_tub(garden, started_at=cast.moment(hours)) for hours in (60, 59, 20)]
    for lot, tub in zip(row.lots.all()[:3], tubs, strict=True):
        lot.steep = tub
        keep(lot, by=None)
    cast.weighed_by_hand(row, 1.0, 1.2, 1.1)
    notes = " ".join(client.get(where(row)).context["page"].answer.to_know)
    for said in (
        "1 of 2 laid down", "2 comparisons in the same tubs", "never made on the same day", "leaf of one picking",
    ):  # fmt: skip
        assert said in notes, said


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
