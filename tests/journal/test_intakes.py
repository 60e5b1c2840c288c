"""A file's readings come in whole or not at all, belong to their intake, and reach the strain call as hourly means."""

import json
from array import array
from datetime import timedelta
from typing import Any

import pytest

from bluewright.journal import transfer
from bluewright.journal.actions import intakes as actions
from bluewright.journal.bridge import calls
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.loggers.columns import Columns
from bluewright.journal.loggers.reading import Readings
from bluewright.journal.models import AirTemp, Garden, Intake, StationDay, Steep, TubTemp
from bluewright.journal.queries import intakes, tubs
from bluewright.science.base.errors import InputError
from bluewright.science.steep.record import SteepRecord
from tests.cast import a_bed, a_picking, a_straining, a_tub, an_air, counted, moment
from tests.journal.test_transfer import brought, gone, out

pytestmark = pytest.mark.django_db


def readings(*pairs: tuple[float, float]) -> Readings:
    """Of hours ago and degrees."""
    found = Readings()
    found.seconds = array("q", [int(moment(hours).timestamp()) for hours, _ in pairs])
    found.temps_c = array("d", [temp_c for _, temp_c in pairs])
    return found


def an_intake(tub: Steep | None, found: Readings, *, garden: Garden | None = None, **other: Any) -> Intake:
    plain = {"garden": garden or (tub.garden if tub else None), "steep": tub, "file_name": "a.csv", "signature": "s"}
    return actions.bring_in(Intake(**plain | {"columns": {"unit": "c"}} | other), found, by=None)


def record_of(tub: Steep) -> SteepRecord:
    whole = tubs.tub(tub.pk, of=tub.garden)
    assert whole is not None
    return steep_record(whole, air=tubs.air(tub.garden, around=whole), logged=tubs.logged(whole), now=moment())


def of_the_tub(record: SteepRecord) -> list[float]:
    return [temp.temp_c for temp in record.temps if temp.where == "tub"]


def test_only_the_time_of_the_steep_counts(garden: Garden) -> None:
    tub = a_tub(garden)
    a_straining(tub, strained_at=moment(2))
    intake = an_intake(tub, readings((30, 10.0), (20, 11.0), (2, 12.0), (1, 13.0), (-5, 14.0)))
    assert [row.temp_c for row in TubTemp.objects.order_by("time")] == [11.0, 12.0]
    assert [intake.report[name] for name in ("written", "outside", "coming")] == [2, 2, 1]


def test_the_same_time_is_written_once_and_counted(garden: Garden) -> None:
    tub = a_tub(garden)
    first = an_intake(tub, readings((5, 14.0), (5, 99.0), (4, 15.0)))
    assert (first.report["written"], first.report["repeated"]) == (2, 1)
    second = an_intake(tub, readings((5, 14.0), (4, 15.0), (3, 16.0)))
    assert (second.report["written"], second.report["known"]) == (1, 2)
    assert sorted(row.temp_c for row in TubTemp.objects.all()) == [14.0, 15.0, 16.0]


def test_pauses_are_told(garden: Garden) -> None:
    """Own hand: steps of 1, 1, 1, 5 and 1 h; the usual one is 1 h, and 5 h are more than three of it."""
    report = an_intake(a_tub(garden), readings(*((h, 14.0) for h in (12, 11, 10, 9, 4, 3)))).report
    assert (report["step_s"], report["gaps"]) == (3600.0, 1)
    assert report["first_gaps"] == [[int(moment(9).timestamp()), int(moment(4).timestamp())]]


@pytest.mark.parametrize(
    ("pairs", "says"),
    [([(40, 1.0)], "between the start"), ([(-9, 1.0)], "still to come"), ([], "a head but no reading")],
)
def test_a_file_without_a_reading_to_keep_writes_nothing(
    garden: Garden, pairs: list[tuple[float, float]], says: str
) -> None:
    with pytest.raises(InputError, match=says):
        an_intake(a_tub(garden), readings(*pairs))
    assert not Intake.everything.exists()
    assert not TubTemp.objects.exists()


