"""`/costs/supplies/<pack>/`: corrected."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_is_corrected_and_what_it_was_is_kept(client: Client, garden: Garden) -> None:
    row = cast.a_supply(garden)
    where = url("supplies.change", key=row.pk)
    client.post(where, filled_with(client, where) | {"paid": "35", "used_up": "on"})
    row.refresh_from_db()
    assert (row.pack_money, row.pack_g, row.used_up) == (35.0, 500.0, True)
    assert Change.objects.get(row_id=row.pk).before["pack_money"] == 6.0


def test_a_mistake_keeps_the_typing(client: Client, garden: Garden) -> None:
    where = url("supplies.change", key=cast.a_supply(garden).pk)
    refused(
        client,
        where,
        {"kind": "bran", "pack": "", "paid": "3", "bought_on": "2026-01-02"},
        field="pack",
        says="required",
    )


def test_only_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (cast.a_supply(other_garden).pk, NOBODY):
        assert client.get(url("supplies.change", key=key)).status_code == 404
    only(client, url("supplies.change", key=cast.a_supply(garden).pk), "get", "post")
    to_the_start_without_a_garden(client, url("supplies.change", key=NOBODY))
