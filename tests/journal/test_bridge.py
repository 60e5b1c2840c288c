"""Rows become a record: what was typed as values, masses summed, times held weighed, only what is known by now."""

from datetime import UTC, datetime, timedelta

import pytest

from bluewright.journal.bridge.steeps import leaf_state, steep_record
from bluewright.journal.models import Garden, Steep
from bluewright.journal.queries import tubs
from bluewright.science.base.errors import InputError
from bluewright.science.media.air_temp import northern_day
from bluewright.science.steep.record import SteepRecord
from tests.cast import a_garden, a_look, a_picking, a_tub, an_air, moment

pytestmark = pytest.mark.django_db


def record_of(tub: Steep, *, now: datetime | None = None) -> SteepRecord:
    whole = tubs.tub(tub.pk, of=tub.garden)
    assert whole is not None
    return steep_record(whole, air=tubs.air(tub.garden, around=whole), now=now or moment())


def test_a_tub_of_rows_is_a_tub_of_the_record(garden: Garden) -> None:
    tub = a_tub(
        garden, name="Barrel", plant="woad", method="warm", water_l=55.5, cut="torn", covered=False, insulated=True,
        sun="full", can_strain="08:00 18:30", seed=77,
    )  # fmt: skip
    found = record_of(tub)
    assert (found.id, found.plant, found.method, found.seed) == ("Barrel", "woad", "warm", 77)
    assert found.started == tub.started_at
    assert found.now == moment()
    assert (found.leaf_kg, found.water_l) == (3.0, 55.5)
    assert (found.leaf.cut, found.leaf.age) == ("torn", "young")
    assert (found.tub.covered, found.tub.insulated, found.tub.sun) == (False, True, "full")
    assert found.can_strain == ("08:00", "18:30")


def test_times_are_told_by_the_garden_s_clock(db: None) -> None:
    """India keeps 5 h 30 min ahead of UTC all year."""
    found = record_of(a_tub(a_garden(time_zone="Asia/Kolkata")))
    assert found.now.utcoffset() == timedelta(hours=5, minutes=30)
    assert found.started.utcoffset() == timedelta(hours=5, minutes=30)


def test_no_times_to_strain_means_any_hour(garden: Garden) -> None:
    assert record_of(a_tub(garden, can_strain="")).can_strain is None


def test_two_pickings_in_one_tub_are_summed_and_weighed(garden: Garden) -> None:
    """Own hand: 1 kg held 2 h with a tenth damaged, 3 kg held 6 h sound: (1*2 + 3*6)/4 = 5 h, 0.1/4 = 0.025."""
    young = a_picking(garden, picked_at=moment(22), leaf_kg=1.0, damaged_frac=0.1)
    also_young = a_picking(garden, picked_at=moment(26), leaf_kg=3.0)
    found = record_of(a_tub(garden, leaf=[(young, 1.0), (also_young, 3.0)]))
    assert found.leaf_kg == 4.0
    assert found.leaf.held_h == pytest.approx(5.0)
    assert found.leaf.damaged_frac == pytest.approx(0.025)
    assert found.leaf.age == "young"


def test_pickings_of_different_age_are_mixed(garden: Garden) -> None:
    parts = [(a_picking(garden, age="young"), 1.0), (a_picking(garden, age="old"), 1.0)]
    assert leaf_state(a_tub(garden, leaf=parts)).age == "mixed"


def test_one_picking_in_two_tubs_counts_in_each_by_its_share(garden: Garden) -> None:
    picking = a_picking(garden, leaf_kg=5.0)
    first, second = a_tub(garden, leaf=[(picking, 2.0)]), a_tub(garden, leaf=[(picking, 3.0)])
    assert record_of(first).leaf_kg == 2.0
    assert record_of(second).leaf_kg == 3.0
    assert record_of(first).leaf == record_of(second).leaf


def test_leaf_picked_after_the_start_was_not_held(garden: Garden) -> None:
    assert leaf_state(a_tub(garden, leaf=[(a_picking(garden, picked_at=moment(19)), 1.0)])).held_h == 0


def test_a_look_is_told_with_its_signs_and_numbers(garden: Garden) -> None:
    """Own hand: 64 F is (64 - 32) * 5/9 = 17.8 C; the record has the value, the row keeps the typing."""
    tub = a_tub(garden)
    a_look(tub, hours_ago=3, scum=2, smell=0, ph=6.4, temp_c=(64 - 32) * 5 / 9, temp_typed="64 F")
    (look,) = record_of(tub).readings
    assert (look.signs.scum, look.signs.smell, look.signs.bubbles) == (2, 0, None)
    assert (look.ph, look.dissolved_oxygen_mg_l) == (6.4, None)
    assert look.temp_c == pytest.approx(17.78, abs=0.005)


def test_looks_are_in_order_and_those_after_now_are_left_out(garden: Garden) -> None:
    tub = a_tub(garden)
    for hours_ago in (2, 9, 5):
        a_look(tub, hours_ago=hours_ago)
    assert [r.time for r in record_of(tub).readings] == [moment(9), moment(5), moment(2)]
    assert [r.time for r in record_of(tub, now=moment(4)).readings] == [moment(9), moment(5)]


def test_of_the_past_only_what_was_read_counts_of_the_future_only_the_forecast(garden: Garden) -> None:
    tub = a_tub(garden)
    garden.air_temps.update(deleted_at=moment())
    an_air(garden, hours_ago=6, temp_c=11.0)
    an_air(garden, hours_ago=5, temp_c=12.0, forecast=True)
    an_air(garden, hours_ago=-5, temp_c=13.0, forecast=True)
    an_air(garden, hours_ago=-6, temp_c=14.0)
    assert [(t.temp_c, t.forecast, t.where) for t in record_of(tub).temps] == [
        (11.0, False, "air"), (13.0, True, "air"),
    ]  # fmt: skip


def test_south_of_the_equator_the_record_says_so_and_january_is_summer(db: None) -> None:
    south = a_garden(hemisphere="south", time_zone="Australia/Melbourne")
    started = datetime(2026, 1, 10, 9, tzinfo=UTC)
    tub = a_tub(south, started_at=started, leaf=[(a_picking(south, picked_at=started), 2.0)])
    found = record_of(tub, now=started + timedelta(hours=20))
    assert found.hemisphere == "south"
    assert 180 < northern_day(found.started, hemisphere=found.hemisphere) < 210


def test_a_tub_without_leaf_is_refused_in_words(garden: Garden) -> None:
    with pytest.raises(InputError, match="leaf_kg"):
        record_of(a_tub(garden, leaf=[]))


def test_a_tub_that_begins_later_is_refused_in_words(garden: Garden) -> None:
    with pytest.raises(InputError, match="before the steep started"):
        record_of(a_tub(garden, started_at=moment(-2)))
