"""`/costs/kit/<thing>/`: corrected."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_is_corrected_and_what_it_was_is_kept(client: Client, garden: Garden) -> None:
    row = cast.a_kit_item(garden)
    where = url("kit.change", key=row.pk)
    client.post(where, filled_with(client, where) | {"paid": "35"})
    row.refresh_from_db()
    assert (row.paid_money, row.lasts_batches) == (35.0, 40)
    assert Change.objects.get(row_id=row.pk).before["paid_money"] == 30.0


def test_a_mistake_keeps_the_typing(client: Client, garden: Garden) -> None:
    where = url("kit.change", key=cast.a_kit_item(garden).pk)
    refused(client, where, {"name": "", "paid": "3", "lasts_years": "2"}, field="name", says="required")


def test_only_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (cast.a_kit_item(other_garden).pk, NOBODY):
        assert client.get(url("kit.change", key=key)).status_code == 404
    only(client, url("kit.change", key=cast.a_kit_item(garden).pk), "get", "post")
    to_the_start_without_a_garden(client, url("kit.change", key=NOBODY))
