"""Batches: liquor that joins and forks, and the records of its stages."""

import pytest
from django.db import IntegrityError, transaction

from bluewright.journal.actions.keeping import delete
from bluewright.journal.bridge import batches as bridge
from bluewright.journal.bridge.sources import leaf_kg, liquor_l, sources
from bluewright.journal.models import Batch, Garden, Poured, Strain
from bluewright.journal.queries import batches
from bluewright.science.base.bands import Band
from bluewright.science.base.errors import InputError
from tests import cast

pytestmark = pytest.mark.django_db


def strained(garden: Garden, *, liquor_l: float | None = 30.0, leaf: float = 3.0, rinse_l: float = 0.0) -> Strain:
    tub = cast.a_tub(garden, leaf=[(cast.a_picking(garden), leaf)])
    typed = f"{liquor_l:g} L" if liquor_l else ""
    return cast.a_straining(tub, liquor_out_l=liquor_l, liquor_typed=typed, rinse_l=rinse_l)


def whole(batch: Batch) -> Batch:
    found = batches.batch(batch.pk, of=batch.garden)
    assert found is not None
    return found


def test_a_batch_of_one_straining_holds_its_liquor_and_its_rinse(garden: Garden) -> None:
    """30 L measured and 2 L of rinse are 32 L."""
    batch = whole(cast.a_batch(strained(garden, rinse_l=2.0)))
    assert liquor_l(batch) == pytest.approx(32.0)
    assert leaf_kg(batch) == pytest.approx(3.0)


def test_liquor_that_was_not_measured_is_what_the_balance_expects(garden: Garden) -> None:
    """3 kg drained keep about 1.3 L each of the 30 L of water and their sap: 27 to 31 L run out."""
    assert 27.0 < liquor_l(whole(cast.a_batch(strained(garden, liquor_l=None)))) < 31.0


def test_two_tubs_join_in_one_batch(garden: Garden) -> None:
    batch = whole(cast.a_batch(strained(garden), strained(garden, liquor_l=20.0, leaf=2.0)))
    assert liquor_l(batch) == pytest.approx(50.0)
    assert leaf_kg(batch) == pytest.approx(5.0)
    assert [one.share_frac for one in sources(batch)] == [1.0, 1.0]


def test_one_straining_feeds_two_batches(garden: Garden) -> None:
    """12 of 30 L carry 12/30 of the 3 kg of leaf: 1.2 kg."""
    strain = strained(garden)
    small = whole(cast.a_batch(strain, liquor_l=[12.0]))
    cast.a_batch(strain, liquor_l=[18.0])
    assert leaf_kg(small) == pytest.approx(1.2)
    assert sources(small)[0].share_frac == pytest.approx(0.4)


def test_batches_join_in_one_settling_and_the_thread_leads_to_each_tub(garden: Garden) -> None:
    """All of 30 L and half of 20 L: 40 L, from 3 kg and half of 2 kg of leaf."""
    one, other = strained(garden), strained(garden, liquor_l=20.0, leaf=2.0)
    joined = whole(cast.a_batch(cast.a_batch(one), cast.a_batch(other), liquor_l=[None, 10.0]))
    assert liquor_l(joined) == pytest.approx(40.0)
    assert leaf_kg(joined) == pytest.approx(4.0)
    assert {source.strain.pk: source.share_frac for source in sources(joined)} == pytest.approx(
        {one.pk: 1.0, other.pk: 0.5}
    )


def test_a_batch_joined_to_itself_is_said_rather_than_followed(garden: Garden) -> None:
    batch = cast.a_batch(strained(garden))
    Poured.objects.filter(into=batch).update(strain=None, batch=batch)
    with pytest.raises(InputError, match="joined to itself"):
        liquor_l(whole(batch))


def test_what_is_poured_in_comes_from_one_place(garden: Garden) -> None:
    batch = cast.a_batch(strained(garden))
    with pytest.raises(IntegrityError), transaction.atomic():
        Poured.objects.create(into=batch)
    with pytest.raises(IntegrityError), transaction.atomic():
        Poured.objects.create(into=batch, strain=strained(garden), batch=cast.a_batch(strained(garden)))


