"""`/pickings/<key>/delete/`: take it out."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Picking
from tests.cast import a_picking, a_tub
from tests.web.checks import NOBODY, gone_and_back, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def row(garden: Garden) -> Picking:
    return a_picking(garden)


def where(row: Picking) -> str:
    return url("pickings.delete", key=row.pk)


def test_it_is_gone_and_can_be_brought_back(client: Client, row: Picking) -> None:
    gone_and_back(client, row, delete=where(row), restore=url("pickings.restore", key=row.pk))


def test_leaf_that_is_in_a_tub_stays_and_the_page_says_why(client: Client, row: Picking) -> None:
    tub = a_tub(row.garden, leaf=[(row, 3.0)])
    response = client.post(where(row), follow=True)
    assert response.redirect_chain[-1][0] == url("pickings.show", key=row.pk)
    assert "Its leaf is in Tub 9: take the tub out first" in response.content.decode()
    assert Picking.objects.filter(pk=row.pk).exists()
    client.post(url("tubs.delete", key=tub.pk))
    client.post(where(row))
    assert not Picking.objects.filter(pk=row.pk).exists()


def test_there_is_none_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.post(url("pickings.delete", key=NOBODY)).status_code == 404


def test_a_stranger_s_stays(client: Client, other_garden: Garden) -> None:
    theirs = Picking.objects.get(garden=other_garden)
    assert client.post(where(theirs)).status_code == 404
    assert Picking.objects.filter(pk=theirs.pk).exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("pickings.delete", key=NOBODY), "post")


def test_other_methods_are_refused(client: Client, row: Picking) -> None:
    only(client, where(row), "post")
