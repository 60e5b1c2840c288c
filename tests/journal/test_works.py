"""From air to dry paste in the journal: what counts for each record, what is the same sent twice, what comes next."""

from datetime import timedelta

import pytest

from bluewright.journal.actions import airings
from bluewright.journal.bridge import answers
from bluewright.journal.bridge import batches as bridge
from bluewright.journal.models import Airing, Batch, Change, Garden
from bluewright.journal.queries import batches
from bluewright.science.base.bands import Band
from bluewright.science.base.errors import InputError
from bluewright.science.settle.acid_record import Acid
from bluewright.web.pages.airing.next import next_matter
from bluewright.web.pages.drying.next import next_matter as next_of_drying
from bluewright.web.pages.drying.next import weigh_again_at
from bluewright.web.pages.settling.next import next_matter as next_of_settling
from tests import cast
from tests.web.working import a_decanted_batch, a_drying_batch, a_settling_batch, a_working_batch

pytestmark = pytest.mark.django_db


def whole(batch: Batch) -> Batch:
    found = batches.batch(batch.pk, of=batch.garden)
    assert found is not None
    return found


def test_the_ph_before_air_is_the_last_one_whoever_read_it(garden: Garden) -> None:
    """6.5 before the alkali, 9.4 after it."""
    batch = a_working_batch(garden)
    cast.a_liquor_look(batch, hours_ago=1.8, ph=6.5)
    assert bridge.ph_before_air(whole(batch)) == 9.4
    cast.a_liquor_look(batch, hours_ago=0.5, ph=9.2)
    cast.an_airing(batch)
    assert bridge.ph_before_air(whole(batch)) == 9.2
    cast.a_liquor_look(batch, hours_ago=0.1, ph=8.8, after_pours=20)
    assert bridge.ph_before_air(whole(batch)) == 9.2


def test_the_ph_is_unknown_where_the_last_alkali_was_not_read(garden: Garden) -> None:
    batch = a_working_batch(garden)
    cast.an_alkali_part(batch, cast.an_alkali(garden), hours_ago=0.5, ph=None)
    assert bridge.ph_before_air(whole(batch)) is None


def test_alkali_that_came_while_airing_is_the_best_there_is_where_nothing_was_read_before(garden: Garden) -> None:
    batch = a_working_batch(garden, alkali=False)
    cast.an_airing(batch)
    cast.an_alkali_part(batch, cast.an_alkali(garden), hours_ago=0.1, ph=9.0)
    assert bridge.ph_before_air(whole(batch)) == 9.0


def test_pours_counted_with_the_clock_at_rest_say_nothing_of_the_pace(garden: Garden) -> None:
    """20 pours in six seconds are 200 a minute: nobody pours so."""
    batch = a_working_batch(garden)
    cast.an_airing(batch, done_pours=20, done_min=0.1)
    record = bridge.air_record(whole(batch), indigo_g=None)
    assert (record.done_pours, record.done_min) == (20, None)
    assert record.pour is not None
    assert record.pour.pours_per_min is None
    assert answers.aired(record).left_pours is not None


def test_minutes_without_pours_are_minutes(garden: Garden) -> None:
    batch = a_working_batch(garden)
    cast.an_airing(batch, done_pours=0, done_min=6.0)
    record = bridge.air_record(whole(batch), indigo_g=None)
    assert (record.done_pours, record.done_min) == (None, 6.0)


def test_an_airing_just_begun_can_be_answered(garden: Garden) -> None:
    batch = a_working_batch(garden)
    cast.an_airing(batch, done_pours=None, done_min=None)
    cast.a_liquor_look(batch, hours_ago=0.1, foam=0, after_pours=0, after_min=0.0)
    assert answers.aired(bridge.air_record(whole(batch), indigo_g=None)).done_frac.p50 == 0.0


def test_a_look_is_never_later_than_what_is_counted(garden: Garden) -> None:
    """Noted after 30 pours; then the count was put right to 25."""
    batch = a_working_batch(garden)
    cast.an_airing(batch, done_pours=25, done_min=12.0)
    cast.a_liquor_look(batch, hours_ago=0.1, foam=1, after_pours=30, after_min=14.0)
    record = bridge.air_record(whole(batch), indigo_g=None)
    assert [one.after_pours for one in record.readings] == [25]