def test_the_liquor_record_carries_what_was_read(garden: Garden) -> None:
    """Parts of 50, 20 and 30 mL, the second without a pH: sums of 50 and 100 mL with a reading."""
    batch, soda = cast.a_batch(strained(garden)), cast.an_alkali(garden)
    cast.a_liquor_look(batch, ph=6.1, temp_c=17.0)
    cast.a_jar_test(batch, soda, (2.0, 8.0), (1.5, 9.6))
    for hours_ago, ml, ph in ((0.3, 50.0, 8.2), (0.2, 20.0, None), (0.1, 30.0, 9.1)):
        cast.an_alkali_part(batch, soda, hours_ago=hours_ago, added_ml=ml, ph=ph)
    record = bridge.liquor_record(whole(batch), alkali=soda)
    assert (record.liquor_l, record.ph, record.temp_c, record.leaf_kg) == (30.0, 6.1, 17.0, 3.0)
    assert [(step.added_ml, step.ph) for step in record.added_so_far] == [(50.0, 8.2), (100.0, 9.1)]
    assert record.jar is not None
    assert [(step.added_ml, step.ph) for step in record.jar.steps] == [(2.0, 8.0), (3.5, 9.6)]
    assert (record.alkali.kind, record.alkali.mol_per_l) == ("soda_ash", 0.5)


def test_a_ph_read_after_the_first_part_is_not_the_liquor_s_own(garden: Garden) -> None:
    batch, soda = cast.a_batch(strained(garden)), cast.an_alkali(garden)
    cast.an_alkali_part(batch, soda, hours_ago=0.3)
    cast.a_liquor_look(batch, hours_ago=0.1, ph=9.0)
    assert bridge.liquor_record(whole(batch), alkali=soda).ph is None


def test_the_airing_record_counts_pours_and_minutes_of_the_same_way(garden: Garden) -> None:
    """20 pours in 10 minutes and 30 in 15: 50 pours in 25 minutes, two a minute."""
    batch, soda = cast.a_batch(strained(garden)), cast.an_alkali(garden)
    cast.a_liquor_look(batch, temp_c=18.0, ph=6.2)
    cast.an_alkali_part(batch, soda, ph=9.4)
    cast.an_airing(batch, started_at=cast.moment(0.3), way="whisk", done_pours=None)
    cast.an_airing(batch)
    cast.an_airing(batch, started_at=cast.moment(0.1), done_pours=30, done_min=15.0)
    cast.a_liquor_look(batch, hours_ago=0.05, foam=1, liquor=2, after_pours=40)
    record = bridge.air_record(whole(batch), indigo_g=Band(p5=1.0, p50=2.0, p95=4.29))
    assert (record.way, record.done_pours, record.done_min, record.ph) == ("pour", 50, 25.0, 9.4)
    assert record.pour is not None
    assert record.pour.pours_per_min == 2.0
    assert (record.indigo_g, record.alkali) == (2.0, "soda_ash")
    assert record.indigo_sd_g == pytest.approx(1.0, rel=1e-3)
    assert [(r.after_pours, r.signs.foam, r.signs.liquor) for r in record.readings] == [(40, 1, 2)]


def test_an_airing_without_a_temperature_says_so(garden: Garden) -> None:
    batch = cast.a_batch(strained(garden))
    cast.an_airing(batch)
    with pytest.raises(InputError, match="temperature is missing"):
        bridge.air_record(whole(batch), indigo_g=None)


def test_a_standing_vessel_and_its_edge(garden: Garden) -> None:
    batch = cast.a_batch(strained(garden))
    cast.a_standing(batch, hours_ago=6.0, edges=[(4.0, 260.0), (1.0, 180.0)])
    record = bridge.settle_record(whole(batch).standings.all()[0], now=cast.moment())
    assert (record.depth_mm, record.liquor_l, record.now_h) == (300.0, 30.0, 6.0)
    assert [(r.after_h, r.interface_mm) for r in record.readings] == [(2.0, 260.0), (5.0, 180.0)]


def test_washes_count_from_the_first_fresh_water(garden: Garden) -> None:
    """Decanted to 4 L, then washed once with 20 L and decanted to 5 L: the sludge is 4.5 L, one wash is done."""
    garden.tap_conductivity_us_per_cm = 400.0
    garden.save()
    batch = cast.a_batch(strained(garden))
    cast.a_standing(batch, hours_ago=40, decanted_at=cast.moment(20), left_l=4.0, conductivity_us_per_cm=6000.0)
    cast.a_standing(
        batch, hours_ago=19, refill_l=20.0, decanted_at=cast.moment(2), left_l=5.0, conductivity_us_per_cm=1900.0
    )
    record = bridge.wash_record(whole(batch))
    assert (record.sludge_l, record.refill_l, record.washes_done) == (4.5, 20.0, 1)
    assert [(r.wash, r.conductivity_us_per_cm) for r in record.readings] == [(0, 6000.0), (1, 1900.0)]


