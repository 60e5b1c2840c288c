"""`/vats/<key>/readings/<row>/delete/`: take out a look."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden)
    row = cast.a_vat_reading(vat)
    keys = {"key": vat.pk, "row": row.pk}
    taken_out_and_back(
        client, row, delete=url("vats.delete_reading", **keys), restore=url("vats.restore_reading", **keys),
        back_to=url("vats.show", key=vat.pk),
    )  # fmt: skip


def test_it_stands_among_what_was_taken_out(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden, name="Tin")
    row = cast.a_vat_reading(vat)
    client.post(url("vats.delete_reading", key=vat.pk, row=row.pk))
    assert "Look at Tin" in client.get(url("gardens.taken_out")).content.decode()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_vat(other_garden)
    row = cast.a_vat_reading(theirs)
    posts_only_to_what_is_there(client, "vats.delete_reading", other_garden=other_garden, key=theirs.pk, row=row.pk)
