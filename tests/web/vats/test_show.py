"""`/vats/<key>/`: how one stands, what to do, its story."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_tells_how_it_stands_with_its_story(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    cast.a_dip(cast.a_piece(garden, name="Hem"), vat)
    response = client.get(url("vats.show", key=vat.pk))
    page = response.context["page"]
    assert page.state.headline
    assert page.state.chart.startswith("<svg")
    assert [one.kind for one in page.story] == ["dip", "look", "addition", "addition", "addition"]
    assert page.story[0].said == "Hem (500 g of wool) was in it for 5 min"
    assert url("cloth.show", key=page.story[0].key) in response.content.decode()
    assert "60 g of indigo powder" in " ".join(one.said for one in page.story)
    assert client.get(url("vats.show", key=vat.pk), {"as": "json"}).json()["name"] == "Vat 9"


def test_what_is_to_be_added_stands_in_a_form_with_what_could_hurt(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    cast.a_vat_reading(vat, hours_ago=0.5, ph=7.4, liquor_look=1, film=0, temp_c=48, temp_typed="48 C")
    response = client.get(url("vats.show", key=vat.pk))
    page = response.context["page"]
    assert page.state.advice == "more_alkali"
    assert "Take care: goggles and gloves" in page.state.parts[0]
    assert list(response.context["sharpening"].fields) == ["mass_slaked_lime"]


def test_a_vat_that_cannot_be_says_why(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden)
    cast.a_vat_addition(vat, "dithionite")
    page = client.get(url("vats.show", key=vat.pk)).context["page"]
    assert page.state is None
    assert "does not go into a vat" in page.trouble


def test_an_ended_vat_asks_for_nothing_more(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden, ended_at=cast.moment(1), end="used_up")
    page = client.get(url("vats.show", key=vat.pk)).content.decode()
    assert url("vats.look", key=vat.pk) not in page
    assert url("vats.go_on", key=vat.pk) in page


def test_a_note_is_shown_as_text(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden, name="<img src=x>")
    cast.a_vat_reading(vat, hours_ago=1, ph=9.0, note="<script>alert(1)</script>")
    said = client.get(url("vats.show", key=vat.pk)).content.decode()
    assert "<script>alert" not in said
    assert "<img src" not in said


def test_more_looks_need_no_more_statements(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    flat(client, url("vats.show", key=vat.pk), lambda: [cast.a_vat_reading(vat, hours_ago=h) for h in (1.5, 1.2, 1.1)])


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_vat(other_garden).pk):
        assert client.get(url("vats.show", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("vats.show", key=NOBODY))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, url("vats.show", key=cast.a_vat(garden).pk), "get")