def test_a_rinse_is_not_read_against_water_that_was_not(garden: Garden) -> None:
    batch = cast.a_batch(strained(garden))
    cast.a_standing(batch, hours_ago=40, decanted_at=cast.moment(20), left_l=4.0, ph=9.2)
    assert bridge.wash_record(whole(batch), refill_l=20.0).readings == ()


def test_a_dish_and_its_weighings(garden: Garden) -> None:
    batch = cast.a_batch(strained(garden))
    drying = cast.a_drying(batch, (100, 180.0), (60, 150.0), humidity_frac=0.6)
    record = bridge.dry_record(drying)
    assert (record.dish_g, record.humidity_frac, record.temp_c) == (100.0, 0.6, 20.0)
    assert [(w.after_h, w.total_g) for w in record.weighings] == [(0.0, 180.0), (40.0, 150.0)]


def test_the_stage_is_the_farthest_that_was_reached(garden: Garden) -> None:
    batch = cast.a_batch(strained(garden))
    reached = [batches.stage_of(whole(batch))]
    for go_on in (
        lambda: cast.an_alkali_part(batch, cast.an_alkali(garden)),
        lambda: cast.an_airing(batch),
        lambda: cast.a_standing(batch),
        lambda: cast.a_drying(batch),
        lambda: cast.a_jar((batch, 12.0)),
    ):
        go_on()
        reached.append(batches.stage_of(whole(batch)))
    assert reached == ["liquor", "alkali", "air", "settle", "dry", "jar"]
    assert batches.stage_of(whole(cast.a_batch(strained(garden), ended_at=cast.moment()))) == "ended"


def test_what_is_still_worked_on(garden: Garden) -> None:
    done, spoilt, upstream, open_ = (cast.a_batch(strained(garden)) for _ in range(4))
    cast.a_jar((done, 12.0))
    Batch.objects.filter(pk=spoilt.pk).update(ended_at=cast.moment())
    into = cast.a_batch(upstream)
    assert {one.pk for one in batches.working(garden)} == {open_.pk, into.pk}


def test_liquor_waits_until_it_is_in_a_batch(garden: Garden) -> None:
    strain = strained(garden)
    assert strain in batches.unworked_strains(garden)
    cast.a_batch(strain)
    assert strain not in batches.unworked_strains(garden)


def test_liquor_is_left_until_all_of_it_is_in_a_batch_that_stands(garden: Garden, other_garden: Garden) -> None:
    mine = in_parts, all_in, spilt = (strained(garden), strained(garden), strained(garden))
    elsewhere = strained(other_garden)
    cast.a_batch(in_parts, liquor_l=[5.0])
    batch = cast.a_batch(all_in)
    delete(spilt.steep, by=None)

    def left(of: Garden) -> list[Strain]:
        return [one for one in (*mine, elsewhere) if one in batches.with_liquor_left(of)]

    assert (left(garden), left(other_garden)) == ([in_parts], [elsewhere])
    delete(batch, by=None)
    assert left(garden) == [in_parts, all_in]


def test_a_batch_is_read_in_as_many_statements_whatever_it_holds(garden: Garden) -> None:
    batch, soda = cast.a_batch(strained(garden)), cast.an_alkali(garden)
    cast.an_alkali_part(batch, soda)
    cast.a_standing(batch, edges=[(0.1, 200.0)])
    with cast.counted() as few:
        leaf_kg(whole(batch))
    wide = cast.a_batch(strained(garden), strained(garden), cast.a_batch(strained(garden)))
    for _ in range(3):
        cast.an_alkali_part(wide, soda)
        cast.a_standing(wide, edges=[(0.1, 200.0), (0.05, 190.0)])
    with cast.counted() as many:
        leaf_kg(whole(wide))
    assert many[0] - few[0] <= 12, "one more level of batches may be read, never one more for each row"
    cast.an_alkali_part(wide, soda)
    with cast.counted() as more:
        leaf_kg(whole(wide))
    assert more == many
