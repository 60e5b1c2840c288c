"""`/prints/jar/<key>/`: the label of a jar, as a page and as a PDF."""

import re
from dataclasses import replace
from typing import Any

import pytest
import segno
from django.test import Client

from bluewright.journal.models import Garden, Jar
from bluewright.web.pages.prints.jar_label import square
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.prints.pdf import marks, pages

pytestmark = pytest.mark.django_db
HOSTILE = "#panic() *x* $y$ <b> \\ שלום \U0001f33f 藍 #{[("


@pytest.fixture
def jar(garden: Garden) -> Jar:
    return cast.a_jar_from_the_bed(garden, 12.3, purity_frac=0.35, purity_sd_frac=0.04)


def where(jar: Jar) -> str:
    return url("prints.jar", key=jar.pk)


def dark_modules(svg: str) -> set[tuple[int, int]]:
    """Row and column of each dark module that a drawing of horizontal strokes of width one has."""
    (path,) = re.findall(r'class="qrline"[^>]* d="([^"]+)"', svg)
    found, x, y = set(), 0.0, 0.0
    for move, dx, dy, run in re.findall(r"([Mm])(-?[\d.]+) ?(-?[\d.]+)h(\d+)", path):
        x, y = (float(dx), float(dy)) if move == "M" else (x + float(dx), y + float(dy))
        found |= {(int(y - 0.5), int(x) + k) for k in range(int(run))}
        x += int(run)
    return found


def test_it_says_what_is_in_the_jar(client: Client, jar: Jar) -> None:
    """Own hand: 35 % give or take 4 %, nine in ten: 1.645 * 4 = 6.6 to either side, 28 to 42."""
    label = client.get(where(jar)).context["page"].label
    assert label.name == "Jar 9"
    assert label.garden == "Marl Bank (invented)"
    assert label.lines[0] == "Indigo of woad"
    assert label.lines[1].startswith("Leaf picked ")
    assert label.lines[2].endswith(f"{jar.filled_at.year}: 12.3 g")
    assert label.lines[3:] == ("35% indigo (28 to 42)", "Batch 9")
    assert label.short_id == str(jar.pk)[:8]
    assert label.short_id in client.get(url("jars.show", key=jar.pk)).content.decode()


def test_a_purity_that_was_not_measured_is_said_so(client: Client, jar: Jar) -> None:
    Jar.objects.update(purity_frac=None, purity_sd_frac=None)
    assert "Purity not measured" in client.get(where(jar)).context["page"].label.lines
    Jar.objects.update(purity_frac=0.35)
    assert "35% indigo" in client.get(where(jar)).context["page"].label.lines


def test_the_purity_of_assays_is_told_with_its_range(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 12.3)
    cast.an_assay(jar)
    lines = client.get(where(jar)).context["page"].label.lines
    assert any(re.fullmatch(r"35% \(3\d to 3\d\) indigo, by its assays", line) for line in lines)


def test_leaf_of_several_days_is_told_from_first_to_last(client: Client, garden: Garden) -> None:
    late, early = cast.a_picking(garden), cast.a_picking(garden, picked_at=cast.moment(22 + 24 * 3))
    tub = cast.a_tub(garden, leaf=[(late, 1.0), (early, 2.0)])
    line = client.get(where(cast.a_jar((cast.a_batch(cast.a_straining(tub)), 5.0)))).context["page"].label.lines[1]
    assert re.fullmatch(r"Leaf picked \d+ \w{3}( \d{4})? to \d+ \w{3} \d{4}", line)


def test_the_square_opens_the_thread_on_this_machine(client: Client, jar: Jar) -> None:
    response = client.get(where(jar), HTTP_HOST="127.0.0.1:8642")
    label = response.context["page"].label
    assert label.address == f"http://127.0.0.1:8642/threads/jar/{jar.pk}/"
    assert "only on the machine" in label.qr_says
    assert "--lan" in response.content.decode()


def test_with_phones_in_the_house_it_opens_there(client: Client, jar: Jar, settings: Any) -> None:
    settings.DOOR = "http://192.168.1.5:8642/"
    response = client.get(where(jar))
    label = response.context["page"].label
    assert label.address == f"http://192.168.1.5:8642/threads/jar/{jar.pk}/"
    assert "in this house" in label.qr_says
    assert "--lan" not in response.content.decode()


