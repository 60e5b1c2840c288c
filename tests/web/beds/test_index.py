"""`/beds/`: all beds with what was taken from them."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden
from tests.cast import a_bed, a_garden, a_picking
from tests.web.checks import flat, only, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/beds/"


def names(client: Client) -> list[str]:
    return [bed.name for bed in client.get(WHERE).context["beds"]]


def test_each_bed_is_shown_with_its_pickings(client: Client, garden: Garden) -> None:
    a_picking(garden, beds_of=[a_bed(garden, name="East", area_typed="10 ft2", area_m2=0.93)], leaf_typed="7 lb")
    page = client.get(WHERE).content.decode()
    for said in ("East", "10 ft2", "7 lb", "Long bed", "Under the hedge"):
        assert said in page


def test_without_beds_it_says_so(client: Client) -> None:
    a_garden()
    assert "No bed yet" in client.get(WHERE).content.decode()


def test_a_bed_or_picking_that_was_taken_out_is_gone(client: Client, garden: Garden) -> None:
    bed = a_bed(garden, name="East")
    picking = a_picking(garden, beds_of=[bed], leaf_typed="7 lb")
    delete(picking, by=None)
    assert "7 lb" not in client.get(WHERE).content.decode()
    delete(bed, by=None)
    assert "East" not in names(client)


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_a_stranger_s_beds_are_not_shown(client: Client, other_garden: Garden) -> None:
    assert "Wall bed" not in names(client)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_beds_need_no_more_statements(client: Client, garden: Garden) -> None:
    flat(client, WHERE, lambda: [a_picking(garden, beds_of=[a_bed(garden)]) for _ in range(4)])