def test_looks_of_another_way_do_not_count_for_this_one(garden: Garden) -> None:
    batch = a_working_batch(garden)
    cast.an_airing(batch, started_at=cast.moment(0.5), way="whisk", done_pours=None, done_min=10.0)
    cast.a_liquor_look(batch, hours_ago=0.4, foam=1, after_min=9.0)
    cast.an_airing(batch, started_at=cast.moment(0.3), done_pours=12, done_min=6.0)
    cast.a_liquor_look(batch, hours_ago=0.1, foam=2, after_pours=12, after_min=6.0)
    record = bridge.air_record(whole(batch), indigo_g=None)
    assert [one.signs.foam for one in record.readings] == [2]


def test_the_same_record_is_answered_once(garden: Garden) -> None:
    batch = a_working_batch(garden)
    cast.an_airing(batch)
    one, other = (bridge.air_record(whole(batch), indigo_g=None) for _ in range(2))
    assert answers.aired(one) is answers.aired(other)


def test_counts_only_grow_unless_told(garden: Garden) -> None:
    airing = cast.an_airing(a_working_batch(garden))
    for pours, minutes, lower, stands in (
        (25, None, False, (25, 10.0)),
        (24, 12.0, False, (25, 12.0)),
        (24, 12.0, True, (24, 12.0)),
        (24, 12.0, True, (24, 12.0)),
    ):
        row = airings.count(airing, pours=pours, minutes=minutes, lower=lower, by=None)
        assert (row.done_pours, row.done_min) == stands
    assert Change.objects.filter(row_id=airing.pk).count() == 3


def test_a_count_of_an_old_row_in_hand_does_not_undo_what_came_between(garden: Garden) -> None:
    airing = cast.an_airing(a_working_batch(garden))
    stale = Airing.objects.get(pk=airing.pk)
    airings.count(airing, pours=40, minutes=None, lower=False, by=None)
    airings.count(stale, pours=22, minutes=None, lower=False, by=None)
    assert Airing.objects.get(pk=airing.pk).done_pours == 40


def test_alkaline_liquor_waits_for_air(garden: Garden) -> None:
    batch = a_working_batch(garden)
    found = next_matter(whole(batch), cast.moment())
    assert found is not None
    due, what, why = found
    assert due == cast.moment(1.0)
    assert what == "Batch 9: air it"
    assert "some is lost" in why


def test_an_airing_begun_wants_its_end_and_then_nothing(garden: Garden) -> None:
    batch = a_working_batch(garden)
    airing = cast.an_airing(batch)
    found = next_matter(whole(batch), cast.moment())
    assert found is not None
    assert found[0] == cast.moment()
    assert "20 pours so far" in found[2]
    Airing.objects.filter(pk=airing.pk).update(ended_at=cast.moment())
    assert next_matter(whole(batch), cast.moment()) is None


def test_liquor_without_alkali_and_what_stands_already_wait_for_no_air(garden: Garden) -> None:
    assert next_matter(whole(a_working_batch(garden, alkali=False)), cast.moment()) is None
    batch = a_working_batch(garden)
    cast.a_standing(batch)
    assert next_matter(whole(batch), cast.moment() + timedelta(hours=1)) is None


def test_a_wash_stands_in_fresh_water_on_what_stayed(garden: Garden) -> None:
    """1.2 L stayed and 8 L were put on: 9.2 L stand."""
    batch, _first = a_decanted_batch(garden)
    cast.a_standing(batch, hours_ago=1.0, refill_l=8.0)
    record = bridge.settle_record(whole(batch).standings.all()[1], now=cast.moment())
    assert record.liquor_l == pytest.approx(9.2)


def test_a_wash_on_an_unknown_rest_is_of_unknown_volume(garden: Garden) -> None:
    batch, _first = a_decanted_batch(garden, left_l=None)
    cast.a_standing(batch, hours_ago=1.0, refill_l=8.0)
    assert bridge.settle_record(whole(batch).standings.all()[1], now=cast.moment()).liquor_l is None


