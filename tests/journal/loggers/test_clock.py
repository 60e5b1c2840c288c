"""Whose clock a logger kept: by hand from the dates at which clocks change.

London 2026: 29 March 01:00 GMT becomes 02:00 BST; 25 October 02:00 BST becomes 01:00 GMT. Adelaide keeps 9 h 30 min.
"""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from bluewright.journal.loggers.cells import TimeParts, time_parts
from bluewright.journal.loggers.clock import Clock, Unclear

LONDON = ZoneInfo("Europe/London")


def told(texts: list[str], *, zone: str, garden: ZoneInfo = LONDON) -> list[str]:
    clock = Clock(zone, garden)
    found = []
    for text in texts:
        parts = time_parts(text, "ymd")
        assert parts is not None
        found.append(datetime.fromtimestamp(clock.seconds(parts), UTC).strftime("%d %H:%M"))
    return found


@pytest.mark.parametrize(
    ("zone", "text", "utc"),
    [
        ("garden", "2026-07-01 18:00", "01 17:00"),
        ("garden", "2026-12-01 18:00", "01 18:00"),
        ("standard", "2026-07-01 18:00", "01 18:00"),
        ("utc", "2026-07-01 18:00", "01 18:00"),
        ("text", "2026-07-01 18:00+05:30", "01 12:30"),
        ("text", "2026-07-01T01:00:00-0800", "01 09:00"),
        ("text", "2026-07-01 18:00Z", "01 18:00"),
    ],
)
def test_each_clock_is_read_as_it_is_told(zone: str, text: str, utc: str) -> None:
    assert told([text], zone=zone) == [utc]


def test_winter_time_of_the_south_is_the_smaller_offset_too() -> None:
    """Adelaide: 9 h 30 min in winter, 10 h 30 min in its summer in January."""
    adelaide = ZoneInfo("Australia/Adelaide")
    assert told(["2026-01-15 12:00"], zone="standard", garden=adelaide) == ["15 02:30"]
    assert told(["2026-01-15 12:00"], zone="garden", garden=adelaide) == ["15 01:30"]


def test_an_hour_that_comes_twice_is_told_apart_by_the_order_of_the_file() -> None:
    night = ["00:30", "01:00", "01:30", "01:00", "01:30", "02:00"]
    times = [f"2026-10-25 {clock}" for clock in night]
    forward = ["24 23:30", "25 00:00", "25 00:30", "25 01:00", "25 01:30", "25 02:00"]
    assert told(times, zone="garden") == forward
    assert told(times[::-1], zone="garden") == forward[::-1]
    assert told(times, zone="standard")[1] == told(times, zone="standard")[3] == "25 01:00"


def test_an_hour_that_was_left_out_cannot_be() -> None:
    with pytest.raises(Unclear, match="clocks went forward"):
        told(["2026-03-29 00:50", "2026-03-29 01:10"], zone="garden")
    assert told(["2026-03-29 01:10"], zone="standard") == ["29 01:10"]


@pytest.mark.parametrize(
    ("zone", "text", "says"),
    [
        ("text", "2026-07-01 18:00", "no offset"),
        ("garden", "2026-07-01 18:00Z", "its own offset"),
        ("garden", "2026-02-30 18:00", "no such date"),
    ],
)
def test_what_contradicts_the_clock_cannot_be_read(zone: str, text: str, says: str) -> None:
    with pytest.raises(Unclear, match=says):
        told([text], zone=zone)


@pytest.mark.parametrize(
    ("text", "order", "expected"),
    [
        ("13.07.26 06:05", "dmy", ((2026, 7, 13), 21900)),
        ("07/13/2026 12:00:30 AM", "mdy", ((2026, 7, 13), 30)),
        ("07/13/2026, 12:30 p.m.", "mdy", ((2026, 7, 13), 45000)),
        ("2026/7/3 6:05:10.250", "ymd", ((2026, 7, 3), 21910)),
        ("13 Jul 2026 06:05", "dmy", ((2026, 7, 13), 21900)),
    ],
)
def test_times_are_read_as_loggers_write_them(text: str, order: str, expected: tuple[object, int]) -> None:
    parts = time_parts(text, order)
    assert isinstance(parts, TimeParts)
    assert (parts.date, parts.second) == expected


@pytest.mark.parametrize(
    "text", ["", "18:00", "2026-07-01", "2026-13-01 18:00", "2026-07-01 25:00", "14.5", "13/07/2026 13:00 PM"]
)
def test_what_is_no_moment_is_none(text: str) -> None:
    assert all(time_parts(text, order) is None for order in ("ymd", "dmy", "mdy", "unix"))
