"""`/book/looks.csv`: every look at a tub and at the liquor of a batch."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Steep
from bluewright.web.pages.book.export import LOOK_COLUMNS
from tests import cast
from tests.cast import counted
from tests.web.book.test_csv import table, text
from tests.web.checks import only, to_the_start_without_a_garden
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db
WHERE = "/book/looks.csv"


def test_looks_at_tubs_and_batches_are_rows(client: Client) -> None:
    place = cast.a_garden(time_zone="Asia/Tokyo")
    tub = cast.a_tub(place, name="A")
    look = cast.a_look(tub, ph=6.1, temp_c=-0.5, temp_typed="-0.5 C", bubbles=2, note="=cold")
    batch = cast.a_batch(cast.a_straining(tub), name="One")
    liquor = cast.a_liquor_look(batch, ph=9.2, foam=3, after_pours=10)
    first, second = table(client, WHERE)
    assert first["taken_at"].endswith("+09:00")
    filled = {name: said for name, said in first.items() if said and name != "taken_at"}
    assert filled == {
        "kind": "tub", "thing_id": str(tub.pk), "thing": "A", "look_id": str(look.pk), "ph": "6.1", "temp_c": "-0.5",
        "bubbles": "2", "note": "'=cold",
    }  # fmt: skip
    filled = {name: said for name, said in second.items() if said and name != "taken_at"}
    assert filled == {
        "kind": "batch", "thing_id": str(batch.pk), "thing": "One", "look_id": str(liquor.pk), "ph": "9.2",
        "foam": "3", "after_pours": "10",
    }  # fmt: skip


def test_looks_that_were_taken_out_and_those_of_others_are_not_in_it(
    client: Client, garden: Garden, steeping: Steep, strangers_tub: Steep
) -> None:
    look = cast.a_look(steeping, note="gone")
    delete(look, by=None)
    said = text(client, WHERE)
    assert "gone" not in said
    assert str(strangers_tub.pk) not in said
    assert str(steeping.pk) in said


def test_without_looks_the_heads_stand_alone(client: Client) -> None:
    cast.a_garden()
    assert text(client, WHERE) == ",".join(LOOK_COLUMNS) + "\r\n"


def test_a_mark_at_the_start_only_when_asked_for(client: Client, garden: Garden) -> None:
    assert text(client, f"{WHERE}?bom=yes").startswith("\ufeffkind,")
    assert text(client, WHERE).startswith("kind,")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_onlookers_may_take_it(garden: Garden) -> None:
    assert visitor("onlooker").get(WHERE).status_code == 200


def test_more_looks_need_no_more_statements(client: Client, steeping: Steep) -> None:
    text(client, WHERE)
    with counted() as few:
        text(client, WHERE)
    for _ in range(3):
        cast.a_look(steeping)
    with counted() as many:
        text(client, WHERE)
    assert few == many
