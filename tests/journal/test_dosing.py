"""A batch's liquor seen from one alkali: what counts as added, what counts through the pH read after it."""

import numpy as np
import pytest

from bluewright.journal.bridge import batches as bridge
from bluewright.journal.bridge import doses
from bluewright.journal.bridge.dosing import dosing
from bluewright.journal.models import Alkali, Batch, Garden
from bluewright.journal.queries import alkalis
from bluewright.science.alkali import dose as science
from bluewright.science.alkali.record import Alkali as AlkaliRecord
from bluewright.science.alkali.record import LiquorRecord, Step
from bluewright.science.base.errors import InputError
from tests import cast
from tests.journal.test_batches import strained, whole

pytestmark = pytest.mark.django_db


@pytest.fixture
def batch(garden: Garden) -> Batch:
    """30 L of liquor from 3 kg of leaf, at pH 6.1 and 17 C."""
    made = cast.a_batch(strained(garden))
    cast.a_liquor_look(made, ph=6.1, temp_c=17.0)
    return made


@pytest.fixture
def soda(garden: Garden) -> Alkali:
    return cast.an_alkali(garden)


@pytest.fixture
def lye(garden: Garden) -> Alkali:
    return cast.an_alkali(garden, name="lye, 1 molar", kind="lye", mol_per_l=1.0)


def record(batch: Batch, alkali: Alkali) -> LiquorRecord:
    return bridge.liquor_record(whole(batch), alkali=alkali)


def test_a_look_between_the_parts_reads_what_is_in_by_then(batch: Batch, soda: Alkali) -> None:
    """40 mL without a pH, a look at 7.9; then 20 mL more at 8.8: 40 mL read 7.9, 60 mL read 8.8."""
    cast.an_alkali_part(batch, soda, hours_ago=0.3, added_ml=40.0, ph=None)
    cast.a_liquor_look(batch, hours_ago=0.25, ph=7.9)
    cast.an_alkali_part(batch, soda, hours_ago=0.2, added_ml=20.0, ph=8.8)
    found = record(batch, soda)
    assert (found.ph, [(step.added_ml, step.ph) for step in found.added_so_far]) == (6.1, [(40.0, 7.9), (60.0, 8.8)])


def test_the_last_of_two_readings_of_the_same_liquor_counts(batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, added_ml=40.0, ph=9.9)
    cast.a_liquor_look(batch, hours_ago=0.2, ph=8.1)
    assert [(step.added_ml, step.ph) for step in record(batch, soda).added_so_far] == [(40.0, 8.1)]


def test_of_two_things_in_one_minute_the_one_written_later_came_later(batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, hours_ago=0.3, added_ml=40.0, ph=None)
    cast.a_liquor_look(batch, hours_ago=0.3, ph=7.7)
    assert [(step.added_ml, step.ph) for step in record(batch, soda).added_so_far] == [(40.0, 7.7)]


def test_a_look_while_aired_says_nothing_of_the_dose(batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, added_ml=40.0, ph=8.8)
    cast.a_liquor_look(batch, hours_ago=0.1, ph=8.2, after_min=10.0)
    assert [(step.added_ml, step.ph) for step in record(batch, soda).added_so_far] == [(40.0, 8.8)]


def test_what_is_in_unread_is_known_to_be_in(batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, hours_ago=0.3, added_ml=40.0, ph=7.9)
    cast.an_alkali_part(batch, soda, hours_ago=0.2, added_ml=15.0, ph=None)
    found = dosing(whole(batch), alkali=soda)
    assert (found.added, found.since_reading, found.unread, found.last_ph) == (55.0, 15.0, True, 7.9)


def test_after_another_alkali_the_ph_as_it_stands_is_where_the_dose_begins(
    batch: Batch, soda: Alkali, lye: Alkali
) -> None:
    """40 mL of soda and 100 mL of lye are in 30.14 L at pH 7.4; only the 10 mL of soda after that count as added."""
    cast.an_alkali_part(batch, soda, hours_ago=0.35, added_ml=40.0, ph=6.9)
    cast.an_alkali_part(batch, lye, hours_ago=0.3, added_ml=100.0, ph=7.4)
    cast.an_alkali_part(batch, soda, hours_ago=0.2, added_ml=10.0, ph=7.9)
    found = record(batch, soda)
    assert (found.ph, [(step.added_ml, step.ph) for step in found.added_so_far]) == (7.4, [(10.0, 7.9)])
    assert found.liquor_l == pytest.approx(30.14)
    other = record(batch, lye)
    assert (other.ph, other.added_so_far, other.liquor_l) == (7.9, (), pytest.approx(30.15))
    seen = dosing(whole(batch), alkali=soda)
    assert [part.added_typed for part in seen.settled] == ["50 mL", "50 mL"]


def test_another_alkali_without_a_ph_after_it_must_be_read_first(batch: Batch, soda: Alkali, lye: Alkali) -> None:
    """From the pH before it, the dose would be reckoned as if it had not gone in: far too much."""
    cast.an_alkali_part(batch, lye, ph=None)
    with pytest.raises(InputError, match="no pH was read after it") as error:
        record(batch, soda)
    assert error.value.where == "ph"
    cast.a_liquor_look(batch, hours_ago=0.1, ph=8.4)
    assert record(batch, soda).ph == 8.4


def test_both_alkalis_before_the_first_reading_settle_together(batch: Batch, soda: Alkali, lye: Alkali) -> None:
    cast.an_alkali_part(batch, lye, hours_ago=0.3, added_ml=30.0, ph=None)
    cast.an_alkali_part(batch, soda, hours_ago=0.25, added_ml=20.0, ph=None)
    cast.a_liquor_look(batch, hours_ago=0.2, ph=8.0)
    found = record(batch, soda)
    assert (found.ph, found.added_so_far, found.liquor_l) == (8.0, (), pytest.approx(30.05))


