"""No page shows what was: after one's own post, its undo, an emptied jar, a garden brought in."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from bluewright.journal import transfer
from bluewright.journal.bridge import book, gone
from bluewright.journal.models import Garden, Jar
from tests import cast
from tests.filed import filed
from tests.journal.test_transfer import gone as no_more
from tests.web.checks import url

ALL_YEARS = "/book/?year=all"


@pytest.fixture
def place(tmp_path: Path, django_db_blocker: Any) -> Iterator[Garden]:
    """A garden in a file of its own, where each post is committed, with a jar of one batch."""
    with filed(tmp_path / "garden.sqlite3", django_db_blocker):
        made = cast.a_garden()
        for name in ("Batch in a jar", "Batch alone"):
            batch = cast.a_batch(cast.a_straining(cast.a_tub(made), liquor_out_l=28.0, liquor_typed="28 L"), name=name)
        jarred = batch.__class__.objects.get(name="Batch in a jar")
        cast.a_jar((jarred, 12.0), purity_frac=0.4, filled_at=cast.moment(0.5))
        yield made


def test_what_a_post_changed_is_there_on_the_next_page(client: Client, place: Garden) -> None:
    def named() -> bool:
        return ">Batch alone</a>" in client.get(ALL_YEARS).content.decode()

    assert named() and named()
    alone = place.batches.get(name="Batch alone")  # type: ignore[attr-defined]
    client.post(url("batches.delete", key=alone.pk))
    assert not named()
    client.post(url("batches.restore", key=alone.pk))
    assert named()
    tub = cast.a_tub(place, name="Tub 7")
    client.get(ALL_YEARS)
    client.post(url("tubs.look", key=tub.pk), {"temp": "16.5", "taken_at": cast.typed(cast.moment())})
    assert tub.readings.count() == 1
    assert book._whole.known((place.pk, None)) is not None, "a look at a tub is no reason to read the book anew"
    client.post(url("tubs.strain", key=tub.pk), {"strained_at": cast.typed(cast.moment()), "squeeze": "hand"})
    assert tub.strains.count() == 1
    assert "Tub 7" in client.get(ALL_YEARS).content.decode(), "it waits for a batch now"


def test_what_is_taken_out_of_a_jar_is_in_the_stock_at_once(client: Client, place: Garden) -> None:
    def used() -> list[str]:
        return [row["what"] for row in client.get("/stock/", {"as": "json"}).json()["used"]]

    assert used() == []
    jar = Jar.objects.get()
    out = {"taken": "12 g", "taken_at": cast.typed(cast.moment()), "what_for": "wool vat"}
    client.post(url("jars.take", key=jar.pk), out)
    assert used() == used() == ["wool vat"]
    assert gone._gone.known(place.pk) is not None, "it is empty"
    client.post(url("jars.put_back", key=jar.pk, taken=jar.taken.get().pk))
    assert used() == []


def test_a_garden_that_is_brought_in_again_has_the_book_of_its_file(client: Client, place: Garden) -> None:
    """Its keys are those of the garden that was there, of which the book is still in memory."""
    text = transfer.take_out(place).replace("Batch alone", "Batch brought in")
    assert "Batch alone" in client.get(ALL_YEARS).content.decode()
    no_more(place)
    brought = SimpleUploadedFile("garden.json", text.encode(), content_type="application/json")
    client.post("/gardens/bring-in/", {"file": brought})
    assert Garden.objects.get() == place
    page = client.get(ALL_YEARS).content.decode()
    assert "Batch brought in" in page and "Batch alone" not in page