def test_a_clock_that_is_slow_does_not_stand_in_the_way(garden: Garden) -> None:
    """The height was noted for four minutes from now by another clock."""
    batch, _standing = a_settling_batch(garden, edges=False)
    cast.a_standing(batch, hours_ago=5.0, edges=[(-1 / 15, 250.0)])
    record = bridge.settle_record(whole(batch).standings.all()[1], now=cast.moment())
    assert record.now_h == record.readings[-1].after_h == pytest.approx(5 + 1 / 15)


def test_lime_that_cannot_dissolve_is_to_be_freed_with_its_chalk(garden: Garden) -> None:
    """8 L at 20 C dissolve 8 x 1.65 g (Seidell 1940): of 30 g in two parts 16.8 g stay."""
    batch = a_working_batch(garden, alkali=False, warm=False)
    cast.a_liquor_look(batch, temp_c=20.0)
    lime = cast.an_alkali(garden, kind="slaked_lime", mol_per_l=None)
    for grams in (20.0, 10.0):
        cast.an_alkali_part(batch, lime, added_ml=None, added_g=grams, added_typed=f"{grams:g} g", ph=10.4)
    record = bridge.acid_record(whole(batch), acid=Acid())
    assert record.lime_g == pytest.approx(30.0 - 8 * 1.65)
    assert record.calcite_low_g is not None
    assert record.calcite_low_g <= record.calcite_g
    typed = bridge.acid_record(whole(batch), acid=Acid(), calcite_g=Band(p5=6.0, p50=9.0, p95=13.5), lime_g=0.0)
    assert (typed.calcite_g, typed.lime_g) == (9.0, 0.0)


def test_without_lime_no_acid_is_needed(garden: Garden) -> None:
    with pytest.raises(InputError, match="neither calcite nor lime"):
        bridge.acid_record(whole(a_working_batch(garden)), acid=Acid())


def test_aired_liquor_wants_to_stand(garden: Garden) -> None:
    batch = a_working_batch(garden)
    airing = cast.an_airing(batch)
    assert next_of_settling(whole(batch), cast.moment()) is None
    Airing.objects.filter(pk=airing.pk).update(ended_at=cast.moment(0.1))
    found = next_of_settling(whole(batch), cast.moment())
    assert found is not None
    assert found[:2] == (cast.moment(0.1), "Batch 9: let it stand")


def test_what_stands_is_looked_at_when_it_may_be_ready(garden: Garden) -> None:
    batch, _standing = a_settling_batch(garden)
    found = next_of_settling(whole(batch), cast.moment())
    assert found is not None
    due, what, why = found
    answer = answers.settled(bridge.settle_record(whole(batch).standings.all()[0], now=cast.moment()))
    assert due == cast.moment(6) + timedelta(hours=answer.decant_after_h.p50)
    assert what == "Batch 9: look whether it can be decanted"
    assert "No use looking before" in why
    assert next_of_settling(whole(batch), cast.moment() + timedelta(hours=1)) == found, "it does not hang on now"


def test_what_was_seen_clear_twice_is_decanted(garden: Garden) -> None:
    """18.0 and 17.9 cm of 60 cm, three hours apart: a clear top third, and no change."""
    batch, _standing = a_settling_batch(garden, edges=False, hours_ago=30.0, depth_mm=600.0)
    cast.a_standing(batch, hours_ago=29.0, depth_mm=600.0, edges=[(9.0, 180.0), (6.0, 179.0)])
    found = next_of_settling(whole(batch), cast.moment())
    assert found is not None
    assert found[:2] == (cast.moment(6.0), "Batch 9: decant it")


def test_without_a_depth_it_is_looked_at_now(garden: Garden) -> None:
    batch, _standing = a_settling_batch(garden, depth_mm=None)
    found = next_of_settling(whole(batch), cast.moment())
    assert found is not None
    assert found[0] == cast.moment()
    assert "depth of the liquor is missing" in found[2]