def test_what_fails_in_the_middle_leaves_nothing(garden: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*args: object, **options: object) -> None:
        raise RuntimeError("in the middle")

    monkeypatch.setattr(actions, "_insert", broken)
    with pytest.raises(RuntimeError, match="in the middle"):
        an_intake(a_tub(garden), readings((5, 14.0)))
    assert not Intake.everything.exists()


def test_hours_reach_the_record_as_means_at_their_middle(garden: Garden) -> None:
    """Own hand: readings each quarter of an hour, 10 to 13 and 14 to 17 degrees: means 11.5 and 15.5."""
    tub = a_tub(garden, started_at=moment(20).replace(minute=0))
    start = moment(10).replace(minute=0)
    found = Readings()
    found.seconds = array("q", [int((start + timedelta(minutes=15 * k)).timestamp()) for k in range(8)])
    found.temps_c = array("d", [10.0 + k for k in range(8)])
    an_intake(tub, found)
    record = record_of(tub)
    assert of_the_tub(record) == [11.5, 15.5]
    middles = [temp.time for temp in record.temps if temp.where == "tub"]
    assert middles == [start + timedelta(minutes=22.5), start + timedelta(minutes=82.5)]


def test_an_intake_goes_out_and_comes_back_with_its_temperatures(garden: Garden) -> None:
    tub = a_tub(garden)
    kept, taken = an_intake(tub, readings((5, 14.0))), an_intake(tub, readings((3, 18.0)))
    actions.delete_intake(taken, by=None)
    assert of_the_tub(record_of(tub)) == [14.0]
    assert list(intakes.intakes(garden)) == [kept]
    assert actions.restore_intake(taken, by=None)
    assert of_the_tub(record_of(tub)) == [14.0, 18.0]


def test_what_was_brought_in_anew_meanwhile_is_there_once(garden: Garden) -> None:
    tub = a_tub(garden)
    first = an_intake(tub, readings((5, 14.0), (3, 18.0)))
    actions.delete_intake(first, by=None)
    an_intake(tub, readings((5, 14.0)))
    actions.restore_intake(first, by=None)
    assert sorted(row.temp_c for row in TubTemp.objects.all()) == [14.0, 18.0]


def test_the_air_goes_out_and_comes_back_too_and_what_was_read_by_hand_stays(garden: Garden) -> None:
    garden.air_temps.all().delete()
    an_air(garden, hours_ago=5, temp_c=9.0)
    intake = an_intake(None, readings((5, 14.0), (3, 18.0)), garden=garden)
    assert intake.report["known"] == 1
    assert sorted(row.temp_c for row in AirTemp.objects.all()) == [9.0, 18.0]
    actions.delete_intake(intake, by=None)
    assert [row.temp_c for row in AirTemp.objects.all()] == [9.0]
    actions.restore_intake(intake, by=None)
    assert sorted(row.temp_c for row in AirTemp.objects.all()) == [9.0, 18.0]


def test_air_read_each_minute_is_kept_as_means_of_ten_minutes(garden: Garden) -> None:
    """Own hand: minutes 0 to 19 with 0.0 to 1.9 degrees: means 0.45 and 1.45, at minutes 5 and 15."""
    garden.air_temps.all().delete()
    start = moment(10).replace(minute=0)
    found = Readings()
    found.seconds = array("q", [int((start + timedelta(minutes=k)).timestamp()) for k in range(20)])
    found.temps_c = array("d", [k / 10 for k in range(20)])
    intake = an_intake(None, found, garden=garden)
    assert (intake.report["written"], intake.report["thinned"]) == (2, 20)
    kept = [(row.time - start, row.temp_c) for row in AirTemp.objects.order_by("time")]
    assert kept == [(timedelta(minutes=5), 0.45), (timedelta(minutes=15), 1.45)]


