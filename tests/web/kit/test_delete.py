"""`/costs/kit/<thing>/delete/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    row = cast.a_kit_item(garden)
    taken_out_and_back(
        client, row, delete=url("kit.delete", key=row.pk), restore=url("kit.restore", key=row.pk),
        back_to=url("kit.index"),
    )  # fmt: skip


def test_it_stands_among_what_was_taken_out(client: Client, garden: Garden) -> None:
    client.post(url("kit.delete", key=cast.a_kit_item(garden).pk))
    assert "Of the kit: buckets, written " in client.get(url("gardens.taken_out")).content.decode()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    row = cast.a_kit_item(other_garden)
    posts_only_to_what_is_there(client, "kit.delete", other_garden=other_garden, key=row.pk)
