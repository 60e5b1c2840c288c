"""`/vats/<key>/readings/<row>/change/`: correct a look."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, VatReading
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def look(garden: Garden) -> VatReading:
    return cast.a_vat_reading(cast.a_made_vat(garden), hours_ago=1, ph=9.2, film=2, temp_c=17.8, temp_typed="64 F")


def where(look: VatReading) -> str:
    return url("vats.change_reading", key=look.vat_id, row=look.pk)


def test_a_correction_is_written_and_what_it_said_before_is_told(client: Client, look: VatReading) -> None:
    entry = filled_with(client, where(look)) | {"film": "3"}
    assert (entry["temp"], entry["ph"]) == ("64 F", 9.2)
    page = client.post(where(look), entry, follow=True).context["page"]
    changed = VatReading.objects.get(pk=look.pk)
    assert (changed.film, changed.temp_c, changed.taken_at) == (3, 17.8, look.taken_at)
    (row,) = next(one for one in page.story if one.key == str(look.pk)).history
    assert "film 2" in row.said


def test_a_mistake_keeps_what_was_typed(client: Client, look: VatReading) -> None:
    refused(client, where(look), filled_with(client, where(look)) | {"ph": "15"}, field="ph", says="14")


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(client: Client, look: VatReading, other_garden: Garden) -> None:
    theirs = cast.a_vat_reading(cast.a_vat(other_garden))
    for key, row in ((look.vat_id, NOBODY), (NOBODY, look.pk), (theirs.vat_id, theirs.pk)):
        assert client.get(url("vats.change_reading", key=key, row=row)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("vats.change_reading", key=NOBODY, row=NOBODY))


def test_other_methods_are_refused(client: Client, look: VatReading) -> None:
    only(client, where(look), "get", "post")
