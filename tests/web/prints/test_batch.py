"""`/prints/batch/<key>/`: the sheet of a batch, as a page and as a PDF."""

import re
from dataclasses import replace

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Garden
from bluewright.web.prints import typeset
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.prints.pdf import marks, pages

pytestmark = pytest.mark.django_db
HOSTILE = "#panic() *x* $y$ @z <b>&amp; \\ שלום \U0001f33f 藍 `code` #{[(" + "\n\tend"


@pytest.fixture
def batch(garden: Garden) -> Batch:
    """A batch that was made alkaline and is still to be aired."""
    bed = cast.a_bed(garden)
    tub = cast.a_tub(garden, leaf=[(cast.a_picking(garden, beds_of=[bed]), 3.0)])
    cast.a_look(tub, limpness=2, temp_c=16.0, temp_typed="61 F")
    found = cast.a_batch(cast.a_straining(tub, liquor_out_l=28.0, liquor_typed="28 L"))
    cast.a_liquor_look(found, ph=6.2)
    soda = cast.an_alkali(garden)
    cast.a_jar_test(found, soda, (2.0, 8.1), (1.0, 9.4))
    cast.an_alkali_part(found, soda, added_typed="1/4 cup", ph=9.5)
    return found


def where(batch: Batch) -> str:
    return url("prints.batch", key=batch.pk)


def rows(client: Client, batch: Batch) -> dict[str, list[tuple[str, ...]]]:
    page = client.get(where(batch)).context["page"]
    return {table.title: [row.cells for row in table.rows] for table in page.tables}


def blanks(client: Client, batch: Batch) -> dict[str, int]:
    page = client.get(where(batch)).context["page"]
    return {table.title: table.blanks for table in page.tables if table.blanks}


def test_it_tells_the_whole_batch_with_measures_as_typed(client: Client, batch: Batch) -> None:
    found = rows(client, batch)
    assert [row[0] for row in found["Thread"]] == ["Wall bed", "Picking", "Tub 9"]
    assert "61 F" in found["Looks at the tub"][0][2]
    assert found["Looks at the liquor"][0][1] == "pH 6.2"
    assert [row[1:4] for row in found["Alkali"]] == [
        ("jar of 500 mL: 2 mL + 1 mL", "soda, half molar", "8.1, 9.4"),
        ("1/4 cup", "soda, half molar", "9.5"),
    ]
    assert found["Air"] == found["Dry"] == found["Jar"] == []


def test_it_has_empty_lines_for_what_is_still_to_come(client: Client, batch: Batch) -> None:
    assert blanks(client, batch) == {"Alkali": 3, "Air": 1, "Settle and wash": 4, "Dry": 4, "Jar": 1}
    assert client.get(where(batch)).content.decode().count('class="blank"') == 13


def test_a_batch_in_its_jar_is_told_to_the_end(client: Client, batch: Batch) -> None:
    cast.an_airing(batch, ended_at=cast.moment(0.1))
    cast.a_standing(batch, decanted_at=cast.moment(0.1), left_l=4.0, left_typed="4 L", blue_in_decant=1)
    cast.a_standing(batch, hours_ago=0.1, refill_l=15.0, refill_typed="15 L", acid=True, ph=8.1)
    cast.a_drying(batch, (50, 160.0), (20, 112.4))
    cast.a_jar((batch, 12.3), stands="cellar")
    found = rows(client, batch)
    assert found["Air"][0][1:4] == ("poured from vessel to vessel", "20", "10")
    assert [row[1] for row in found["Settle and wash"]] == ["none: first settling", "15 L with acid"]
    assert found["Settle and wash"][0][3:5] == ("4 L", "1")
    assert [row[1:3] for row in found["Dry"]] == [("160 g", "100 g"), ("112.4 g", "100 g")]
    assert found["Jar"][0][1:] == ("Jar 9", "12.3 g", "cellar", "purity not measured")
    assert blanks(client, batch) == {}


def test_the_invented_garden_is_marked_and_yours_is_not(client: Client, batch: Batch) -> None:
    assert client.get(where(batch)).context["page"].invented == "invented"
    Garden.objects.filter(pk=batch.garden_id).update(invented=False)
    assert client.get(where(batch)).context["page"].invented == ""


def test_the_pdf_is_one_page_and_the_same_bytes_each_time(client: Client, batch: Batch) -> None:
    first, second = (client.get(where(batch), {"as": "pdf"}) for _ in range(2))
    assert (first.status_code, first["Content-Type"]) == (200, "application/pdf")
    assert first["Content-Disposition"] == 'inline; filename="batch-batch-9.pdf"'
    assert pages(first.content) == 1
    assert first.content == second.content