def test_rain_of_a_day_without_a_temperature_counts_and_its_degrees_stay_a_gap(garden: Garden) -> None:
    """Two whole days: of the second only the lowest and the rain were read."""
    found = readings((2000, 24.0), (1976, float("nan")))
    found.beside = {"low": array("d", [12.0, 11.0]), "rain": array("d", [3.2, 4.1])}
    columns = Columns(
        delimiter="comma", decimal="point", first_line=1, time_column=0, temp_column=1, low_column=2, rain_column=3,
        unit="c", order="ymd", zone="garden", daily=True,
    )  # fmt: skip
    intake = an_intake(None, found, garden=garden, columns=columns.plain())
    assert sorted(AirTemp.objects.filter(intake=intake).values_list("temp_c", flat=True)) == [11.0, 12.0, 24.0]
    assert sorted(StationDay.objects.values_list("rain_mm", flat=True)) == [3.2, 4.1]
    assert (intake.report["written"], intake.report["without"], intake.report["unread"]) == (3, 1, 0)


def test_the_strain_call_follows_a_file_and_its_undoing(steeping: Steep) -> None:
    before = calls.strain_call(steeping.pk, record_of(steeping))
    intake = an_intake(steeping, readings(*((h, 28.0) for h in range(40, 0, -1))))
    warm = calls.strain_call(steeping.pk, record_of(steeping))
    assert warm.frac_of_best_now != before.frac_of_best_now
    assert len(warm.inputs.temps) > len(before.inputs.temps)
    actions.delete_intake(intake, by=None)
    after = calls.strain_call(steeping.pk, record_of(steeping))
    assert after.frac_of_best_now == pytest.approx(before.frac_of_best_now, abs=1e-9)


def test_many_readings_are_read_in_one_statement_through_an_index(garden: Garden) -> None:
    """A hundred thousand, each half a minute: 35 days; by the hour they stay far below what a record holds."""
    old = moment(24 * 36)
    tub = a_tub(garden, started_at=old, leaf=[(a_picking(garden, picked_at=old), 3.0)])
    found = Readings()
    found.seconds = array("q", [int(old.timestamp()) + 30 * k for k in range(100_000)])
    found.temps_c = array("d", [15.0] * 100_000)
    assert an_intake(tub, found).report["written"] == 100_000
    with counted() as sent:
        hours = tubs.logged(tub)
    assert sent == [1]
    assert len(hours) == pytest.approx(100_000 * 30 / 3600, abs=2)
    assert len(of_the_tub(record_of(tub))) < 1000
    plan = TubTemp.objects.filter(steep=tub, intake__deleted_at=None).explain()
    assert "SCAN journal_tubtemp" not in plan


def test_a_file_like_it_is_read_as_before_in_this_garden_only(garden: Garden, other_garden: Garden) -> None:
    intake = an_intake(a_tub(garden), readings((5, 14.0)), columns={"unit": "f"})
    actions.delete_intake(intake, by=None)
    assert intakes.read_last("s", of=garden) == {"unit": "f"}
    assert intakes.read_last("other", of=garden) is None
    assert intakes.read_last("s", of=other_garden) is None


def test_logged_temperatures_go_along_with_their_garden(garden: Garden) -> None:
    garden.air_temps.all().delete()
    tub = a_tub(garden, leaf=[(a_picking(garden, beds_of=[a_bed(garden)]), 3.0)])
    an_intake(tub, readings((5, 14.0), (3, 18.5)))
    an_intake(None, readings((6, 9.25)), garden=garden)
    actions.delete_intake(an_intake(tub, readings((2, 1.0))), by=None)
    before, record = out(garden), record_of(tub)
    assert len(before["logged"]) == len(before["intakes"]) == 2
    gone(garden)
    again = brought(before)
    assert out(again) == before
    assert record_of(Steep.objects.get(pk=tub.pk)) == record


@pytest.mark.parametrize(
    "spoilt",
    [{"temps_c": ["warm"]}, {"temps_c": [float("inf")]}, {"temps_c": []}, {"times": ["noon"]}, {"intake_id": "none"}],
)
def test_logged_temperatures_that_do_not_fit_are_refused_and_nothing_is_written(
    garden: Garden, spoilt: dict[str, Any]
) -> None:
    an_intake(a_tub(garden), readings((5, 14.0)))
    whole = json.loads(transfer.take_out(garden))
    whole["logged"][0] |= spoilt
    gone(garden)
    with pytest.raises(InputError, match=r"logged\[0\]"):
        brought(whole)
    assert not Garden.everything.filter(pk=garden.pk).exists()
