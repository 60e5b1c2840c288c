"""`/compare/batches/`: what many batches say of their causes, out of the rows."""

from datetime import timedelta

import numpy as np
import pytest
from django.test import Client

from bluewright.journal.bridge.many import batches_record
from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/compare/batches/"


def a_jarred_batch(garden: Garden, number: int, *, damaged_frac: float, ended_why: str = "") -> None:
    """A tub of 5 kg picked three hours before, with lime if odd, its pigment in a jar: spotted leaf gives half."""
    at = cast.moment(24 * (2 + number))
    picking = cast.a_picking(
        garden, picked_at=at - timedelta(hours=3), damaged_frac=damaged_frac, age="young"
    )  # fmt: skip
    tub = cast.a_tub(garden, leaf=[(picking, 5.0)], started_at=at, name=f"Tub {number}")
    cast.a_look(tub, hours_ago=24 * (2 + number) - 1, temp_c=14.0 + number)
    batch = cast.a_batch(cast.a_straining(tub), name=f"Batch {number}")
    kind = "slaked_lime" if number % 2 else "soda_ash"
    cast.an_alkali_part(batch, cast.an_alkali(garden, kind=kind))
    if ended_why:
        batch.ended_at, batch.ended_why = cast.moment(), ended_why
        batch.save()
        return
    cast.a_jar(
        (batch, 20.0 * (0.5 if damaged_frac > 0.2 else 1.0) + 0.1 * number), purity_frac=0.3, purity_sd_frac=0.03
    )


@pytest.fixture
def many(garden: Garden) -> Garden:
    """Eight batches, every second of spotted leaf, and one that was given up."""
    for number in range(8):
        a_jarred_batch(garden, number, damaged_frac=0.4 if number // 2 % 2 else 0.05)
    a_jarred_batch(garden, 8, damaged_frac=0.05, ended_why="it froze")
    return garden


def test_every_noted_cause_comes_out_of_the_rows(many: Garden) -> None:
    """5 kg and 20 g of which 30 % is indigo: 1.2 g of pure blue from a kilogram."""
    record = batches_record(many)
    assert len(record.batches) == 9
    first = next(one for one in record.batches if one.name == "Batch 0")
    assert first.value == pytest.approx(20.0 * 0.3 / 5, abs=1e-6)
    assert (first.held_h, first.temp_c, first.damaged_frac) == (3.0, 14.0, 0.05)
    assert (first.plant, first.leaf_age, first.alkali) == ("woad", "young", "soda ash")
    assert first.steep_h is not None
    assert first.day == (cast.moment(48) - timedelta(hours=3)).date()
    given_up = next(one for one in record.batches if one.name == "Batch 8")
    assert (given_up.value, given_up.spoilt) == (None, "it froze")


def test_spotted_leaf_is_told_by_itself(client: Client, many: Garden) -> None:
    page = client.get(WHERE).context["page"]
    assert "8 batches count" in page.answer.first
    damaged = next(row for _advised, row in page.answer.tables[0].rows if "amage" in row[0])
    assert "less" in damaged[1], "each tenth more damaged gives less"
    assert "<svg" in page.answer.chart
    assert any("given their way by lot" in note for note in page.answer.to_know)


def test_pigment_that_was_not_assayed_shares_its_doubt_with_its_make_only(garden: Garden) -> None:
    for number in range(4):
        a_jarred_batch(garden, number, damaged_frac=0.05)
    for jar in garden.jars.all():
        jar.purity_frac = jar.purity_sd_frac = None
        jar.save()
    told = {one.alkali: (one.assay, one.assay_sd_frac) for one in batches_record(garden).batches}
    assert told["soda ash"] == ("judged, unlimed woad", 0.6)
    assert told["slaked lime"] == ("judged, limed woad", 0.8)
    assert np.ptp([one.value or 0.0 for one in batches_record(garden).batches if one.alkali == "soda ash"]) < 0.1


def test_too_few_say_why_and_more_take_as_many_statements(client: Client, garden: Garden) -> None:
    a_jarred_batch(garden, 1, damaged_frac=0.05)
    assert "fewer than 4" in client.get(WHERE).context["page"].trouble
    flat(client, WHERE, lambda: [a_jarred_batch(garden, number, damaged_frac=0.05) for number in (2, 3)])
    only(client, WHERE, "get")
    to_the_start_without_a_garden(client, WHERE)
