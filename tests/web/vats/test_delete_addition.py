"""`/vats/<key>/additions/<row>/delete/`: take out what went in."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, JarTaken
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden)
    row = cast.a_vat_addition(vat)
    keys = {"key": vat.pk, "row": row.pk}
    taken_out_and_back(
        client, row, delete=url("vats.delete_addition", **keys), restore=url("vats.restore_addition", **keys),
        back_to=url("vats.show", key=vat.pk),
    )  # fmt: skip


def test_its_powder_is_back_in_the_jar(client: Client, garden: Garden) -> None:
    vat, jar = cast.a_vat(garden), cast.a_jar_from_the_bed(garden, 40.0, filled_at=cast.moment(90))
    row = cast.a_vat_addition(vat, mass_g=30.0, taken=cast.taken(jar, 30.0))
    client.post(url("vats.delete_addition", key=vat.pk, row=row.pk))
    assert not JarTaken.objects.filter(jar=jar).exists()
    cast.taken(jar, 35.0)
    back = client.post(url("vats.restore_addition", key=vat.pk, row=row.pk), follow=True)
    assert "only 5 g are left" in back.content.decode()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_vat(other_garden)
    row = cast.a_vat_addition(theirs)
    posts_only_to_what_is_there(client, "vats.delete_addition", other_garden=other_garden, key=theirs.pk, row=row.pk)