def test_a_jar_drawn_before_another_alkali_speaks_of_another_liquor(batch: Batch, soda: Alkali, lye: Alkali) -> None:
    cast.a_jar_test(batch, soda, (2.0, 8.0))
    assert record(batch, soda).jar is not None
    assert record(batch, lye).jar is not None
    cast.an_alkali_part(batch, lye, ph=7.4)
    assert record(batch, soda).jar is None
    cast.a_jar_test(batch, soda, (1.0, 8.3), taken_at=cast.moment(0.1))
    assert [step.ph for step in getattr(record(batch, soda).jar, "steps", ())] == [8.3]


def test_a_jar_drawn_from_the_dosed_tub_counts_what_it_already_held(batch: Batch, soda: Alkali) -> None:
    """60 mL in 30 L are 2 mL in a litre, so 1 mL in the half litre of the jar: its steps of 2 and 1 are 3 and 4."""
    cast.an_alkali_part(batch, soda, hours_ago=0.3, added_ml=60.0, ph=7.5)
    cast.a_jar_test(batch, soda, (2.0, 8.0), (1.0, 8.9), taken_at=cast.moment(0.2))
    jar = record(batch, soda).jar
    assert jar is not None
    assert [(step.added_ml, step.ph) for step in jar.steps] == [(3.0, 8.0), (4.0, 8.9)]


def test_a_jar_of_one_alkali_from_a_tub_dosed_with_another_is_left_out(batch: Batch, soda: Alkali, lye: Alkali) -> None:
    cast.an_alkali_part(batch, soda, hours_ago=0.3, added_ml=60.0, ph=7.5)
    cast.a_jar_test(batch, lye, (2.0, 8.0), taken_at=cast.moment(0.2))
    assert record(batch, soda).jar is None


def test_the_latest_jar_with_a_reading_counts(batch: Batch, soda: Alkali) -> None:
    cast.a_jar_test(batch, soda, (2.0, 8.0), taken_at=cast.moment(0.3))
    cast.a_jar_test(batch, soda, (3.0, 9.1), taken_at=cast.moment(0.2))
    cast.a_jar_test(batch, soda, taken_at=cast.moment(0.1))
    assert [step.ph for step in getattr(record(batch, soda).jar, "steps", ())] == [9.1]


def test_the_room_and_the_way_of_reading_go_along(batch: Batch, soda: Alkali) -> None:
    assert record(batch, soda).room is None
    Batch.objects.filter(pk=batch.pk).update(room_m3=30.0, air_changes_per_h=2.0, ph_sd=0.3)
    found = record(batch, soda)
    assert found.room is not None
    assert (found.room.volume_m3, found.room.air_changes_per_h, found.ph_sd) == (30.0, 2.0, 0.3)


def test_the_dose_of_a_batch_is_that_of_a_record_written_by_hand(batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, added_ml=50.0, ph=7.2)
    by_hand = LiquorRecord(
        id="Batch 9", liquor_l=30.0, alkali=AlkaliRecord(kind="soda_ash", mol_per_l=0.5), temp_c=17.0, ph=6.1,
        leaf_kg=3.0, added_so_far=(Step(added_ml=50.0, ph=7.2),), seed=1,
    )  # fmt: skip
    found = doses.dose(record(batch, soda))
    assert found == science.dose(by_hand, rng=np.random.default_rng(1))
    along = doses.titration(by_hand)
    assert along[0].at == 0.0
    assert along[-1].at == pytest.approx(1.25 * (50.0 + found.dose.p95), rel=1e-3)


def test_the_curve_of_a_jar_runs_through_its_readings(batch: Batch, soda: Alkali) -> None:
    """A jar that was read at 6.9, 7.9 and 9.2 is drawn within a reading's error (0.2, twice) of them."""
    steps = ((1.0, 6.9), (1.0, 7.9), (2.0, 9.2))
    cast.a_jar_test(batch, soda, *steps)
    along = doses.jar_titration(record(batch, soda))
    places = [point.at for point in along]
    for at, ph in ((1.0, 6.9), (2.0, 7.9), (4.0, 9.2)):
        assert np.interp(at, places, [point.p50 for point in along]) == pytest.approx(ph, abs=0.4)
    assert places[-1] > 4.0


def test_what_a_batch_may_be_dosed_with_begins_with_what_it_had_last(
    batch: Batch, garden: Garden, soda: Alkali, lye: Alkali
) -> None:
    gone = cast.an_alkali(garden, name="an empty tin", used_up=True)
    assert {one.pk for one in alkalis.for_batch(whole(batch))} == {soda.pk, lye.pk}
    cast.a_jar_test(batch, lye)
    assert alkalis.for_batch(whole(batch))[0] == lye
    cast.an_alkali_part(batch, soda)
    assert [one.pk for one in alkalis.for_batch(whole(batch))] == [soda.pk, lye.pk]
    cast.an_alkali_part(batch, gone, hours_ago=0.1)
    assert alkalis.for_batch(whole(batch))[0] == gone
    other = cast.a_batch(strained(garden))
    assert gone not in alkalis.for_batch(whole(other))


def test_an_alkali_is_in_use_while_a_part_or_a_jar_of_it_stands(batch: Batch, soda: Alkali, lye: Alkali) -> None:
    assert not alkalis.in_use(soda)
    part = cast.an_alkali_part(batch, soda)
    cast.a_jar_test(batch, lye)
    assert alkalis.in_use(soda)
    assert alkalis.in_use(lye)
    part.delete()
    assert not alkalis.in_use(soda)
