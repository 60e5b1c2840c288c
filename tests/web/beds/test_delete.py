"""`/beds/<key>/delete/`: take it out."""

import pytest
from django.test import Client

from bluewright.journal.models import Bed, Garden
from tests.cast import a_bed, a_picking
from tests.web.checks import NOBODY, gone_and_back, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def row(garden: Garden) -> Bed:
    return a_bed(garden, name="East")


def where(row: Bed) -> str:
    return url("beds.delete", key=row.pk)


def test_it_is_gone_and_can_be_brought_back(client: Client, row: Bed) -> None:
    gone_and_back(client, row, delete=where(row), restore=url("beds.restore", key=row.pk))


def test_what_was_picked_from_it_keeps_its_name_and_the_page_says_so(client: Client, row: Bed) -> None:
    picking = a_picking(row.garden, beds_of=[row])
    assert "still says so" in client.post(where(row), follow=True).content.decode()
    page = client.get(url("pickings.show", key=picking.pk)).context["page"]
    assert [(source.key, source.name) for source in page.sources] == [("", "East")]
    assert "East" in client.get(url("pickings.index")).content.decode()


def test_there_is_none_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.post(url("beds.delete", key=NOBODY)).status_code == 404


def test_a_stranger_s_stays(client: Client, other_garden: Garden) -> None:
    theirs = Bed.objects.get(garden=other_garden)
    assert client.post(where(theirs)).status_code == 404
    assert Bed.objects.filter(pk=theirs.pk).exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("beds.delete", key=NOBODY), "post")


def test_other_methods_are_refused(client: Client, row: Bed) -> None:
    only(client, where(row), "post")
