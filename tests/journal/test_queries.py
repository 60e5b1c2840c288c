"""Reads: a fixed number of statements however many rows there are, and nothing of another garden."""

from collections.abc import Callable

import pytest

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Steep
from bluewright.journal.queries import gardens, tubs
from tests.cast import a_bed, a_call_seen, a_garden, a_look, a_picking, a_straining, a_tub, an_air, counted, moment

pytestmark = pytest.mark.django_db


def _more(garden: Garden) -> None:
    for _ in range(3):
        bed = a_bed(garden)
        tub = a_tub(garden, leaf=[(a_picking(garden, beds_of=[bed]), 1.0), (a_picking(garden, beds_of=[bed]), 2.0)])
        for hours_ago in (9, 5, 2):
            a_look(tub, hours_ago=hours_ago)
        a_straining(tub)


def _read_tubs(garden: Garden) -> int:
    found = list(tubs.tubs(garden))
    for tub in found:
        assert tub.leaf.all()
        assert tub.garden == garden
        list(tub.readings.all()), list(tub.strains.all())
    return len(found)


def _read_beds(garden: Garden) -> int:
    return len([(bed.latest, bed.pickings_before) for bed in gardens.beds(garden)])


def _read_pickings(garden: Garden) -> int:
    found = list(gardens.pickings(garden))
    for picking in found:
        assert all(source.bed.name for source in picking.sources.all())
        assert all(part.steep.name for part in picking.went_into.all())
    return len(found)


def _read_air(garden: Garden) -> int:
    found = list(Steep.objects.filter(garden=garden))
    return len(tubs.air_by_tub(garden, found))


@pytest.mark.parametrize("read", [_read_tubs, _read_beds, _read_pickings, _read_air])
def test_more_rows_are_read_in_as_many_statements(garden: Garden, read: Callable[[Garden], int]) -> None:
    with counted() as few:
        before = read(garden)
    _more(garden)
    with counted() as many:
        assert read(garden) > before
    assert few == many


def test_nothing_of_another_garden_is_read(garden: Garden, other_garden: Garden, strangers_tub: Steep) -> None:
    assert strangers_tub not in list(tubs.tubs(garden))
    assert tubs.tub(strangers_tub.pk, of=garden) is None
    assert {b.garden_id for b in gardens.beds(garden)} == {garden.pk}
    assert {p.garden_id for p in gardens.pickings(garden)} == {garden.pk}


def test_the_list_of_beds_has_the_latest_pickings_and_counts_the_rest(garden: Garden) -> None:
    bed = a_bed(garden, name="East")
    rows = [a_picking(garden, beds_of=[bed], picked_at=moment(at)) for at in range(1, 8)]
    delete(rows[0], by=None)
    (found,) = [one for one in gardens.beds(garden) if one.name == "East"]
    assert found.latest == rows[1 : 1 + gardens.LATEST]
    assert found.pickings_before == 6 - gardens.LATEST
    assert gardens.beds(garden).get(pk=a_bed(garden).pk).pickings_before == 0


def test_a_tub_is_offered_leaf_that_waits_is_fresh_or_chosen(garden: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    place = a_garden(name="Other")
    old, older = (a_picking(place, picked_at=moment(24 * days)) for days in (40, 50))
    waiting, fresh = a_picking(place, picked_at=moment(24 * 60)), a_picking(place, picked_at=moment(48))
    for used in (old, older, fresh):
        a_tub(place, leaf=[(used, 1.0)])
    now = moment()
    assert gardens.choosable(place, now=now) == [fresh, waiting]
    assert gardens.choosable(place, now=now, also=[older.pk, fresh.pk]) == [fresh, waiting, older]
    assert a_picking(garden).pk not in [row.pk for row in gardens.choosable(place, now=now)]
    monkeypatch.setattr(gardens, "CHOICES", 1)
    assert gardens.choosable(place, now=now) == [fresh]


def test_the_oldest_garden_is_open_unless_another_was_chosen(garden: Garden, other_garden: Garden) -> None:
    assert gardens.garden(None) == garden
    assert gardens.garden(other_garden.pk) == other_garden
    delete(other_garden, by=None)
    assert gardens.garden(other_garden.pk) == garden


def test_before_the_first_garden_there_is_none(db: None) -> None:
    assert gardens.garden(None) is None
    assert gardens.gardens() == []
    assert gardens.invented() is None


def test_leaf_of_a_tub_that_was_taken_out_waits_again(garden: Garden) -> None:
    picking = a_picking(garden)
    tub = a_tub(garden, leaf=[(picking, 3.0)])
    delete(tub, by=None)
    found = next(p for p in gardens.pickings(garden) if p == picking)
    assert list(found.went_into.all()) == []


def test_a_bed_is_told_with_its_last_picking_of_late(garden: Garden, other_garden: Garden) -> None:
    one, other, old, gone = (a_bed(garden, name=name) for name in ("One", "Other", "Old", "Gone"))
    a_picking(garden, beds_of=[one], picked_at=moment(9))
    a_picking(garden, beds_of=[one, other], picked_at=moment(5))
    undone = a_picking(garden, beds_of=[one], picked_at=moment(2))
    a_picking(garden, beds_of=[old], picked_at=moment(30))
    a_picking(garden, beds_of=[gone], picked_at=moment(5))
    a_picking(other_garden, beds_of=[a_bed(other_garden)], picked_at=moment(5))
    delete(undone, by=None)
    delete(gone, by=None)
    assert gardens.last_picked(garden, since=moment(20)) == [(one, moment(5)), (other, moment(5))]


def test_air_is_read_from_two_days_before_a_steep_in_order(garden: Garden, steeping: Steep) -> None:
    old = an_air(garden, hours_ago=46 + 24 * 3)
    late = an_air(garden, hours_ago=1)
    found = tubs.air(garden, around=steeping)
    assert old not in found
    assert late in found
    assert found == sorted(found, key=lambda row: row.time)
    assert found == tubs.air_by_tub(garden, [steeping])[steeping.pk]


def test_no_tubs_need_no_air(garden: Garden) -> None:
    assert tubs.air_by_tub(garden, []) == {}


def test_the_calls_that_were_seen_of_a_tub_come_newest_first(garden: Garden, steeping: Steep) -> None:
    for hours_ago in (3, 1, 2):
        a_call_seen(steeping, hours_ago=hours_ago)
    a_call_seen(a_tub(garden), hours_ago=0)
    assert [call.seen_at for call in tubs.calls_seen(steeping)] == [moment(1), moment(2), moment(3)]
