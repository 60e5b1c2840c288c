"""`/vats/<key>/look/`: a quick look."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Vat, VatReading
from tests import cast
from tests.web.checks import NOBODY, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(vat: Vat) -> str:
    return url("vats.look", key=vat.pk)


def entry(**other: str) -> dict[str, str]:
    return {"taken_at": cast.typed(cast.moment(1)), **other}


def test_a_look_is_written_and_the_fresh_state_shown(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    before = client.get(url("vats.show", key=vat.pk)).context["page"].state
    typed = entry(liquor_look="0", film="0", strip="2,5", ph="9.1", temp="86 F", potential="-520", electrode="calomel")
    page = client.post(where(vat), typed, follow=True).context["page"]
    row = VatReading.objects.filter(vat=vat).latest("taken_at")
    assert (row.liquor_look, row.film, row.grains_seen, row.strip_s) == (0, 0, None, 2.5)
    assert (row.ph, row.potential_mv, row.electrode, row.temp_typed) == (9.1, -520.0, "calomel", "86 F")
    assert row.temp_c == pytest.approx(30.0)
    assert page.state.stands != before.stands
    assert "-520 mV (calomel)" in page.story[0].said


def test_each_level_has_its_picture(client: Client, garden: Garden) -> None:
    page = client.get(where(cast.a_vat(garden))).content.decode()
    assert page.count('<span class="picture">') == 12
    assert "data-timer" in page


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({}, None, "Nothing is entered yet"),
        ({"ph": "15"}, "ph", "14"),
        ({"temp": "tepid"}, "temp", "tepid"),
        ({"ph": "9", "taken_at": "2001-07-01T08:00"}, "taken_at", "before the vat was made"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, typed: dict[str, str], field: str | None, says: str
) -> None:
    refused(client, where(cast.a_vat(garden)), entry() | typed, field=field, says=says)
    assert not VatReading.objects.exists()


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_vat(other_garden).pk):
        assert client.post(url("vats.look", key=key), entry(ph="9")).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("vats.look", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(cast.a_vat(garden)), "get", "post")
