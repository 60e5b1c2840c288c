"""`/vats/<key>/additions/<row>/change/`: correct what went in."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Jar, JarTaken, VatAddition
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def jar(garden: Garden) -> Jar:
    return cast.a_jar_from_the_bed(garden, 40.0, filled_at=cast.moment(90))


@pytest.fixture
def powder(garden: Garden, jar: Jar) -> VatAddition:
    return cast.a_vat_addition(cast.a_vat(garden), mass_g=30.0, taken=cast.taken(jar, 30.0))


def where(row: VatAddition) -> str:
    return url("vats.change_addition", key=row.vat_id, row=row.pk)


def test_another_mass_is_booked_at_the_jar_too(client: Client, powder: VatAddition, jar: Jar) -> None:
    client.post(where(powder), filled_with(client, where(powder)) | {"mass": "36 g"})
    assert VatAddition.objects.get(pk=powder.pk).mass_g == 36.0
    assert JarTaken.objects.get(jar=jar).taken_g == 36.0


def test_powder_from_elsewhere_after_all_is_back_in_the_jar(client: Client, powder: VatAddition, jar: Jar) -> None:
    client.post(where(powder), filled_with(client, where(powder)) | {"jar": "", "purity": "40"})
    changed = VatAddition.objects.get(pk=powder.pk)
    assert (changed.taken, changed.purity_frac) == (None, 0.4)
    assert not JarTaken.objects.filter(jar=jar).exists()


def test_no_more_than_the_jar_holds(client: Client, powder: VatAddition) -> None:
    entry = filled_with(client, where(powder)) | {"mass": "50 g"}
    refused(client, where(powder), entry, field="jar", says="only 10 g are left in Jar 9")
    assert JarTaken.objects.get().taken_g == 30.0


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(
    client: Client, powder: VatAddition, other_garden: Garden
) -> None:
    theirs = cast.a_vat_addition(cast.a_vat(other_garden))
    for key, row in ((powder.vat_id, NOBODY), (NOBODY, powder.pk), (theirs.vat_id, theirs.pk)):
        assert client.get(url("vats.change_addition", key=key, row=row)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("vats.change_addition", key=NOBODY, row=NOBODY))


def test_other_methods_are_refused(client: Client, powder: VatAddition) -> None:
    only(client, where(powder), "get", "post")
