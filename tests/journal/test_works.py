"""Airing in the journal: what counts for the record, counting that is the same sent twice, what wants doing next."""

from datetime import timedelta

import pytest

from bluewright.journal.actions import airings
from bluewright.journal.bridge import answers
from bluewright.journal.bridge import batches as bridge
from bluewright.journal.models import Airing, Batch, Change, Garden
from bluewright.journal.queries import batches
from bluewright.web.pages.airing.next import next_matter
from tests import cast
from tests.web.working import a_working_batch

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
