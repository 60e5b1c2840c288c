"""`/tubs/<key>/delete/`: take it out."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Steep
from tests.cast import a_tub
from tests.web.checks import NOBODY, gone_and_back, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def row(garden: Garden) -> Steep:
    return a_tub(garden)


def where(row: Steep) -> str:
    return url("tubs.delete", key=row.pk)


def test_it_is_gone_and_can_be_brought_back(client: Client, row: Steep) -> None:
    gone_and_back(client, row, delete=where(row), restore=url("tubs.restore", key=row.pk))


def test_its_leaf_waits_again(client: Client, row: Steep) -> None:
    picking = row.leaf.get().picking
    client.post(where(row))
    assert f"?picking={picking.pk}" in client.get(url("today")).content.decode()


def test_its_looks_cannot_be_reached_any_more(client: Client, row: Steep) -> None:
    client.post(where(row))
    assert client.get(url("tubs.show", key=row.pk)).status_code == 404
    assert client.post(url("tubs.look", key=row.pk), {"smell": "1"}).status_code == 404


def test_there_is_none_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.post(url("tubs.delete", key=NOBODY)).status_code == 404


def test_a_stranger_s_stays(client: Client, other_garden: Garden) -> None:
    theirs = Steep.objects.get(garden=other_garden)
    assert client.post(where(theirs)).status_code == 404
    assert Steep.objects.filter(pk=theirs.pk).exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("tubs.delete", key=NOBODY), "post")


def test_other_methods_are_refused(client: Client, row: Steep) -> None:
    only(client, where(row), "post")
