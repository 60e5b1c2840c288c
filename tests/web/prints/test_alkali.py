"""`/prints/alkali/<key>/`: the alkali card as a PDF."""

from dataclasses import replace
from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch, Garden
from bluewright.web.pages.prints.alkali_sheet import AlkaliSheet, alkali_sheet
from bluewright.web.prints import typeset
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.prints.pdf import marks, pages

pytestmark = pytest.mark.django_db
HOSTILE = "#panic() *x* $y$ <b> \\ שלום \U0001f33f #{[("


@pytest.fixture
def batch(garden: Garden) -> Batch:
    tub = cast.a_tub(garden, leaf=[(cast.a_picking(garden), 3.0)])
    return cast.a_batch(cast.a_straining(tub, liquor_out_l=28.0, liquor_typed="28 L"))


@pytest.fixture
def soda(batch: Batch) -> Alkali:
    found = cast.an_alkali(batch.garden)
    cast.a_jar_test(batch, found, (4.0, 7.6), (6.0, 9.6))
    return found


def where(batch: Batch) -> str:
    return url("prints.alkali", key=batch.pk)


def sheet(client: Client, batch: Batch) -> AlkaliSheet:
    card = client.get(url("alkali.card", key=batch.pk)).context["page"]
    return alkali_sheet(card, batch.garden)


def test_the_pdf_is_one_page_named_after_the_batch(client: Client, batch: Batch, soda: Alkali) -> None:
    response = client.get(where(batch), {"as": "pdf"})
    assert (response.status_code, response["Content-Type"]) == (200, "application/pdf")
    assert response["Content-Disposition"] == 'inline; filename="alkali-batch-9-soda-half-molar.pdf"'
    assert pages(response.content) == 1


def test_it_says_what_the_card_says(client: Client, batch: Batch, soda: Alkali) -> None:
    card = client.get(url("alkali.card", key=batch.pk)).context["page"]
    twin = client.get(where(batch), {"as": "json"}).json()
    assert twin["card"]["dose"] == card.dose
    assert twin["card"]["take_care"] == list(card.take_care)
    assert twin["aim"] == f"To pH 9.5: {card.dose}"
    assert twin["invented"] == "invented"


def test_the_same_card_gives_the_same_bytes(client: Client, batch: Batch, soda: Alkali) -> None:
    page = sheet(client, batch)
    assert typeset.pdf("alkali", page) == typeset.pdf("alkali", page)


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_cautions_are_never_left_out_and_stay_on_the_page(
    client: Client, batch: Batch, soda: Alkali, paper: str
) -> None:
    """Ten cautions as long as the longest: as many letters more as they have, on one page."""
    page = replace(sheet(client, batch), paper=paper)
    short = replace(page, card=replace(page.card, take_care=("mm " * 80,) * 9))
    long = replace(page, card=replace(page.card, take_care=("mm " * 80,) * 10))
    assert marks("alkali", long) - marks("alkali", short) == 160 + 1
    assert pages(typeset.pdf("alkali", long)) == 1


def test_enough_and_a_reading_due_are_told_too(client: Client, batch: Batch, soda: Alkali) -> None:
    part = cast.an_alkali_part(batch, soda, ph=None)
    assert pages(client.get(where(batch), {"as": "pdf"}).content) == 1
    part.ph = 9.5
    part.save()
    assert pages(client.get(where(batch), {"as": "pdf"}).content) == 1


def test_what_was_typed_stays_text(client: Client, batch: Batch, soda: Alkali) -> None:
    Batch.objects.filter(pk=batch.pk).update(name=HOSTILE)
    Alkali.objects.filter(pk=soda.pk).update(name=HOSTILE)
    assert pages(client.get(where(batch), {"as": "pdf"}).content) == 1


def test_the_alkali_asked_for_is_printed(client: Client, batch: Batch, soda: Alkali) -> None:
    lye = cast.an_alkali(batch.garden, name="lye", kind="lye", mol_per_l=1.0)
    asked: dict[str, Any] = {"as": "json", "alkali": str(lye.pk)}
    assert client.get(where(batch), asked).json()["card"]["alkali"] == "lye"


def test_its_page_is_the_card_and_leads_here(client: Client, batch: Batch, soda: Alkali) -> None:
    response = client.get(where(batch))
    card = f"{url('alkali.card', key=batch.pk)}?alkali={soda.pk}"
    assert (response.status_code, response["Location"]) == (302, card)
    assert f"{where(batch)}?as=pdf&amp;alkali={soda.pk}" in client.get(card).content.decode()


def test_without_an_alkali_it_leads_to_the_dose(client: Client, batch: Batch) -> None:
    response = client.get(where(batch), {"as": "pdf"})
    assert (response.status_code, response["Location"]) == (302, url("alkali.dose", key=batch.pk))


def test_there_is_no_card_of_a_wrong_key_or_a_stranger_s(client: Client, batch: Batch) -> None:
    assert client.get(url("prints.alkali", key=NOBODY)).status_code == 404
    strange = cast.a_batch(cast.a_straining(cast.a_tub(cast.a_garden())))
    assert client.get(where(strange)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("prints.alkali", key=NOBODY))


def test_it_is_only_read(client: Client, batch: Batch, soda: Alkali) -> None:
    only(client, where(batch), "get")


def test_more_parts_need_no_more_statements(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, ph=8.0)
    flat(client, f"{where(batch)}?as=pdf", lambda: [cast.an_alkali_part(batch, soda, ph=8.2) for _ in range(2)])
