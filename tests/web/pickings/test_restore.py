"""`/pickings/<key>/restore/`: bring it back."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Picking
from tests.cast import a_picking
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, too_late, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def row(garden: Garden) -> Picking:
    return a_picking(garden)


def where(row: Picking) -> str:
    return url("pickings.restore", key=row.pk)


def test_it_stands_again_and_its_page_is_shown(client: Client, row: Picking) -> None:
    delete(row, by=None)
    response = client.post(where(row))
    assert (response.status_code, response["Location"]) == (302, url("pickings.show", key=row.pk))
    assert client.get(response["Location"]).status_code == 200


def test_what_was_never_taken_out_stays_as_it_is(client: Client, row: Picking) -> None:
    assert client.post(where(row))["Location"] == url("pickings.show", key=row.pk)


def test_after_thirty_days_it_stays_out_and_the_page_says_so(client: Client, row: Picking) -> None:
    too_late(client, row, where(row))


def test_there_is_none_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.post(url("pickings.restore", key=NOBODY)).status_code == 404


def test_a_stranger_s_stays_out(client: Client, other_garden: Garden) -> None:
    theirs = Picking.objects.get(garden=other_garden)
    delete(theirs, by=None)
    assert client.post(where(theirs)).status_code == 404
    assert not Picking.objects.filter(pk=theirs.pk).exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("pickings.restore", key=NOBODY), "post")


def test_other_methods_are_refused(client: Client, row: Picking) -> None:
    only(client, where(row), "post")
