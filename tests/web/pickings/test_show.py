"""`/pickings/<key>/`: one picking, the thread both ways."""

import pytest
from django.contrib.auth import get_user_model
from django.test import Client

from bluewright.journal.actions.beds import add_picking
from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Bed, Garden, Picking
from tests.cast import a_bed, a_picking, a_tub, moment
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(picking: Picking) -> str:
    return url("pickings.show", key=picking.pk)


def test_it_tells_from_which_beds_and_into_which_tubs_the_leaf_went(client: Client, garden: Garden) -> None:
    """Own hand: of 5 kg, 2 and 1.5 kg are in tubs: 1.5 kg is left."""
    bed = Bed.objects.get(garden=garden, name="Long bed")
    picking = a_picking(garden, beds_of=[bed], leaf_kg=5.0, leaf_typed="5 kg", damaged_frac=0.2, note="dewy")
    tubs = [a_tub(garden, name=name, leaf=[(picking, kg)]) for name, kg in (("A", 2.0), ("B", 1.5))]
    page = client.get(where(picking)).context["page"]
    assert [(source.key, source.name) for source in page.sources] == [(str(bed.pk), "Long bed")]
    assert {part.key for part in page.parts} == {str(tub.pk) for tub in tubs}
    assert (page.leaf, page.left, page.note) == ("5 kg", "1.5 kg", "dewy")
    assert (page.facts, page.condition) == ("woad, young leaf", "clearly damaged (20%)")
    text = client.get(where(picking)).content.decode()
    for link in (url("beds.show", key=bed.pk), *(url("tubs.show", key=tub.pk) for tub in tubs)):
        assert link in text


def test_a_tub_points_back_to_it(client: Client, garden: Garden) -> None:
    picking = a_picking(garden)
    tub = a_tub(garden, leaf=[(picking, 3.0)])
    assert where(picking) in client.get(url("tubs.show", key=tub.pk)).content.decode()


def test_leaf_that_is_all_in_tubs_has_nothing_left(client: Client, garden: Garden) -> None:
    picking = a_picking(garden)
    a_tub(garden, leaf=[(picking, 3.0)])
    assert client.get(where(picking)).context["page"].left == ""


def test_it_tells_who_wrote_it_down_and_who_changed_it(client: Client, garden: Garden) -> None:
    wren, finch = (get_user_model().objects.create(username=name) for name in ("wren", "finch"))
    picking = Picking(garden=garden, picked_at=moment(3), plant="woad", leaf_kg=2.0, leaf_typed="2 kg")
    add_picking(picking, beds=[], by=wren)
    picking.age = "old"
    keep(picking, by=finch)
    page = client.get(where(picking)).context["page"]
    assert page.written.endswith("by wren.")
    assert [(row.who, row.said) for row in page.history] == [("finch", "Corrected. Before, it said: leaf mixed.")]


def test_as_json_it_is_the_same(client: Client, garden: Garden) -> None:
    assert client.get(where(a_picking(garden)), {"as": "json"}).json()["leaf"] == "3 kg"


def test_there_is_no_picking_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("pickings.show", key=NOBODY)).status_code == 404


def test_a_stranger_s_picking_is_not_shown(client: Client, other_garden: Garden) -> None:
    assert client.get(where(Picking.objects.get(garden=other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("pickings.show", key=NOBODY))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(a_picking(garden)), "get")


def test_more_beds_and_tubs_need_no_more_statements(client: Client, garden: Garden) -> None:
    picking = a_picking(garden, beds_of=[a_bed(garden)])
    a_tub(garden, leaf=[(picking, 1.0)])
    flat(client, where(picking), lambda: [a_tub(garden, leaf=[(picking, 0.5)]) for _ in range(3)])
