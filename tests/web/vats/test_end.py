"""`/vats/<key>/end/`: a vat is no more, and what became of it."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Vat, VatPoured
from tests import cast
from tests.web.checks import NOBODY, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(vat: Vat) -> str:
    return url("vats.end", key=vat.pk)


def test_it_is_ended_with_what_became_of_it(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    typed = {"ended_at": cast.typed(cast.moment(0)), "end": "recovered", "note": "14 g of dry blue"}
    response = client.post(where(vat), typed, follow=True)
    ended = Vat.objects.get(pk=vat.pk)
    assert (ended.end, ended.ended_at, ended.note) == ("recovered", cast.moment(0), "14 g of dry blue")
    assert url("vats.go_on", key=vat.pk) in [message.extra_tags for message in response.context["messages"]]


def test_poured_into_another_it_is_that_one_s_heel_with_its_spread(client: Client, garden: Garden) -> None:
    """60 g, 35 % pure when dry, 5 % water: 20 g (own hand), from that moment on; its own heel stays."""
    vat, other = cast.a_made_vat(garden), cast.a_vat(garden, name="Vat 10", heel_g=2.0, heel_sd_g=0.5)
    typed = {"ended_at": cast.typed(cast.moment(0)), "end": "kept_on", "into": str(other.pk)}
    assert client.post(where(vat), typed)["Location"] == url("vats.show", key=other.pk)
    poured = VatPoured.objects.get(source=vat)
    assert (poured.vat_id, poured.poured_at, poured.volume_l) == (other.pk, cast.moment(0), 0.0)
    assert poured.pure_g == pytest.approx(20.0, abs=1.5)
    assert 1.0 < poured.pure_sd_g < 4.0
    assert poured.reduced_frac == 0.0, "aired and settled, it is blue"
    assert Vat.objects.get(pk=other.pk).heel_g == 2.0


def test_with_its_liquor_goes_what_is_reduced_in_it(client: Client, garden: Garden) -> None:
    """Half the litres: half of what is reduced, and all of the sediment."""
    vat, other = cast.a_made_vat(garden), cast.a_vat(garden, name="Vat 10")
    typed = {"ended_at": cast.typed(cast.moment(0)), "end": "kept_on", "into": str(other.pk), "poured": "20 L"}
    client.post(where(vat), typed)
    poured = VatPoured.objects.get(source=vat)
    assert (poured.volume_l, poured.volume_typed) == (20.0, "20 L")
    assert 8.0 < poured.pure_g < 19.0
    assert 0.0 < poured.reduced_frac < 1.0
    assert poured.reductant_g > 0 and poured.ph is not None


def test_or_the_heel_of_a_new_one(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    typed = {"ended_at": cast.typed(cast.moment(0)), "end": "kept_on", "into": "new", "new_name": "Second life"}
    client.post(where(vat), typed)
    new = Vat.objects.get(name="Second life")
    assert (new.kind, new.volume_typed, new.started_at) == ("fructose", "40 L", cast.moment(0))
    assert VatPoured.objects.get(vat=new, source=vat).pure_g == pytest.approx(20.0, abs=1.5)


def test_litres_that_go_over_fill_the_new_one_up(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    typed = {"ended_at": cast.typed(cast.moment(0)), "end": "kept_on", "into": "new", "new_name": "Second life"}
    page = client.post(where(vat), typed | {"poured": "30 L"}, follow=True).context["page"]
    new = Vat.objects.get(name="Second life")
    assert (new.volume_l, VatPoured.objects.get(vat=new).volume_l) == (10.0, 30.0)
    assert ", 40 L, " in page.facts


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"end": "kept_on"}, "into", "into which vat"),
        ({"end": "used_up", "into": "new"}, "into", "Only if it was poured"),
        ({"end": "kept_on", "into": "new"}, "new_name", "name"),
        ({"end": "used_up", "poured": "2 L"}, "poured", "Only if it was poured"),
        ({"end": "used_up", "ended_at": cast.typed(cast.moment(3))}, "ended_at", "noted after that"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, typed: dict[str, str], field: str, says: str
) -> None:
    vat = cast.a_made_vat(garden)
    refused(client, where(vat), {"ended_at": cast.typed(cast.moment(0))} | typed, field=field, says=says)
    assert Vat.objects.get(pk=vat.pk).ended_at is None


def test_an_ended_vat_is_not_ended_again(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden, ended_at=cast.moment(1), end="spoilt")
    assert client.get(where(vat))["Location"] == url("vats.show", key=vat.pk)


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_vat(other_garden).pk):
        assert client.post(url("vats.end", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("vats.end", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(cast.a_vat(garden)), "get", "post")
