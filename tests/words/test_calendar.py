"""The calendar file of a plan, read back by a reader of RFC 5545."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from typing import Any

import numpy as np
import pytest
from icalendar import Calendar

from bluewright.cli.main import main
from bluewright.cli.record_command import example_text
from bluewright.science.base.records import read
from bluewright.science.season.answer import SeasonAnswer
from bluewright.science.season.call import season_plan
from bluewright.science.season.record import SeasonRecord
from bluewright.words.calendar import calendar

AT = datetime(2026, 6, 22, 9, 30, tzinfo=UTC)
RECORD: dict[str, Any] = json.loads(example_text("plan-season")) | {"good_frac": 0.1}


@pytest.fixture(scope="module")
def plan() -> SeasonAnswer:
    return season_plan(read(SeasonRecord, RECORD), rng=np.random.default_rng(1))


def events(made: bytes) -> dict[str, Any]:
    return {str(event["summary"]): event for event in Calendar.from_ical(made).walk("VEVENT")}


def test_every_cut_is_a_whole_day(plan: SeasonAnswer) -> None:
    """RFC 5545, 3.6.1: of a day as a date, the end is the day after."""
    found = [e for e in Calendar.from_ical(calendar(plan, made_at=AT)).walk("VEVENT") if "Cut" in e["summary"]]
    assert [e["dtstart"].dt for e in found] == [cut.on for cut in plan.cuts]
    assert all(e["dtend"].dt == e["dtstart"].dt + timedelta(days=1) for e in found)


def test_lines_are_folded_and_end_as_the_standard_says(plan: SeasonAnswer) -> None:
    """RFC 5545, 3.1: lines end in CR LF and are no longer than 75 octets."""
    made = calendar(plan, made_at=AT, name="Blau, Waid; und Bäume " * 8)
    assert all(line.endswith(b"\r") for line in made.split(b"\n")[:-1])
    assert max(len(line.rstrip(b"\r")) for line in made.split(b"\n")) <= 75
    assert str(Calendar.from_ical(made)["x-wr-calname"]) == "Blau, Waid; und Bäume " * 8


def test_names_in_the_file_differ_and_stay_when_the_plan_is_made_again(plan: SeasonAnswer) -> None:
    one, later = calendar(plan, made_at=AT), calendar(plan, made_at=AT + timedelta(days=2))
    names = [str(event["uid"]) for event in Calendar.from_ical(one).walk("VEVENT")]
    assert len(set(names)) == len(names)
    assert names == [str(event["uid"]) for event in Calendar.from_ical(later).walk("VEVENT")]
    assert all(
        a["sequence"] < b["sequence"]
        for a, b in zip(Calendar.from_ical(one).walk("VEVENT"), Calendar.from_ical(later).walk("VEVENT"), strict=True)
    )


def test_a_cut_that_moved_keeps_its_name(plan: SeasonAnswer) -> None:
    first = plan.cuts[0].on
    away = {"first": first.isoformat(), "last": first.isoformat()}
    moved = season_plan(read(SeasonRecord, RECORD | {"away": [*RECORD["away"], away]}), rng=np.random.default_rng(1))
    title = f"Cut {plan.cuts[0].bed}"
    before, after = (
        next(e for e in Calendar.from_ical(calendar(one, made_at=AT)).walk("VEVENT") if e["summary"] == title)
        for one in (plan, moved)
    )
    assert before["uid"] == after["uid"]
    assert before["dtstart"].dt != after["dtstart"].dt


def test_the_command_writes_it(tmp_path: Any, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "record.json"
    path.write_text(json.dumps(RECORD), encoding="utf-8")
    assert main(["plan", "season", str(path), "--ics", str(tmp_path / "plan.ics")]) == 0
    assert capsys.readouterr().out.split(" ")[1] == "cuts"
    assert len(events((tmp_path / "plan.ics").read_bytes())) >= 6
