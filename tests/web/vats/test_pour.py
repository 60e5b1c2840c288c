"""`/vats/<key>/pour/`: water tops a vat up."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, VatPoured
from tests import cast
from tests.web.checks import NOBODY, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_water_is_in_the_vat_and_its_story(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    before = client.get(url("vats.show", key=vat.pk)).context["page"]
    typed = {"volume": "10 L", "poured_at": cast.typed(cast.moment(0.1))}
    response = client.post(url("vats.pour", key=vat.pk), typed, follow=True)
    row = VatPoured.objects.get()
    assert (row.volume_l, row.pure_g, row.source) == (10.0, 0.0, None)
    page = response.context["page"]
    assert "10 L of water" in [one.said for one in page.story]
    assert page.state.stands != before.state.stands, "50 L hold what 40 L held"
    assert url("vats.delete_poured", key=vat.pk, row=row.pk) in [one.extra_tags for one in response.context["messages"]]


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"volume": ""}, "volume", "required"),
        ({"volume": "0 L"}, "volume", "10 mL"),
        ({"volume": "5 L", "poured_at": cast.typed(cast.moment(100))}, "poured_at", "before the vat was made"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, typed: dict[str, str], field: str, says: str
) -> None:
    vat, unchanged = cast.a_vat(garden), no_rows(VatPoured)
    refused(
        client, url("vats.pour", key=vat.pk), {"poured_at": cast.typed(cast.moment(0))} | typed, field=field, says=says
    )
    unchanged()


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_vat(other_garden).pk):
        assert client.get(url("vats.pour", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("vats.pour", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("vats.pour", key=cast.a_vat(garden).pk), "get", "post")
