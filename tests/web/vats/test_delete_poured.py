"""`/vats/<key>/poured/<row>/delete/`: water was not poured in after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, VatPoured
from tests import cast
from tests.web.checks import gone_and_back, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_is_out_and_back(client: Client, garden: Garden) -> None:
    row = cast.a_vat_poured(cast.a_vat(garden))
    keys = {"key": row.vat_id, "row": row.pk}
    gone_and_back(
        client, row, delete=url("vats.delete_poured", **keys), restore=url("vats.restore_poured", **keys)
    )  # fmt: skip


def test_a_heel_comes_out_only_as_its_vat_goes_on(client: Client, garden: Garden) -> None:
    source = cast.a_vat(garden, name="Vat 3", ended_at=cast.moment(2), end="kept_on")
    row = cast.a_vat_poured(cast.a_vat(garden), source=source, pure_g=4.0)
    assert client.post(url("vats.delete_poured", key=row.vat_id, row=row.pk)).status_code == 404
    client.post(url("vats.go_on", key=source.pk))
    assert not VatPoured.objects.exists()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_vat_poured(cast.a_vat(other_garden))
    posts_only_to_what_is_there(
        client, "vats.delete_poured", other_garden=other_garden, key=theirs.vat_id, row=theirs.pk
    )
