"""`/vats/<key>/add/`: something goes into a vat."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, JarTaken, Vat, VatAddition
from tests import cast
from tests.web.checks import NOBODY, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(vat: Vat) -> str:
    return url("vats.add", key=vat.pk)


def entry(**other: str) -> dict[str, str]:
    return {"what": "fructose", "mass": "12 g", "added_at": cast.typed(cast.moment(1)), **other}


def test_it_is_written_as_typed_with_a_way_back(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    response = client.post(where(vat), entry(mass="0.5 oz"), follow=True)
    row = VatAddition.objects.filter(vat=vat).latest("added_at")
    assert (row.what, row.mass_typed, row.added_at) == ("fructose", "0.5 oz", cast.moment(1))
    assert row.mass_g == pytest.approx(14.175, abs=0.001)
    undo = url("vats.delete_addition", key=vat.pk, row=row.pk)
    assert undo in [message.extra_tags for message in response.context["messages"]]


@pytest.mark.parametrize(
    ("kind", "says"),
    [
        ("fructose", "Slaked lime. Take care: goggles and gloves; lime into water"),
        ("dithionite", "Sodium dithionite. Take care: powder into water, never water onto powder"),
        ("dithionite", "never any acid near this vat: poisonous gas"),
    ],
)
def test_what_could_hurt_stands_where_it_goes_in(client: Client, garden: Garden, kind: str, says: str) -> None:
    assert says in client.get(where(cast.a_vat(garden, kind=kind))).content.decode()


def test_powder_comes_out_of_its_jar(client: Client, garden: Garden) -> None:
    vat, jar = cast.a_vat(garden), cast.a_jar_from_the_bed(garden, 40.0, filled_at=cast.moment(90))
    client.post(where(vat), entry(what="powder", mass="15 g", jar=str(jar.pk)))
    taken = JarTaken.objects.get(jar=jar)
    assert (taken.taken_g, taken.what_for, taken.into_vat.vat) == (15.0, "Vat 9", vat)
    back = client.post(url("jars.put_back", key=jar.pk, taken=taken.pk), follow=True)
    assert "it went into vat 9" in back.content.decode().lower()
    assert JarTaken.objects.filter(pk=taken.pk).exists()


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"mass": "some"}, "mass", "some"),
        ({"what": "vinegar"}, "what", "vinegar"),
        ({"what": "fructose", "purity": "30"}, "purity", "leave it out"),
        ({"added_at": "2001-07-01T08:00"}, "added_at", "before the vat was made"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, typed: dict[str, str], field: str, says: str
) -> None:
    refused(client, where(cast.a_vat(garden)), entry(**typed), field=field, says=says)
    assert not VatAddition.objects.exists()


def test_no_more_than_the_jar_holds(client: Client, garden: Garden) -> None:
    vat, jar = cast.a_vat(garden), cast.a_jar_from_the_bed(garden, 40.0, filled_at=cast.moment(90))
    typed = entry(what="powder", mass="50 g", jar=str(jar.pk))
    refused(client, where(vat), typed, field="jar", says="only 40 g are left in Jar 9")
    assert not VatAddition.objects.exists()


def test_nothing_sour_is_offered_for_a_sulphur_vat(client: Client, garden: Garden) -> None:
    form = client.get(where(cast.a_vat(garden, kind="dithionite"))).context["form"]
    assert {key for key, _ in form.fields["what"].choices} == {
        "dithionite", "soda_ash", "lye", "potash", "powder", "bran", "madder"
    }  # fmt: skip


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_vat(other_garden).pk):
        assert client.post(url("vats.add", key=key), entry()).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("vats.add", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(cast.a_vat(garden)), "get", "post")
