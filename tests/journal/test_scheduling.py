"""A garden's rows become the record of its season, and the answer comes back from its row."""

import pytest
from django.utils import timezone

from bluewright.journal.actions.keeping import keep
from bluewright.journal.actions.steeps import add_reading
from bluewright.journal.bridge import planning, scheduling
from bluewright.journal.models import Bed, Garden, Reading, Schedule, Steep
from bluewright.journal.queries import schedules as queries
from bluewright.science.base.errors import InputError
from bluewright.web.pages.tubs.call import strain_call
from tests import cast

pytestmark = pytest.mark.django_db


def test_beds_tubs_and_wants_are_in_the_record(garden: Garden, steeping: Steep) -> None:
    """Pigment of 30 g at half purity is 15 g pure (by hand)."""
    cast.a_season(garden)
    cast.a_want(garden, what="pigment", name="a jar", mass_g=30.0, purity_frac=0.5)
    cast.days_away(garden)
    found = scheduling.season_of(garden, today=cast.a_day())
    assert {bed.id for bed in found.record.beds} == set(found.beds)
    assert [want.blue_g for want in found.record.wants] == [15.0]
    assert found.record.running[0].volume_l == 60.0
    assert found.record.running[0].leaf_kg == pytest.approx(sum(one.leaf_kg for one in steeping.leaf.all()))
    assert len(found.record.away) == 1


def test_cloth_is_reckoned_as_the_blue_that_its_dyeing_takes(garden: Garden) -> None:
    cast.a_season(garden)
    cast.a_want(garden)
    found = scheduling.season_of(garden, today=cast.a_day())
    assert 10 < found.record.wants[0].blue_g < 80, "a kilogram of wool, medium: 20 g on the cloth, more put in"


def test_what_the_jars_hold_need_not_be_made(garden: Garden) -> None:
    cast.a_season(garden)
    cast.a_want(garden, what="pigment", name="a jar", mass_g=30.0, purity_frac=0.5)
    cast.a_jar_from_the_bed(garden, pigment_g=20.0)
    (want,) = scheduling.season_of(garden, today=cast.a_day()).record.wants
    assert 0 < want.blue_g < 15.0
    cast.a_jar_from_the_bed(garden, pigment_g=2000.0)
    assert scheduling.season_of(garden, today=cast.a_day()).record.wants == ()


def test_two_beds_of_one_name_are_told_apart_and_one_without_area_is_left_out(garden: Garden) -> None:
    name = garden.beds.first().name  # type: ignore[union-attr]
    cast.a_bed(garden, name=name, area_m2=4.0, area_typed="4 m2")
    cast.a_bed(garden, name="Nook", area_m2=None, area_typed="")
    cast.a_season(garden)
    found = scheduling.season_of(garden, today=cast.a_day())
    assert len(found.beds) == Bed.objects.filter(garden=garden).count() - 1
    assert found.left_out == ("Nook",)


def test_a_bed_that_is_still_to_be_sown_is_planned_from_its_day_and_one_that_stands_is_not(garden: Garden) -> None:
    stands = garden.beds.order_by("made_at")[0]
    cast.a_season(garden)
    nook = cast.a_bed(garden, name="Nook", area_m2=4.0, area_typed="4 m2")
    for bed in (stands, nook):
        cast.a_bed_look(bed, days_ago=-30, began="planted")
    beds = {bed.id: bed for bed in scheduling.season_of(garden, today=cast.a_day()).record.beds}
    assert (beds["Nook"].start, beds["Nook"].began) == ("planted", cast.a_day(-30))
    assert (beds[stands.name].start, beds[stands.name].began) == ("sown", cast.a_day(70))


@pytest.mark.parametrize("missing", ["limits", "garden", "beds"])
def test_what_is_missing_is_said(garden: Garden, missing: str) -> None:
    if missing != "limits":
        cast.some_limits(garden)
    if missing == "beds":
        garden.latitude_deg = 50.0
        garden.beds.update(area_m2=None)
    with pytest.raises(InputError) as refused:
        scheduling.season_of(garden, today=cast.a_day())
    assert refused.value.where == missing


def test_the_plan_before_goes_along_so_that_the_week_stays(garden: Garden) -> None:
    cast.a_season(garden)
    row = scheduling.reckon(garden, by=None, quick=True)
    again = scheduling.season_of(garden, today=cast.a_day()).record
    assert [(cut.bed, cut.on.isoformat()) for cut in again.former] == [(c["bed"], c["on"]) for c in row.answer["cuts"]]


def test_an_answer_comes_back_from_its_row_as_it_was(garden: Garden) -> None:
    cast.a_season(garden)
    row = scheduling.reckon(garden, by=None, quick=True)
    found = scheduling.answer_of(Schedule.objects.get(pk=row.pk))
    assert found is not None
    assert [cut.on.isoformat() for cut in found.cuts] == [cut["on"] for cut in row.answer["cuts"]]
    row.answer = {"version": 99}
    assert scheduling.answer_of(row) is None


def test_schedules_of_long_ago_are_let_go(garden: Garden) -> None:
    for days_ago in range(scheduling.KEPT_SCHEDULES + 2):
        keep(Schedule(garden=garden, reckoned_at=cast.moment(24.0 * days_ago)), by=None)
    scheduling.reckon(garden, by=None, quick=True)
    assert Schedule.everything.filter(garden=garden).count() == scheduling.KEPT_SCHEDULES


def test_a_bed_that_gave_all_its_usual_cuts_may_give_one_more(garden: Garden) -> None:
    """Four are usual (`MOST_CUTS`): after one three are left, after six one more is looked for."""
    assert [planning.cuts_left(done) for done in (0, 1, 4, 6)] == [4, 3, 1, 1]
    cast.a_season(garden)
    bed = garden.beds.filter(deleted_at=None)[0]
    for days_ago in (66, 55, 44, 33, 22):
        cast.a_picking(garden, beds_of=[bed], picked_at=cast.moment(24.0 * days_ago))
    found = scheduling.season_of(garden, today=cast.a_day())
    (row,) = [one for one in found.record.beds if found.beds[one.id] == str(bed.pk)]
    assert len(row.cuts) >= 5
    assert row.most_cuts == len(row.cuts) + 1


def test_a_look_at_a_tub_makes_the_schedule_stale_and_its_straining_goes_by_the_call(
    garden: Garden, steeping: Steep
) -> None:
    """The record says when the tub is at its best: the hours of the strain call of its page, in days."""
    cast.a_season(garden)
    Reading.objects.filter(steep=steeping).delete()
    today = cast.a_day()
    before = queries.rests_on(garden, today=today)
    assert scheduling.season_of(garden, today=today).record.running[0].best is None, "nobody looked"
    add_reading(Reading(steep=steeping, taken_at=timezone.now(), bubbles=2, blue_cast=2), by=None)
    after = queries.rests_on(garden, today=today)
    assert [kind for kind in after if after[kind] != before[kind]] == ["looks"]
    (running,) = scheduling.season_of(garden, today=today).record.running
    call, _trouble = strain_call(Steep.objects.get(pk=steeping.pk))
    assert call is not None
    assert running.best is not None
    assert running.id == steeping.name
    assert 24 * running.best.p50_d == pytest.approx(call.best_h.p50, abs=0.2)
