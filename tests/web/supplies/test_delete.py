"""`/costs/supplies/<pack>/delete/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    row = cast.a_supply(garden)
    taken_out_and_back(
        client, row, delete=url("supplies.delete", key=row.pk), restore=url("supplies.restore", key=row.pk),
        back_to=url("supplies.index"),
    )  # fmt: skip


def test_it_stands_among_what_was_taken_out(client: Client, garden: Garden) -> None:
    client.post(url("supplies.delete", key=cast.a_supply(garden).pk))
    assert "A pack of supplies, 500 g, written " in client.get(url("gardens.taken_out")).content.decode()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    row = cast.a_supply(other_garden)
    posts_only_to_what_is_there(client, "supplies.delete", other_garden=other_garden, key=row.pk)
