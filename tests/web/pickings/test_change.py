"""`/pickings/<key>/change/`: correct what was written of a picking."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Bed, Change, Garden, Picking
from tests.cast import a_bed, a_picking, a_tub, moment, typed
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def picking(garden: Garden) -> Picking:
    bed = Bed.objects.get(garden=garden, name="Long bed")
    return a_picking(garden, beds_of=[bed], damaged_frac=0.1, damaged_typed="10 %", note="dewy")


def where(picking: Picking) -> str:
    return url("pickings.change", key=picking.pk)


def test_it_is_filled_with_what_was_typed(client: Client, picking: Picking) -> None:
    assert filled_with(client, where(picking)) == {
        "picked_at": typed(moment(22)), "plant": "woad", "leaf": "3 kg", "age": "young", "timing": "",
        "damaged": "10 %",
        "note": "dewy", "beds": [str(picking.beds.get().pk)],
    }  # fmt: skip


def test_a_correction_is_written_with_its_beds_and_what_it_said_before_is_kept(
    client: Client, picking: Picking
) -> None:
    hedge = Bed.objects.get(garden=picking.garden, name="Under the hedge")
    entry = filled_with(client, where(picking)) | {"beds": [str(hedge.pk)], "age": "old", "damaged": ""}
    response = client.post(where(picking), entry)
    assert (response.status_code, response["Location"]) == (302, url("pickings.show", key=picking.pk))
    changed = Picking.objects.get(pk=picking.pk)
    assert list(changed.beds.all()) == [hedge]
    assert (changed.age, changed.damaged_frac, changed.damaged_typed) == ("old", 0.0, "")
    (row,) = client.get(url("pickings.show", key=picking.pk)).context["page"].history
    assert row.said == "Corrected. Before, it said: leaf young; damaged 10 %; beds Long bed."


def test_nothing_corrected_is_nothing_written(client: Client, picking: Picking) -> None:
    client.post(where(picking), filled_with(client, where(picking)))
    assert not Change.objects.filter(row_id=picking.pk).exists()


def test_a_tub_that_took_all_of_it_is_corrected_with_it(client: Client, picking: Picking) -> None:
    whole = a_tub(picking.garden, name="Whole", leaf=[(picking, 3.0)])
    part = a_tub(picking.garden, name="Part", leaf=[(picking, 1.0)])
    response = client.post(where(picking), filled_with(client, where(picking)) | {"leaf": "4 kg"}, follow=True)
    assert "The leaf in Whole is corrected with it." in response.content.decode()
    assert [(p.leaf_kg, p.leaf_typed) for p in whole.leaf.all()] == [(4.0, "4 kg")]
    assert [(p.leaf_kg, p.leaf_typed) for p in part.leaf.all()] == [(1.0, "1 kg")]
    (row,) = client.get(url("tubs.show", key=whole.pk)).context["page"].history
    assert "leaf in it 3 kg picked" in row.said


def test_a_bed_that_was_taken_out_stays_its_source(client: Client, picking: Picking) -> None:
    bed = picking.beds.get()
    delete(bed, by=None)
    client.post(where(picking), filled_with(client, where(picking)) | {"age": "old"})
    assert [source.bed for source in picking.sources.all()] == [bed]
    elsewhere = a_picking(picking.garden, beds_of=[a_bed(picking.garden)])
    assert str(bed.pk) not in client.get(where(elsewhere)).content.decode()


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [("leaf", "some", "some"), ("damaged", "120 %", "120"), ("picked_at", "2999-07-01T08:00", "still to come")],
)
def test_a_mistake_keeps_what_was_typed(client: Client, picking: Picking, field: str, text: str, says: str) -> None:
    refused(client, where(picking), filled_with(client, where(picking)) | {field: text}, field=field, says=says)
    assert not Change.objects.filter(row_id=picking.pk).exists()


def test_leaf_that_is_in_a_tub_of_woad_is_woad(client: Client, picking: Picking) -> None:
    a_tub(picking.garden, leaf=[(picking, 3.0)])
    entry = filled_with(client, where(picking)) | {"plant": "indigofera"}
    refused(client, where(picking), entry, field="plant", says="Its leaf is in Tub 9, a tub of woad")
    assert Picking.objects.get(pk=picking.pk).plant == "woad"


def test_there_is_no_picking_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("pickings.change", key=NOBODY)).status_code == 404


def test_a_stranger_s_picking_cannot_be_corrected(client: Client, other_garden: Garden) -> None:
    theirs = Picking.objects.get(garden=other_garden)
    assert client.get(where(theirs)).status_code == 404
    assert client.post(where(theirs), {"leaf": "1 kg"}).status_code == 404
    assert Picking.objects.get(pk=theirs.pk).leaf_typed == theirs.leaf_typed


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("pickings.change", key=NOBODY))


def test_other_methods_are_refused(client: Client, picking: Picking) -> None:
    only(client, where(picking), "get", "post")
