"""A logger's file becomes lines, whatever its encoding; what is no text, or too long, is refused in words."""

from pathlib import Path

import pytest

from bluewright.journal.loggers import lines
from bluewright.science.base.errors import InputError

TEXT = "Zeit;Temp °C\r\n01.07.2026 18:00;14,5\r\n"
LINES = ["Zeit;Temp °C", "01.07.2026 18:00;14,5"]


def file(tmp_path: Path, content: bytes) -> Path:
    path = tmp_path / "file"
    path.write_bytes(content)
    return path


@pytest.mark.parametrize(
    ("content", "encoding"),
    [
        (TEXT.encode(), "utf-8"),
        (TEXT.encode("utf-8-sig"), "utf-8-sig"),
        (TEXT.encode("utf-16"), "utf-16"),
        (b"\xfe\xff" + TEXT.encode("utf-16-be"), "utf-16"),
        (TEXT.encode("utf-16-le"), "utf-16-le"),
        (TEXT.encode("utf-16-be"), "utf-16-be"),
        (TEXT.encode("latin-1"), "latin-1"),
        (TEXT.replace("\r\n", "\n").encode(), "utf-8"),
        (TEXT.replace("\r\n", "\r").encode(), "utf-8"),
    ],
)
def test_a_file_of_any_usual_encoding_is_read(tmp_path: Path, content: bytes, encoding: str) -> None:
    path = file(tmp_path, content)
    assert lines.encoding_of(path) == encoding
    assert lines.first_lines(path, encoding) == LINES


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "empty"),
        (b" \r\n \n", "empty"),
        ("﻿".encode(), "empty"),
        (b"PK\x03\x04rest of a sheet", "spreadsheet"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\1\2\3\4\5", "no text"),
    ],
)
def test_what_is_no_text_is_refused_with_what_would_be_right(tmp_path: Path, content: bytes, says: str) -> None:
    with pytest.raises(InputError, match=says) as caught:
        lines.encoding_of(file(tmp_path, content))
    assert caught.value.right


def test_a_file_too_long_is_refused_with_how_long_it_may_be(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = file(tmp_path, b"2026-07-01 18:00,14\n" * 11)
    monkeypatch.setattr(lines, "MOST_LINES", 11)
    assert lines.encoding_of(path) == "utf-8"
    monkeypatch.setattr(lines, "MOST_LINES", 10)
    with pytest.raises(InputError, match=r"11 lines.*up to 10 lines"):
        lines.encoding_of(path)
    monkeypatch.setattr(lines, "MOST_BYTES", 100)
    with pytest.raises(InputError, match="MB"):
        lines.encoding_of(path)


def test_one_endless_line_does_not_fill_the_memory(tmp_path: Path) -> None:
    path = file(tmp_path, b"x" * 1_000_000)
    assert [len(line) for line in lines.lines(path, "utf-8")] == [lines.MOST_LINE_CHARS]
