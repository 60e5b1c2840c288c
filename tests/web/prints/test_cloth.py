"""`/prints/cloth/<key>/`: the story of a piece on one sheet, as a page and as a PDF."""

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from bluewright.web.pages.cloth.story_page import Chapter
from bluewright.web.pages.prints.jar_label import square
from bluewright.web.prints import typeset
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url
from tests.web.cloth.test_story import a_told_piece
from tests.web.prints.pdf import pages
from tests.web.prints.test_jar import HOSTILE, dark_modules

pytestmark = pytest.mark.django_db


def test_its_square_opens_the_story(client: Client, garden: Garden, settings: Any) -> None:
    settings.DOOR = "https://192.0.2.4:8000/"
    piece = a_told_piece(garden)
    page = client.get(url("prints.cloth", key=piece.pk)).context["page"]
    assert page.address == f"https://192.0.2.4:8000{url('cloth.story', key=piece.pk)}" and page.in_house
    assert dark_modules(page.qr) == dark_modules(square(page.address))
    assert "in this house" in page.qr_says


def test_a_long_story_goes_on_to_further_sheets_and_loses_nothing(client: Client, garden: Garden) -> None:
    """Two hundred home tests of one line each: of those cut off nothing would be drawn, as marks tell."""
    piece = a_told_piece(garden)
    page = client.get(url("prints.cloth", key=piece.pk)).context["page"]
    many = Chapter(title="Home tests", lines=("rubbed ten times, wet",) * 200)
    long = replace(page, chapters=(*page.chapters, many))
    assert pages(typeset.pdf("cloth", page)) == 1
    assert pages(typeset.pdf("cloth", long)) > 2
    drawn = sum(len(re.findall(rb"<use ", sheet)) for sheet in typeset.typeset("cloth", long, to="svg"))
    assert drawn > 200 * len("rubbedtentimes,wet")


def test_as_a_pdf_it_is_one_page_with_a_photo_or_without(
    client: Client, garden: Garden, settings: Any, tmp_path: Path
) -> None:
    settings.HOME = tmp_path
    piece = a_told_piece(garden, name=HOSTILE)
    for kind in ("dry_rub", "wash", "stain", "light"):
        cast.a_home_test(piece, kind=kind, how=HOSTILE * 3)
    photo = cast.a_photo(garden, of=piece, kind="piece")
    where = url("prints.cloth", key=piece.pk)
    without = client.get(where, {"as": "pdf"})
    assert without["Content-Type"] == "application/pdf" and pages(without.content) == 1
    with_one = client.get(where, {"as": "pdf", "photo": str(photo.pk)})
    assert pages(with_one.content) == 1
    assert len(re.findall(rb"/Subtype\s*/Image", with_one.content)) > len(
        re.findall(rb"/Subtype\s*/Image", without.content)
    )


def test_as_json_it_carries_no_picture(client: Client, garden: Garden) -> None:
    assert client.get(url("prints.cloth", key=a_told_piece(garden).pk), {"as": "json"}).json()["jpeg"] == []


def test_there_is_none_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_piece(other_garden).pk):
        assert client.get(url("prints.cloth", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("prints.cloth", key=NOBODY))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, url("prints.cloth", key=cast.a_piece(garden).pk), "get")
