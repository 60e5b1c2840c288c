"""`/vats/<key>/sharpen/`: what was advised went in."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Vat, VatAddition
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


@pytest.fixture
def sour(garden: Garden) -> Vat:
    """A vat whose pH is plainly too low."""
    vat = cast.a_made_vat(garden)
    cast.a_vat_reading(vat, hours_ago=0.5, ph=7.4, liquor_look=1, film=0, temp_c=48, temp_typed="48 C")
    return vat


def test_what_was_really_weighed_is_written(client: Client, sour: Vat) -> None:
    where = url("vats.sharpen", key=sour.pk)
    assert client.post(where, {"mass_slaked_lime": "4.5 g"})["Location"] == url("vats.show", key=sour.pk)
    row = VatAddition.objects.filter(vat=sour).latest("added_at")
    assert (row.what, row.mass_g) == ("slaked_lime", 4.5)


def test_a_mistake_keeps_what_was_typed(client: Client, sour: Vat) -> None:
    response = client.post(url("vats.sharpen", key=sour.pk), {"mass_slaked_lime": "a pinch"})
    assert response.status_code == 422
    assert response.context["sharpening"]["mass_slaked_lime"].value() == "a pinch"
    assert VatAddition.objects.filter(vat=sour).count() == 3


def test_where_nothing_is_advised_nothing_is_written(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden)
    client.post(url("vats.sharpen", key=vat.pk), {"mass_fructose": "10 g"})
    assert not VatAddition.objects.exists()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    posts_only_to_what_is_there(client, "vats.sharpen", other_garden=other_garden, key=cast.a_vat(other_garden).pk)
