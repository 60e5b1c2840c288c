"""`/pickings/`: all pickings, where the leaf came from and where it went."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Steep
from tests.cast import a_bed, a_garden, a_picking, a_tub
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/pickings/"


def test_each_picking_is_shown_with_its_beds_and_tubs(client: Client, garden: Garden, steeping: Steep) -> None:
    page = client.get(WHERE).content.decode()
    for said in ("6 kg", "Long bed", "Under the hedge", url("tubs.show", key=steeping.pk)):
        assert said in page


def test_leaf_that_waits_can_be_put_in_a_tub(client: Client, garden: Garden) -> None:
    waiting = a_picking(garden)
    assert f"{url('tubs.begin')}?picking={waiting.pk}" in client.get(WHERE).content.decode()


def test_a_tub_that_was_taken_out_is_not_pointed_at(client: Client, garden: Garden) -> None:
    tub = a_tub(garden)
    delete(tub, by=None)
    assert url("tubs.show", key=tub.pk) not in client.get(WHERE).content.decode()


def test_without_pickings_it_says_so(client: Client) -> None:
    a_garden()
    assert "No picking yet" in client.get(WHERE).content.decode()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_a_stranger_s_pickings_are_not_shown(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert {p.garden_id for p in client.get(WHERE).context["pickings"]} == {garden.pk}


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_pickings_need_no_more_statements(client: Client, garden: Garden) -> None:
    def more() -> None:
        for _ in range(3):
            a_tub(garden, leaf=[(a_picking(garden, beds_of=[a_bed(garden)]), 1.0)])

    flat(client, WHERE, more)
