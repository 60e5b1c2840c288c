"""`/compare/add/`: a trial is laid down with sealed lots."""

import pytest
from django.test import Client

from bluewright.journal.bridge.trials import laid_out, plan_record
from bluewright.journal.models import Garden, Trial, TrialTub
from tests.web.checks import no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/compare/add/"
TYPED = {
    "name": "Third day", "question": "Does a third day give more?", "ways": "two days\nthree days", "differs": "hours",
    "assigned": "lot", "outcome": "pure_blue", "tubs": "2", "days": "3", "leaf": "6 kg", "worth": "25",
    "spoilt_if": "frost", "note": "",
}  # fmt: skip


def test_its_lots_are_drawn_sealed_and_can_be_told_again_by_their_seal(client: Client, garden: Garden) -> None:
    response = client.post(WHERE, TYPED, follow=True)
    row = Trial.objects.get()
    assert response.redirect_chain == [(url("compare.show", key=row.pk), 302)]
    assert (row.ways, row.worth_finding_frac, row.leaf_kg, row.leaf_typed) == (
        ["two days", "three days"], 0.25, 6.0, "6 kg",
    )  # fmt: skip
    lots = list(row.lots.all())
    assert [lot.number for lot in lots] == [1, 2, 3, 4, 5, 6]
    assert [sorted(lot.way for lot in lots if lot.block == block) for block in "123"] == [
        ["three days", "two days"]
    ] * 3
    assert all(lot.opened_at is None for lot in lots)
    assert laid_out(plan_record(row)).seal == row.seal
    assert url("compare.delete", key=row.pk) in [message.extra_tags for message in response.context["messages"]]


def test_what_it_could_show_is_told_before_anything_is_written(client: Client, garden: Garden) -> None:
    unchanged = no_rows(Trial, TrialTub)
    response = client.post(WHERE, TYPED | {"see": "1", "name": "", "question": "", "days": "6"})
    shows = response.context["shows"]
    assert response.status_code == 200
    assert shows.first.startswith("6 pairs: a difference of 25% would show clearly with chance")
    assert not any("envelope" in table.head for table in shows.tables), "no lot is told"
    assert 'name="days" value="6"' in response.content.decode()
    assert "data-answered" in response.content.decode(), "it was sent, and is no draft that found no answer"
    unchanged()


def test_hours_and_what_they_must_bring_are_laid_down(client: Client, garden: Garden) -> None:
    client.post(WHERE, TYPED | {"hours": "3\n3,5", "least_per_h": "0.8", "gain": "10"})
    row = Trial.objects.get()
    assert (row.work_h, row.least_g_per_h, row.least_gain_frac) == ([3.0, 3.5], 0.8, 0.1)


@pytest.mark.parametrize(
    ("change", "field", "says"),
    [
        ({"ways": "two days"}, "ways", "two ways to 6"),
        ({"ways": "a\na"}, "ways", "stands there twice"),
        ({"ways": "a\nb\nc"}, "tubs", "fewer than the 3 ways"),
        ({"leaf": "6 L"}, "leaf", "not a mass"),
        ({"question": ""}, "question", "required"),
        ({"hours": "3"}, "hours", "1 numbers for 2 ways"),
        ({"hours": "3\nlong"}, "hours", "number"),
        ({"least_per_h": "2", "hours": ""}, "least_per_h", "the hours of each way"),
        ({"least_per_h": "2", "hours": "3\n3", "outcome": "powder"}, "least_per_h", "pure blue"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, change: dict[str, str], field: str, says: str
) -> None:
    unchanged = no_rows(Trial, TrialTub)
    refused(client, WHERE, TYPED | change, field=field, says=says)
    unchanged()


def test_it_asks_and_posts_only(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")
    to_the_start_without_a_garden(client, WHERE)
