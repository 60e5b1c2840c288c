"""How a file is written is guessed as far as its text leaves no doubt, and left open beyond."""

from itertools import pairwise

import pytest

from bluewright.journal.loggers.columns import Columns, cells, guess, heading, signature
from bluewright.science.base.errors import InputError

COMMA = ["Serial,123", "Time,Temp (°C),Battery V", "2026-07-13 18:00:00,14.50,3.1", "2026-07-13 18:10:00,14.25,3.1"]
SEMICOLON = ["Datum;Temperatur [F]", "13.07.2026 18:00;58,1", "13.07.2026 18:10;58,3"]
TAB = ["no\tdate\tclock\tdeg C", "1\t13/07/2026\t18:00\t14.5", "2\t13/07/2026\t18:10\t14.6"]


@pytest.mark.parametrize(
    ("sample", "expected"),
    [
        (COMMA, {"delimiter": "comma", "first_line": 3, "time_column": 0, "temp_column": 1, "unit": "c"}),
        (SEMICOLON, {"delimiter": "semicolon", "decimal": "comma", "first_line": 2, "temp_column": 1, "unit": "f",
                     "order": "dmy", "zone": ""}),
        (TAB, {"delimiter": "tab", "time_column": 1, "clock_column": 2, "order": "dmy", "unit": "c"}),
        (["2026-07-13T18:00:00+02:00,14.5"], {"first_line": 1, "zone": "text", "order": "ymd", "unit": ""}),
        (["2026-07-13T18:00:00Z,14.5 °C"], {"zone": "text", "unit": "c"}),
        (["1783958400,14.5"], {"order": "unix", "zone": "utc"}),
        (["07/13/2026 6:00 PM,58.1"], {"order": "mdy"}),
        (["7/1/2026 18:00,14.5", "7/2/2026 18:00,14.5"], {"order": ""}),
        (['"13-Jul-26 18:00","14,5"'], {"order": "dmy", "decimal": "comma"}),
        (["Time;C", "2026-07-13 18:00;14", "2026-07-13 18:10;14,5"], {"decimal": "comma"}),
    ],
    ids=["comma", "semicolon", "tab", "offset", "Z", "unix", "US", "ambiguous", "quoted", "late comma"],
)  # fmt: skip
def test_what_the_text_tells_is_taken_and_the_rest_left_open(sample: list[str], expected: dict[str, object]) -> None:
    found = guess(sample).plain()
    assert {name: found[name] for name in expected} == expected


@pytest.mark.parametrize(
    "sample",
    [
        ["time,temp"],
        ["Dear Rowan,", "thank you, it was lovely."],
        ['{"a": [1, 2]}'],
        ["a,b,c", "1,2,3"],
        ["<html>", "x"],
    ],
)
def test_what_has_no_time_and_number_is_refused(sample: list[str]) -> None:
    with pytest.raises(InputError, match=r"reading|time and a number"):
        guess(sample)


def test_files_of_one_logger_share_their_signature_and_others_do_not() -> None:
    later = [line.replace("123", "124").replace("07-13", "08-20") for line in COMMA]
    told = [signature(sample, guess(sample)) for sample in (COMMA, later, SEMICOLON, TAB, [COMMA[2]], [SEMICOLON[1]])]
    assert told[0] == told[1]
    assert all(first != second for first, second in pairwise(told[1:]))


def test_the_head_is_the_line_above_if_it_fits() -> None:
    assert heading(COMMA, guess(COMMA)) == ["Time", "Temp (°C)", "Battery V"]
    assert heading(["Serial", *COMMA[2:]], guess(["Serial", *COMMA[2:]])) == []


def test_a_quotation_mark_that_is_not_closed_ends_with_its_line() -> None:
    assert cells('a,"b,c', "comma") == ["a", "b,c"]
    assert cells('"a, b",c', "comma") == ["a, b", "c"]


def test_a_delimiter_that_was_told_holds() -> None:
    assert guess(["a,b;2026-07-13 18:00;14,5"], delimiter="semicolon").delimiter == "semicolon"
    assert isinstance(guess(COMMA, delimiter="comma"), Columns)


@pytest.mark.parametrize(
    ("head", "line", "temp", "rain"),
    [
        ("time,rain mm", "2026-07-01 18:00,0.2", None, 1),
        ("time,RH %,air temp C,rain mm", "2026-07-01 18:00,71,15.5,0.2", 2, 3),
        ("time,rain mm,shed", "2026-07-01 18:00,0.2,15.5", 2, 1),
        ("time,sunroom temp", "2026-07-01 18:00,15.5", 1, None),
    ],
)
def test_a_number_that_is_called_something_else_is_no_temperature(
    head: str, line: str, temp: int | None, rain: int | None
) -> None:
    found = guess([head, line])
    assert (found.temp_column, found.rain_column) == (temp, rain)
