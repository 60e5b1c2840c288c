"""`/vats/<key>/go-on/`: a vat was not ended after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Vat, VatPoured
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_stands_again_and_what_was_poured_is_out_of_the_other(client: Client, garden: Garden) -> None:
    vat, other = cast.a_made_vat(garden), cast.a_vat(garden, name="Vat 10", heel_g=2.0, heel_sd_g=0.5)
    typed = {"ended_at": cast.typed(cast.moment(0)), "end": "kept_on", "into": str(other.pk)}
    client.post(url("vats.end", key=vat.pk), typed)
    client.post(url("vats.go_on", key=vat.pk))
    assert Vat.objects.get(pk=vat.pk).ended_at is None
    back = Vat.objects.get(pk=other.pk)
    assert (back.heel_g, back.heel_sd_g) == (2.0, 0.5)
    assert not VatPoured.objects.exists()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    posts_only_to_what_is_there(client, "vats.go_on", other_garden=other_garden, key=cast.a_vat(other_garden).pk)