def test_what_is_decanted_is_washed_and_then_dried(garden: Garden) -> None:
    garden.tap_ph = 7.4
    garden.save()
    batch, _first = a_decanted_batch(garden, conductivity_us_per_cm=None)
    for so_far, what in (
        ({}, "Batch 9: wash it, or put it to dry"),
        ({"hours_ago": 1.8, "decanted_at": cast.moment(1.0), "ph": 8.6}, "Batch 9: wash it again"),
        ({"hours_ago": 0.9, "decanted_at": cast.moment(0.5), "ph": 7.5}, "Batch 9: washed enough, put it to dry"),
    ):
        if so_far:
            cast.a_standing(batch, refill_l=8.0, left_l=1.2, **so_far)
        found = next_of_settling(whole(batch), cast.moment())
        assert found is not None
        assert found[1] == what


def test_a_dish_is_weighed_again_and_put_in_a_jar_once_dry(garden: Garden) -> None:
    batch, drying = a_drying_batch(garden)
    assert next_of_settling(whole(batch), cast.moment()) is None
    found = next_of_drying(whole(batch), cast.moment())
    assert found is not None
    assert found[1] == "Batch 9: weigh it again"
    assert cast.moment(30 - 6) <= found[0] <= cast.moment(30 - 24)
    drying.ended_at = cast.moment(1)
    drying.save()
    assert next_of_drying(whole(batch), cast.moment()) == (
        cast.moment(1), "Batch 9: put it in a jar", "It was taken for dry."
    )  # fmt: skip


def test_of_two_dishes_the_one_that_is_due_first_is_told(garden: Garden) -> None:
    batch, _drying = a_drying_batch(garden, (90.0, 240.0), (1.0, 150.0))
    cast.a_drying(batch, (80.0, 240.0), (60.0, 150.0))
    found = next_of_drying(whole(batch), cast.moment())
    assert found is not None
    assert found[0] <= cast.moment(60 - 24)


def test_a_dish_that_lost_hardly_anything_in_a_day_is_dry(garden: Garden) -> None:
    """30.0 and 29.9 g of paste 25 hours apart: less than a hundredth."""
    batch, _drying = a_drying_batch(garden, (90.0, 240.0), (66.0, 160.0), (50.0, 135.0), (30.0, 130.0), (5.0, 129.9))
    found = next_of_drying(whole(batch), cast.moment())
    assert found is not None
    assert found[1] == "Batch 9: it is dry, put it in a jar"


def test_a_dish_without_a_weighing_is_weighed_now(garden: Garden) -> None:
    batch, drying = a_drying_batch(garden)
    drying.weighings.update(deleted_at=cast.moment())
    found = next_of_drying(whole(batch), cast.moment())
    assert found is not None
    assert found[:2] == (cast.moment(), "Batch 9: weigh the dish")


def test_near_the_end_a_day_passes_before_the_next_weighing(garden: Garden) -> None:
    """The rule asks what a day takes."""
    batch, _drying = a_drying_batch(garden, (90.0, 240.0), (66.0, 160.0), (50.0, 132.0), (40.0, 130.0), (30.0, 129.8))
    dish = whole(batch).dryings.all()[0]
    answer = answers.dried(bridge.dry_record(dish))
    assert answer.left_h.p50 <= 6
    assert weigh_again_at(dish, answer) == cast.moment(30 - 24)


def test_what_comes_next_is_cheap_enough_for_today(garden: Garden) -> None:
    """Once answered, a matter costs no forecast: the same record is answered once."""
    made = [a_settling_batch(garden)[0], a_decanted_batch(garden)[0], a_drying_batch(garden)[0]]
    found = [whole(one) for one in made]
    for one in found:
        next_of_settling(one, cast.moment())
        next_of_drying(one, cast.moment())
    before = [f.cache_info().misses for f in (answers.settled, answers.washed, answers.dried)]
    for one in found:
        next_of_settling(one, cast.moment() + timedelta(minutes=5))
        next_of_drying(one, cast.moment() + timedelta(minutes=5))
    assert [f.cache_info().misses for f in (answers.settled, answers.washed, answers.dried)] == before
