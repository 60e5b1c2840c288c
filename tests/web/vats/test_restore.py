"""`/vats/<key>/restore/`: bring a vat back."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Vat
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, too_late_to_bring_back

pytestmark = pytest.mark.django_db


def test_it_stands_among_what_was_taken_out(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden, name="Tin")
    client.post(url("vats.delete", key=vat.pk))
    assert "Vat Tin" in client.get(url("gardens.taken_out")).content.decode()


def test_not_where_the_jar_does_not_hold_its_powder_any_more(client: Client, garden: Garden) -> None:
    vat, jar = cast.a_vat(garden), cast.a_jar_from_the_bed(garden, 40.0, filled_at=cast.moment(90))
    cast.a_vat_addition(vat, mass_g=30.0, taken=cast.taken(jar, 30.0))
    client.post(url("vats.delete", key=vat.pk))
    cast.taken(jar, 35.0)
    assert "only 5 g are left" in client.post(url("vats.restore", key=vat.pk), follow=True).content.decode()
    assert not Vat.objects.filter(pk=vat.pk).exists()


def test_after_thirty_days_it_stays_out(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden)
    too_late_to_bring_back(client, vat, delete=url("vats.delete", key=vat.pk), restore=url("vats.restore", key=vat.pk))


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    posts_only_to_what_is_there(client, "vats.restore", other_garden=other_garden, key=cast.a_vat(other_garden).pk)
