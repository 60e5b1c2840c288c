"""`/vats/<key>/fault/`: what ails a vat, by its looks and by what else was seen."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_its_own_looks_are_filled_in(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    cast.a_vat_reading(vat, hours_ago=1, ph=7.6, liquor_look=1, film=0, grains_seen=0, strip_s=3)
    form = client.get(url("vats.fault", key=vat.pk)).context["form"]
    names = ("ph", "liquor_blue", "no_film", "grains", "blues_at_once", "slimy")
    assert [form[name].value() for name in names] == ["7.6", "yes", "yes", "no", "yes", None]


def test_the_cause_comes_first_with_its_cure_and_what_could_hurt(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    asked = {"ph": "7.6", "white_cloud": "yes", "temp": "47 C"}
    page = client.get(url("vats.fault", key=vat.pk), asked).context["page"]
    assert "too little alkali" in page.answer.first
    assert "Take care: goggles and gloves" in page.answer.lines[0]


def test_what_cannot_be_of_its_kind_is_not_asked(client: Client, garden: Garden) -> None:
    sugar, rot = cast.a_vat(garden, fibre="cotton"), cast.a_vat(garden, kind="ferment")
    fields = [client.get(url("vats.fault", key=vat.pk)).context["form"].fields for vat in (sugar, rot)]
    assert [(name in fields[0], name in fields[1]) for name in ("foul", "cup_clears", "harsh")] == [
        (False, True), (True, False), (False, True)
    ]  # fmt: skip


def test_a_mistake_is_said(client: Client, garden: Garden) -> None:
    response = client.get(url("vats.fault", key=cast.a_vat(garden).pk), {"ph": "15"})
    assert response.status_code == 422
    assert "ph" in response.context["form"].errors


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_vat(other_garden).pk):
        assert client.get(url("vats.fault", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("vats.fault", key=NOBODY))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, url("vats.fault", key=cast.a_vat(garden).pk), "get")
