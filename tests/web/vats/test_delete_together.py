"""`/vats/<key>/additions/<row>/delete-together/`: the undo of a sharpening in two parts."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, VatAddition
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_both_parts_are_out_with_one_tap_and_back_with_one(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden)
    at = cast.moment(1)
    first = cast.a_vat_addition(vat, "fructose", 12.0, added_at=at)
    cast.a_vat_addition(vat, "slaked_lime", 6.0, added_at=at)
    before = cast.a_vat_addition(vat, "fructose", 80.0, hours_ago=20)
    keys = {"key": vat.pk, "row": first.pk}
    response = client.post(url("vats.delete_together", **keys), follow=True)
    assert list(VatAddition.objects.all()) == [before]
    assert url("vats.restore_together", **keys) in [one.extra_tags for one in response.context["messages"]]
    client.post(url("vats.restore_together", **keys))
    assert VatAddition.objects.count() == 3


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_vat_addition(cast.a_vat(other_garden))
    posts_only_to_what_is_there(
        client, "vats.delete_together", other_garden=other_garden, key=theirs.vat_id, row=theirs.pk
    )
