"""`/measured/<key>/restore/`: bring a measurement back."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Measured, Steep
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, too_late, url
from tests.web.measuring import measured_cloth

pytestmark = pytest.mark.django_db


def where(row: Measured) -> str:
    return url("measured.restore", key=row.pk)


def test_it_is_there_again(client: Client, garden: Garden, steeping: Steep) -> None:
    row = measured_cloth(client, garden, of=steeping)
    delete(row, by=None)
    response = client.post(where(row), follow=True)
    assert response.redirect_chain == [(url("measured.show", key=row.pk), 302)]


def test_after_thirty_days_it_is_too_late(client: Client, garden: Garden, steeping: Steep) -> None:
    row = measured_cloth(client, garden, of=steeping)
    too_late(client, row, where(row))


def test_strangers_and_wrong_keys_get_nothing(
    client: Client, other_garden: Garden, garden: Garden, steeping: Steep
) -> None:
    row = measured_cloth(client, garden, of=steeping)
    delete(row, by=None)
    type(row.photo).objects.filter(pk=row.photo.pk).update(garden=other_garden)
    assert client.post(where(row)).status_code == 404
    assert client.post(url("measured.restore", key=NOBODY)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("measured.restore", key=NOBODY), "post")


def test_it_is_only_posted(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, where(measured_cloth(client, garden, of=steeping)), "post")
