"""`/tubs/<key>/change/`: correct what was written of a tub."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Steep
from tests.cast import a_look, a_picking, a_tub, moment, typed
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def tub(steeping: Steep) -> Steep:
    return a_tub(steeping.garden, can_strain="08:00 18:30", insulated=True, cut="torn")


def where(tub: Steep) -> str:
    return url("tubs.change", key=tub.pk)


def test_it_is_filled_with_what_was_typed(client: Client, tub: Steep) -> None:
    assert filled_with(client, where(tub)) == {
        "name": "Tub 9", "plant": "woad", "started_at": typed(moment(20)), "water": "30 L", "method": "cold",
        "cut": "torn", "covered": "on", "insulated": "on", "sun": "part", "can_strain": "08:00 18:30", "leaf": "",
        "pickings": [str(tub.leaf.get().picking_id)],
    }  # fmt: skip


def test_a_correction_is_written_and_told_and_keeps_the_rest(client: Client, tub: Steep) -> None:
    """A US gallon is 3.785411784 L by definition."""
    part = tub.leaf.get()
    entry = filled_with(client, where(tub)) | {"water": "10 gal"}
    response = client.post(where(tub), entry, follow=True)
    assert response.redirect_chain == [(url("tubs.show", key=tub.pk), 302)]
    changed = Steep.objects.get(pk=tub.pk)
    assert changed.water_l == pytest.approx(37.85411784)
    assert (changed.water_typed, changed.seed, changed.started_at) == ("10 gal", tub.seed, tub.started_at)
    assert changed.leaf.get() == part
    (row,) = response.context["page"].history
    assert row.said == "Corrected. Before, it said: water 30 L."


def test_other_leaf_is_written_and_what_went_in_before_is_kept(client: Client, tub: Steep) -> None:
    """Own hand: 4 kg of pickings of 3 and 5 kg are 1.5 and 2.5 kg."""
    other = a_picking(tub.garden, leaf_kg=5.0, leaf_typed="5 kg")
    entry = filled_with(client, where(tub))
    entry |= {"pickings": [*entry["pickings"], str(other.pk)], "leaf": "4 kg"}
    response = client.post(where(tub), entry, follow=True)
    assert [part.leaf_kg for part in tub.leaf.order_by("leaf_kg")] == pytest.approx([1.5, 2.5])
    (row,) = response.context["page"].history
    assert row.said.startswith("Corrected. Before, it said: leaf in it 3 kg picked")


@pytest.mark.parametrize(("kg", "said"), [(1.0, "1 kg"), (3.0, "")])
def test_leaf_is_filled_in_only_where_not_all_of_it_went_in(client: Client, tub: Steep, kg: float, said: str) -> None:
    other = a_tub(tub.garden, leaf=[(a_picking(tub.garden), kg)])
    assert filled_with(client, where(other))["leaf"] == said


def test_nothing_corrected_is_nothing_written(client: Client, tub: Steep) -> None:
    client.post(where(tub), filled_with(client, where(tub)))
    assert not Change.objects.filter(row_id=tub.pk).exists()


def test_a_tub_did_not_begin_after_a_look_at_it(client: Client, tub: Steep) -> None:
    a_look(tub, hours_ago=5)
    entry = filled_with(client, where(tub)) | {"started_at": typed(moment(2))}
    refused(client, where(tub), entry, field="started_at", says="was looked at before that")
    assert Steep.objects.get(pk=tub.pk).started_at == tub.started_at


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("water", "a bath", "bath"),
        ("name", "", "required"),
        ("can_strain", "25:00", "valid"),
        ("started_at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, tub: Steep, field: str, text: str, says: str) -> None:
    refused(client, where(tub), filled_with(client, where(tub)) | {field: text}, field=field, says=says)
    assert not Change.objects.filter(row_id=tub.pk).exists()


def test_there_is_no_tub_of_a_wrong_key(client: Client, tub: Steep) -> None:
    assert client.get(url("tubs.change", key=NOBODY)).status_code == 404


def test_a_stranger_s_tub_cannot_be_corrected(client: Client, strangers_tub: Steep) -> None:
    assert client.get(where(strangers_tub)).status_code == 404
    assert client.post(where(strangers_tub), {"name": "Mine"}).status_code == 404
    assert Steep.objects.get(pk=strangers_tub.pk).name == strangers_tub.name


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("tubs.change", key=NOBODY))


def test_other_methods_are_refused(client: Client, tub: Steep) -> None:
    only(client, where(tub), "get", "post")
