"""All readings of a file: those that can be, and each line that cannot with its number and why."""

from zoneinfo import ZoneInfo

import pytest

from bluewright.journal.loggers.columns import Columns
from bluewright.journal.loggers.reading import MOST_TOLD, Readings, read_all

COLUMNS = Columns(
    delimiter="comma", decimal="point", first_line=2, time_column=0, temp_column=1, unit="c", order="ymd", zone="utc"
)


def read(*body: str, columns: Columns = COLUMNS) -> Readings:
    return read_all(["head", *body], columns, zone=ZoneInfo("UTC"), low_c=-30.0, high_c=60.0)


def test_readings_are_seconds_and_degrees_in_the_order_of_the_file() -> None:
    """1 July 2026 18:00 UTC is 1782928800 s after 1970: 20635 days of 86400 s and 64800 s."""
    found = read("2026-07-01 18:00,14.5", "", "2026-07-01 17:00,-2")
    assert list(found.seconds) == [20635 * 86400 + 64800, 20635 * 86400 + 61200]
    assert list(found.temps_c) == [14.5, -2.0]
    assert found.unread == 0


def test_fahrenheit_becomes_celsius() -> None:
    """(58.1 - 32) / 1.8 = 14.5."""
    from dataclasses import replace

    assert list(read("2026-07-01 18:00,58.1 F", columns=replace(COLUMNS, unit="f")).temps_c) == [14.5]


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("2026-07-01 18:00", "too few columns"),
        ("yesterday,14", "'yesterday' is no time"),
        (",14", "no time"),
        ("2026-07-01 18:00,", "no temperature"),
        ("2026-07-01 18:00,---", "'---' is no temperature"),
        ("2026-07-01 18:00,nan", "'nan' is no temperature"),
        ("2026-07-01 18:00,1e3", "'1e3' is no temperature"),
        ('2026-07-01 18:00,"14,5"', "'14,5' is no temperature"),
        ("2026-07-01 18:00,14 F", "in F"),
        ("2026-07-01 18:00,85", "85 C cannot be"),
    ],
)
def test_a_line_that_cannot_be_read_is_told_with_its_number(line: str, says: str) -> None:
    found = read("2026-07-01 17:00,14", line)
    assert len(found.seconds) == found.unread == 1
    ((number, why),) = found.told
    assert number == 3
    assert says in why


def test_only_the_first_of_many_are_told_one_by_one() -> None:
    found = read(*["rubbish"] * 50)
    assert (found.unread, len(found.told)) == (50, MOST_TOLD)
