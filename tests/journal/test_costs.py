"""A season's rows as the record of its costs: water, leaf, alkali and work where they belong, nothing counted twice."""

from datetime import timedelta

import pytest
from django.utils import timezone

from bluewright.journal.actions import keeping
from bluewright.journal.bridge.costs import Season, own_names, season
from bluewright.journal.models import Garden
from bluewright.journal.queries.book import Begun
from bluewright.science.cost.cost_record import CostRecord
from tests import cast

pytestmark = pytest.mark.django_db
WIDE = timedelta(days=400)


def read(garden: Garden) -> Season:
    found = season(garden, (timezone.now() - WIDE, timezone.now() + WIDE))
    assert found is not None
    return found


def record(garden: Garden) -> CostRecord:
    return read(garden).record


def test_a_batch_has_the_water_of_its_tub_its_rinse_and_its_washes(garden: Garden) -> None:
    tub = cast.a_tub(garden, water_l=30.0)
    batch = cast.a_batch(cast.a_straining(tub, rinse_l=2.0, rinse_typed="2 L"))
    cast.a_standing(batch)
    cast.a_standing(batch, refill_l=12.0, refill_typed="12 L")
    cast.a_standing(batch, refill_l=10.0, refill_typed="10 L")
    (made,) = record(garden).batches
    assert (made.steep_l, made.wash_l, made.leaf_kg) == (32.0, 22.0, 3.0)
    assert (made.pigment_g, made.failed) == (None, False)


def test_a_tub_that_fed_two_batches_is_shared_by_its_liquor(garden: Garden) -> None:
    """Of 28 L seven went one way: a quarter of 30 L is 7.5 L, and of 3 kg 0.75 kg."""
    strain = cast.a_straining(cast.a_tub(garden, water_l=30.0), liquor_out_l=28.0, liquor_typed="28 L")
    cast.a_batch(strain, liquor_l=[7.0], name="small")
    cast.a_batch(strain, liquor_l=[21.0], name="large")
    found = {one.id: one for one in record(garden).batches}
    assert found["small"].steep_l == pytest.approx(7.5)
    assert found["small"].leaf_kg == pytest.approx(0.75)
    assert found["large"].steep_l == pytest.approx(22.5)


def test_pigment_and_purity_come_from_the_jars(garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 12.0, purity_frac=0.3, purity_sd_frac=0.04)
    (made,) = record(garden).batches
    assert made.pigment_g == 12.0
    assert made.purity is not None
    assert (made.purity.mean_frac, made.purity.sd_frac) == (pytest.approx(0.3), pytest.approx(0.04))
    assert jar.came_from.count() == 1


def test_alkali_is_added_up_and_priced_by_its_pack(garden: Garden) -> None:
    soda = cast.an_alkali(garden, mol_per_l=None, name="soda", pack_amount=1000.0, pack_typed="1 kg", pack_money=6.9)
    batch = cast.a_batch(cast.a_straining(cast.a_tub(garden)))
    for grams in (20.0, 12.0):
        cast.an_alkali_part(batch, soda, added_ml=None, added_g=grams, added_typed=f"{grams:g} g")
    found = record(garden)
    (pack,), (used,), (made,) = found.alkalis, found.used, found.batches
    assert (pack.measure, pack.pack_amount, pack.pack_money) == ("g", 1000.0, 6.9)
    assert (used.name, used.batch, used.used_amount) == ("soda", made.id, 32.0)
    assert made.make == "unlimed"


def test_lime_and_an_acid_wash_tell_how_it_was_made(garden: Garden) -> None:
    lime = cast.an_alkali(garden, kind="slaked_lime", name="lime", mol_per_l=None)
    batch = cast.a_batch(cast.a_straining(cast.a_tub(garden)))
    cast.an_alkali_part(batch, lime, added_ml=None, added_g=40.0)
    assert record(garden).batches[0].make == "limed"
    cast.a_standing(batch, refill_l=10.0, refill_typed="10 L", acid=True)
    assert record(garden).batches[0].make == "acid_washed"


def test_work_goes_to_the_batch_to_the_tub_s_batch_or_to_the_season(garden: Garden) -> None:
    tub, bed = cast.a_tub(garden), cast.a_bed(garden)
    batch = cast.a_batch(cast.a_straining(tub))
    cast.a_work_note(garden, kind="airing", batch=batch)
    cast.a_work_note(garden, kind="looking", steep=tub)
    cast.a_work_note(garden, kind="bed", bed=bed)
    cast.a_work_note(garden, kind="other")
    cast.a_work_note(garden, kind="looking", steep=cast.a_tub(garden, name="thrown away"))
    told = sorted((one.kind, one.batch) for one in record(garden).work)
    assert told == [
        ("airing", batch.name), ("bed", ""), ("looking", ""), ("looking", batch.name), ("other", ""),
    ]  # fmt: skip


def test_a_clock_is_surer_than_what_was_typed_and_one_that_runs_is_not_counted(garden: Garden) -> None:
    cast.a_batch(cast.a_straining(cast.a_tub(garden)))
    cast.a_work_note(garden, 40.0)
    cast.a_work_note(garden, 25.0, spent_typed="")
    cast.a_work_note(garden, None)
    assert sorted((one.spent_min, one.off_frac) for one in record(garden).work) == [(25.0, 0.02), (40.0, 0.1)]


def test_a_batch_poured_into_another_is_counted_there(garden: Garden) -> None:
    """Its tub, its alkali and its work are the other's; by itself it is no batch that failed to give pigment."""
    first = cast.a_batch(cast.a_straining(cast.a_tub(garden, name="one")), name="first")
    both = cast.a_batch(first, cast.a_straining(cast.a_tub(garden, name="two")), name="both")
    cast.an_alkali_part(first, cast.an_alkali(garden))
    cast.a_work_note(garden, kind="airing", batch=first)
    found = record(garden)
    assert [one.id for one in found.batches] == ["both"]
    assert found.batches[0].steep_l == 60.0
    assert [one.batch for one in found.used] == [one.batch for one in found.work] == [both.name]


def test_a_batch_given_up_has_failed(garden: Garden) -> None:
    cast.a_batch(cast.a_straining(cast.a_tub(garden)), ended_at=timezone.now(), ended_why="spilt")
    assert record(garden).batches[0].failed


def test_two_of_one_name_are_told_apart() -> None:
    from uuid import uuid4

    rows = [Begun(key=uuid4(), name="Batch 3", begun_at=timezone.now()) for _ in range(3)]
    assert list(own_names(rows).values()) == ["Batch 3", "Batch 3 (2)", "Batch 3 (3)"]


def test_the_garden_s_prices_are_in_it(garden: Garden) -> None:
    garden.currency, garden.wage_money_per_h, garden.price_money_per_g = "EUR", 12.0, 14.0
    keeping.keep(garden, by=None)
    cast.a_batch(cast.a_straining(cast.a_tub(garden)))
    found = record(garden)
    assert (found.currency, found.wage_money_per_h, found.price_money_per_g) == ("EUR", 12.0, 14.0)


def test_without_a_batch_there_is_nothing_to_reckon(garden: Garden) -> None:
    cast.a_work_note(garden)
    assert season(garden, (timezone.now() - WIDE, timezone.now() + WIDE)) is None
