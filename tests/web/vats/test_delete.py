"""`/vats/<key>/delete/`: take a vat out; its powder is back in its jar."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, JarTaken, Vat
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_is_gone_and_its_powder_is_back_and_both_can_stand_again(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden)
    jar = cast.a_jar_from_the_bed(garden, 40.0, filled_at=cast.moment(90))
    cast.a_vat_addition(vat, mass_g=10.0, taken=cast.taken(jar, 10.0))
    response = client.post(url("vats.delete", key=vat.pk), follow=True)
    assert url("vats.restore", key=vat.pk) in response.content.decode()
    assert not Vat.objects.filter(pk=vat.pk).exists()
    assert not JarTaken.objects.filter(jar=jar).exists()
    client.post(url("vats.restore", key=vat.pk))
    assert Vat.objects.filter(pk=vat.pk).exists()
    assert JarTaken.objects.get(jar=jar).taken_g == 10.0


def test_a_vat_that_dyed_cloth_stays(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    cast.a_dip(cast.a_piece(garden), vat)
    assert "cloth was dyed" in client.post(url("vats.delete", key=vat.pk), follow=True).content.decode().lower()
    assert Vat.objects.filter(pk=vat.pk).exists()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    posts_only_to_what_is_there(client, "vats.delete", other_garden=other_garden, key=cast.a_vat(other_garden).pk)
