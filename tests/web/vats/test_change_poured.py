"""`/vats/<key>/poured/<row>/change/`: how much was poured in, put right."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, VatPoured
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def heel(garden: Garden) -> VatPoured:
    source = cast.a_vat(garden, name="Vat 3", ended_at=cast.moment(2), end="kept_on")
    return cast.a_vat_poured(cast.a_vat(garden), source=source, pure_g=4.0, pure_sd_g=0.5)


def where(row: VatPoured) -> str:
    return url("vats.change_poured", key=row.vat_id, row=row.pk)


def test_the_litres_are_corrected_and_its_blue_stays(client: Client, heel: VatPoured) -> None:
    entry = filled_with(client, where(heel)) | {"volume": "3 L"}
    page = client.post(where(heel), entry, follow=True).context["page"]
    changed = VatPoured.objects.get(pk=heel.pk)
    assert (changed.volume_l, changed.pure_g, changed.poured_at) == (3.0, 4.0, heel.poured_at)
    row = next(one for one in page.story if one.key == str(heel.pk))
    assert row.said.startswith("3 L out of Vat 3, with 4 g (3.2 to 4.8)")
    assert "volume 5 L" in row.history[0].said


def test_only_its_sediment_came_after_all(client: Client, heel: VatPoured) -> None:
    entry = filled_with(client, where(heel)) | {"volume": ""}
    page = client.post(where(heel), entry, follow=True).context["page"]
    assert VatPoured.objects.get(pk=heel.pk).volume_l == 0.0
    assert next(one for one in page.story if one.key == str(heel.pk)).said.startswith("the sediment of Vat 3")


def test_a_mistake_keeps_what_was_typed(client: Client, heel: VatPoured) -> None:
    refused(client, where(heel), filled_with(client, where(heel)) | {"volume": "much"}, field="volume", says="much")


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(client: Client, heel: VatPoured, other_garden: Garden) -> None:
    theirs = cast.a_vat_poured(cast.a_vat(other_garden))
    for key, row in ((heel.vat_id, NOBODY), (NOBODY, heel.pk), (theirs.vat_id, theirs.pk)):
        assert client.get(url("vats.change_poured", key=key, row=row)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("vats.change_poured", key=NOBODY, row=NOBODY))


def test_other_methods_are_refused(client: Client, heel: VatPoured) -> None:
    only(client, where(heel), "get", "post")
