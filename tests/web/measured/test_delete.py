"""`/measured/<key>/delete/`: take a measurement out."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Measured, Steep
from tests.web.checks import NOBODY, gone_and_back, only, to_the_start_without_a_garden, url
from tests.web.measuring import measured_cloth

pytestmark = pytest.mark.django_db


def test_it_goes_and_can_come_back(client: Client, garden: Garden, steeping: Steep) -> None:
    row = measured_cloth(client, garden, of=steeping)
    there = {name: url(f"measured.{name}", key=row.pk) for name in ("delete", "restore")}
    gone_and_back(client, row, delete=there["delete"], restore=there["restore"])


def test_a_stranger_s_stays(client: Client, other_garden: Garden, garden: Garden, steeping: Steep) -> None:
    row = measured_cloth(client, garden, of=steeping)
    type(row.photo).objects.filter(pk=row.photo.pk).update(garden=other_garden)
    assert client.post(url("measured.delete", key=row.pk)).status_code == 404
    assert client.post(url("measured.delete", key=NOBODY)).status_code == 404
    assert Measured.objects.get() == row


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("measured.delete", key=NOBODY), "post")


def test_it_is_only_posted(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, url("measured.delete", key=measured_cloth(client, garden, of=steeping).pk), "post")
