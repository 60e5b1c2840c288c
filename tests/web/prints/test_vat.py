"""`/prints/vat/<key>/`: the card of a vat on one sheet, as a page and as a PDF."""

from dataclasses import replace

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Vat
from bluewright.science.base.records import dump, read
from bluewright.science.vat.recipe_record import VatRecipeRecord
from bluewright.web.prints import typeset
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.prints.pdf import marks, pages

pytestmark = pytest.mark.django_db
HOSTILE = "#panic() *x* $y$ <b> \\ שלום \U0001f33f #{[("


@pytest.fixture
def vat(garden: Garden) -> Vat:
    """A dithionite vat by a recipe: that with the most hazards."""
    recipe = dump(read(VatRecipeRecord, {"fibre": "wool", "kind": "dithionite", "volume_l": 20, "wanted_g_per_l": 0.9}))
    made = cast.a_vat(garden, name="Copper", kind="dithionite", recipe=recipe)
    cast.a_vat_addition(made, purity_frac=0.35, purity_sd_frac=0.04)
    cast.a_vat_addition(made, "dithionite", 40.0)
    cast.a_vat_reading(made)
    return made


def where(vat: Vat) -> str:
    return url("prints.vat", key=vat.pk)


def test_the_pdf_is_one_page(client: Client, vat: Vat) -> None:
    response = client.get(where(vat), {"as": "pdf"})
    assert response["Content-Type"] == "application/pdf"
    assert response["Content-Disposition"] == 'inline; filename="vat-copper.pdf"'
    assert pages(response.content) == 1


def test_it_tells_recipe_state_hazards_and_where_it_is(client: Client, vat: Vat) -> None:
    page = client.get(where(vat)).context["page"]
    assert page.steps[0].startswith("1. ")
    assert any("never any acid near this vat" in step for step in page.steps)
    assert any("g/L" in line for line in page.state)
    assert "clear yellow to amber" in page.look
    assert any("sulphur dioxide" in line for line in page.care)
    assert page.address.endswith(url("vats.show", key=vat.pk))
    assert page.qr.startswith("<svg")


def test_a_vat_made_by_hand_tells_what_went_in(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    for hours in range(12, 2, -1):
        cast.a_vat_poured(vat, hours_ago=hours)
    page = client.get(where(vat)).context["page"]
    assert page.steps == ()
    assert "60 g of indigo powder, 35% indigo; 120 g of slaked lime; 180 g of fructose." in page.went_in[0]
    assert len(page.went_in) == 8 and all("5 L of water" in line for line in page.went_in[1:])


def test_nothing_typed_breaks_the_typesetting_and_cautions_stay_on_the_page(client: Client, vat: Vat) -> None:
    page = replace(client.get(where(vat)).context["page"], name=HOSTILE, facts=HOSTILE, look=HOSTILE)
    assert pages(typeset.pdf("vat", page)) == 1
    short, long = (replace(page, care=("mm " * 80,) * number) for number in (8, 9))
    assert marks("vat", long) - marks("vat", short) == 160
    assert pages(typeset.pdf("vat", long)) == 1


def test_more_looks_need_no_more_statements(client: Client, vat: Vat) -> None:
    flat(client, where(vat), lambda: [cast.a_vat_reading(vat, hours_ago=h) for h in (1.5, 1.2)])


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_vat(other_garden).pk):
        assert client.get(url("prints.vat", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("prints.vat", key=NOBODY))


def test_it_is_only_read(client: Client, vat: Vat) -> None:
    only(client, where(vat), "get")
