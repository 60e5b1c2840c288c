"""`/book/batches.csv`: the book as a table for other programs."""

import csv
import io
from datetime import UTC, datetime
from uuid import uuid4
from zoneinfo import ZoneInfo

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Garden, Steep
from bluewright.web.pages.book.export import BATCH_COLUMNS, CHUNK, as_csv, cell
from tests import cast
from tests.cast import counted
from tests.house.test_house import BARE, UNITS
from tests.web.book.season import a_batch_in_its_jar, in_year
from tests.web.checks import only, to_the_start_without_a_garden
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db
WHERE = "/book/batches.csv"


def text(client: Client, where: str = WHERE) -> str:
    return b"".join(client.get(where).streaming_content).decode("utf-8")  # type: ignore[attr-defined]


def table(client: Client, where: str = WHERE) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text(client, where), newline="")))


def test_a_batch_is_a_row_with_its_figures(client: Client) -> None:
    batch = a_batch_in_its_jar(cast.a_garden(), note='a "dry" week,\nand warm')
    (row,) = table(client)
    begun = batch.begun_at.astimezone(ZoneInfo("Europe/London"))
    assert row.pop("begun_at") == begun.isoformat(timespec="seconds")
    assert row == {
        "batch_id": str(batch.pk), "batch": "First", "tubs": "A", "beds": "East", "leaf_kg": "3", "leaf_about": "no",
        "plant": "woad", "steep_h": "20", "tub_temp_c": "14", "alkali": "soda ash", "ph": "9.4", "aired_min": "15",
        "aired_pours": "20", "pigment_g": "6", "pigment_g_per_kg": "2", "purity_frac": "0.5",
        "purity_low_frac": "0.417757", "purity_high_frac": "0.582243", "purity_measured": "yes", "stage": "jar",
        "how_far": "in Jar A", "note": 'a "dry" week,\nand warm',
    }  # fmt: skip


def test_what_nobody_wrote_down_is_an_empty_cell(client: Client) -> None:
    cast.a_batch(cast.a_straining(cast.a_tub(cast.a_garden())), name="Bare")
    (row,) = table(client)
    assert {row[name] for name in ("ph", "pigment_g", "purity_frac", "purity_measured", "tub_temp_c", "note")} == {""}


def test_tubs_in_no_batch_come_last(client: Client) -> None:
    place = cast.a_garden()
    a_batch_in_its_jar(place)
    cast.a_tub(place, name="Waiting")
    last = table(client)[-1]
    assert (last["tubs"], last["batch"], last["stage"], last["leaf_kg"]) == ("Waiting", "", "no batch", "3")


def test_batches_of_all_years_are_in_it(client: Client) -> None:
    place = cast.a_garden()
    strain = cast.a_straining(cast.a_tub(place), liquor_out_l=28.0)
    for year in (2020, 2024):
        cast.a_batch(strain, liquor_l=[1.0], name=str(year), begun_at=in_year(year))
    assert [row["batch"] for row in table(client)] == ["2024", "2020"]


def test_its_columns_carry_their_units() -> None:
    """By the rules of docs/nomenclature.md: what is no number has no unit."""
    words = {"batch_id", "begun_at", "batch", "tubs", "beds", "leaf_about", "plant", "alkali", "purity_measured",
             "stage", "how_far", "note"}  # fmt: skip
    assert all(UNITS.search(name) or name in BARE for name in set(BATCH_COLUMNS) - words)


def test_it_is_a_file_of_the_day_and_says_what_it_is(client: Client, garden: Garden) -> None:
    response = client.get(WHERE)
    assert response["Content-Type"] == "text/csv; charset=utf-8; header=present"
    assert response["Content-Disposition"].startswith('attachment; filename="marl-bank-batches-')


def test_a_mark_at_the_start_only_when_asked_for(client: Client, garden: Garden) -> None:
    assert text(client).startswith("batch_id,")
    assert text(client, f"{WHERE}?bom=yes").startswith("\ufeffbatch_id,")
    assert text(client, f"{WHERE}?bom=x").startswith("batch_id,")


def test_lines_end_as_rfc_4180_says_and_letters_are_utf_8(client: Client) -> None:
    a_batch_in_its_jar(cast.a_garden(), "Früh, 藍")
    raw = text(client)
    assert raw.endswith("\r\n")
    assert raw.count("\r\n") == raw.count("\n") == 2
    assert '"Früh, 藍"' in raw


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_what_a_spreadsheet_would_run_is_text_to_it(client: Client, start: str) -> None:
    a_batch_in_its_jar(cast.a_garden(), f"{start}1+1", note=f"{start}HYPERLINK(1)")
    (row,) = table(client)
    assert (row["batch"], row["note"]) == (f"'{start}1+1", f"'{start}HYPERLINK(1)")


@pytest.mark.parametrize(
    ("value", "said"),
    [(-3.5, "-3.5"), (1e-7, "0"), (1234567.25, "1234567.25"), (1e16, "10000000000000000"), (2, "2"), (None, ""),
     (True, "yes"), (datetime(2026, 7, 1, 9, 30, 5, 9, tzinfo=UTC), "2026-07-01T09:30:05+00:00"), ("a=b", "a=b")],
)  # fmt: skip
def test_a_cell_has_a_decimal_point_no_exponent_and_a_date_with_its_offset(value: object, said: str) -> None:
    assert cell(value) == said
    assert cell(UNSEEN) == str(UNSEEN)


UNSEEN = uuid4()


def test_it_is_sent_in_parts() -> None:
    parts = list(as_csv(["n"], ([n] for n in range(2 * CHUNK + 1)), bom=False))
    assert len(parts) == 3
    assert "".join(parts).split() == ["n", *map(str, range(2 * CHUNK + 1))]


def test_a_stranger_s_batches_are_not_in_it(client: Client, garden: Garden, strangers_tub: Steep) -> None:
    cast.a_batch(strangers_tub.strains.get(), name="Not yours")
    assert "Not yours" not in text(client)


def test_a_garden_without_batches_gives_the_heads_alone(client: Client) -> None:
    cast.a_garden()
    assert table(client) == []
    assert not Batch.objects.exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_onlookers_may_take_it(garden: Garden) -> None:
    assert visitor("onlooker").get(WHERE).status_code == 200


def test_more_batches_need_no_more_statements(client: Client) -> None:
    place = cast.a_garden()
    a_batch_in_its_jar(place)
    text(client)
    with counted() as few:
        text(client)
    for _ in range(3):
        a_batch_in_its_jar(place)
    with counted() as many:
        text(client)
    assert few == many