def test_the_square_is_the_address_and_nothing_else(client: Client, jar: Jar) -> None:
    """Module for module the matrix that the library makes of the address; four modules of quiet around it."""
    label = client.get(where(jar)).context["page"].label
    matrix = segno.make(f"http://testserver/threads/jar/{jar.pk}/", error="m", micro=False).matrix
    dark = {(y + 4, x + 4) for y, row in enumerate(matrix) for x, module in enumerate(row) if module & 1}
    assert dark_modules(label.qr) == dark
    assert dark_modules(square("http://testserver/other/")) != dark


def test_copies_fill_the_sheet_and_no_more(client: Client, jar: Jar) -> None:
    for asked, given in (("", 1), ("1", 1), ("4", 4), ("8", 8), ("9", 8), ("0", 1), ("-3", 1), ("many", 1), ("٣", 1)):
        response = client.get(where(jar), {"copies": asked})
        assert response.context["page"].copies == given, asked
        assert response.content.decode().count('<section class="label">') == given
        assert pages(client.get(where(jar), {"copies": asked, "as": "pdf"}).content) == 1


def test_the_pdf_is_the_same_bytes_each_time(client: Client, jar: Jar) -> None:
    first, second = (client.get(where(jar), {"as": "pdf", "copies": "8"}) for _ in range(2))
    assert (first.status_code, first["Content-Type"]) == (200, "application/pdf")
    assert first["Content-Disposition"] == 'inline; filename="jar-jar-9.pdf"'
    assert first.content == second.content


def test_paper_is_that_of_the_garden(client: Client, jar: Jar) -> None:
    """US Letter is 8.5 by 11 inches: 612 by 792 points."""
    Garden.objects.filter(pk=jar.garden_id).update(system="us")
    pdf = client.get(where(jar), {"as": "pdf", "copies": "8"}).content
    assert re.search(rb"MediaBox\s*\[0 0 612 792\]", pdf)
    assert pages(pdf) == 1


def test_what_was_typed_stays_text(client: Client, jar: Jar) -> None:
    Jar.objects.update(name=HOSTILE)
    assert "<b>" not in client.get(where(jar)).content.decode()
    response = client.get(where(jar), {"as": "pdf"})
    assert pages(response.content) == 1
    assert "\n" not in response["Content-Disposition"]
    page = client.get(where(jar)).context["page"]
    plain = replace(page, name="x", label=replace(page.label, name="", garden="", lines=("x",)))
    markup = replace(plain, label=replace(plain.label, lines=("#panic()*b*",)))
    assert marks("jar", markup) - marks("jar", plain) == len("#panic()*b*") - 1


def test_long_names_and_many_batches_stay_on_the_label(client: Client, garden: Garden) -> None:
    batches = [cast.a_batch(cast.a_straining(cast.a_tub(garden)), name=f"Batch {n} " + "x" * 50) for n in range(12)]
    jar = cast.a_jar(*((batch, 2.0) for batch in batches), name="W" * 60)
    assert pages(client.get(where(jar), {"as": "pdf", "copies": "8"}).content) == 1


def test_there_is_no_jar_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("prints.jar", key=NOBODY)).status_code == 404


def test_a_stranger_s_jar_is_not_printed(client: Client, garden: Garden) -> None:
    assert client.get(where(cast.a_jar_from_the_bed(cast.a_garden()))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("prints.jar", key=NOBODY))


def test_it_is_only_read(client: Client, jar: Jar) -> None:
    only(client, where(jar), "get")


def test_more_takings_and_batches_need_no_more_statements(client: Client, garden: Garden, jar: Jar) -> None:
    def more() -> None:
        for _ in range(2):
            cast.taken(jar, 1.0)
            jar.came_from.create(
                batch=cast.a_batch(cast.a_straining(cast.a_tub(garden))), pigment_g=2.0, pigment_typed="2 g"
            )

    cast.taken(jar, 1.0)
    flat(client, where(jar), more)


def test_its_json_twin_is_what_is_typeset(client: Client, jar: Jar) -> None:
    page = client.get(where(jar)).context["page"]
    twin = client.get(where(jar), {"as": "json"}).json()
    assert (twin["label"]["address"], twin["copies"]) == (page.label.address, 1)
    assert twin["label"]["lines"] == list(page.label.lines)