def test_paper_is_that_of_the_garden(client: Client, batch: Batch) -> None:
    """A4 is 210 by 297 mm, US Letter 8.5 by 11 inches: 595.28 and 612 points wide."""
    assert b"595.27" in client.get(where(batch), {"as": "pdf"}).content
    Garden.objects.filter(pk=batch.garden_id).update(system="us")
    assert client.get(where(batch)).context["page"].paper == "us-letter"
    assert re.search(rb"MediaBox\s*\[0 0 612 792\]", client.get(where(batch), {"as": "pdf"}).content)


@pytest.mark.parametrize("system", ["metric", "us"])
def test_however_much_is_written_down_it_stays_one_page(client: Client, batch: Batch, system: str) -> None:
    Garden.objects.filter(pk=batch.garden_id).update(system=system)
    tub = batch.came_from.get().strain.steep  # type: ignore[union-attr]
    soda = batch.alkali_parts.get().alkali
    for n in range(40):
        cast.a_look(tub, hours_ago=15 - n / 10, note="word " * 90, bubbles=1, scum=1, blue_cast=1, limpness=1, smell=1)
        cast.a_liquor_look(batch, ph=9.0, note="x" * 400)
        cast.an_alkali_part(batch, soda, hours_ago=0.2)
        cast.an_airing(batch)
        cast.a_standing(batch)
    cast.a_drying(batch, *((100 - n, 300.0 - n) for n in range(60)))
    page = client.get(where(batch)).context["page"]
    assert pages(client.get(where(batch), {"as": "pdf"}).content) == 1
    looks = next(table for table in page.tables if table.title == "Looks at the tub")
    assert "lines left out" in looks.rows[len(looks.rows) // 2].cells[1]


def test_what_was_typed_stays_text(client: Client, batch: Batch) -> None:
    """Neither page nor typesetter reads it as anything else: a note of markup has as many marks as letters."""
    Batch.objects.filter(pk=batch.pk).update(name=HOSTILE[:60], note=HOSTILE)
    said = client.get(where(batch)).content.decode()
    assert "<b>&amp;amp;" not in said
    assert "&lt;b&gt;" in said
    assert pages(client.get(where(batch), {"as": "pdf"}).content) == 1
    plain = replace(client.get(where(batch)).context["page"], name="x", facts="", note="")
    markup = replace(plain, note="#panic()*b*")
    assert marks("batch", markup) - marks("batch", plain) == len("#panic()*b*")


def test_it_is_drawn_with_the_typesetter_s_own_fonts() -> None:
    assert "Libertinus Serif" in typeset._fonts().families()


def test_there_is_no_batch_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("prints.batch", key=NOBODY)).status_code == 404


def test_a_stranger_s_batch_is_not_printed(client: Client, batch: Batch) -> None:
    strange = cast.a_batch(cast.a_straining(cast.a_tub(cast.a_garden())))
    assert client.get(where(strange)).status_code == 404
    assert client.get(where(strange), {"as": "pdf"}).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("prints.batch", key=NOBODY))


def test_it_is_only_read(client: Client, batch: Batch) -> None:
    only(client, where(batch), "get")


def test_a_longer_story_needs_no_more_statements(client: Client, garden: Garden, batch: Batch) -> None:
    cast.a_jar((batch, 2.0))
    cast.a_drying(batch, (9, 150.0))
    cast.an_airing(batch)
    cast.a_standing(batch)

    def more() -> None:
        for _ in range(2):
            tub = cast.a_tub(garden, leaf=[(cast.a_picking(garden, beds_of=[cast.a_bed(garden)]), 2.0)])
            batch.came_from.create(strain=cast.a_straining(tub, liquor_out_l=20.0, liquor_typed="20 L"))
            cast.a_look(tub)
            cast.a_liquor_look(batch, ph=9.0)
            cast.an_airing(batch)
            cast.a_standing(batch)
            cast.a_drying(batch, (8, 140.0))
            cast.a_jar((batch, 2.0))

    flat(client, where(batch), more)


def test_its_json_twin_is_what_is_typeset(client: Client, batch: Batch) -> None:
    page = client.get(where(batch)).context["page"]
    twin = client.get(where(batch), {"as": "json"}).json()
    assert twin["name"] == page.name
    assert [[row["cells"] for row in table["rows"]] for table in twin["tables"]] == [
        [list(row.cells) for row in table.rows] for table in page.tables
    ]
