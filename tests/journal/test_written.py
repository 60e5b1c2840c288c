"""What is kept in memory stands until anything is written, by whomever, and no moment longer."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from bluewright.journal import written
from bluewright.journal.written import UntilWritten, Watch


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "garden.sqlite3"


@pytest.fixture
def writer(path: Path) -> Iterator[sqlite3.Connection]:
    """A connection as the journal has them, to a table with one row."""
    with closing(sqlite3.connect(path, isolation_level=None)) as made:
        made.execute("PRAGMA journal_mode=WAL")
        made.execute("CREATE TABLE tub (name)")
        made.execute("INSERT INTO tub VALUES ('A')")
        yield made


def test_a_stamp_differs_once_anything_is_committed(path: Path, writer: sqlite3.Connection) -> None:
    watch = Watch()
    first = watch.stamp(path)
    assert writer.execute("SELECT * FROM tub").fetchall() == [("A",)]
    assert watch.stamp(path) == first, "reading is no writing"
    writer.execute("BEGIN")
    writer.execute("UPDATE tub SET name = 'B'")
    assert watch.stamp(path) == first, "nobody else can read it yet"
    writer.execute("COMMIT")
    second = watch.stamp(path)
    assert second != first
    writer.execute("DELETE FROM tub")
    assert watch.stamp(path) not in {first, second}


def test_another_file_in_its_place_is_something_else(path: Path, writer: sqlite3.Connection) -> None:
    watch = Watch()
    first = watch.stamp(path)
    other = path.with_name("other.sqlite3")
    with closing(sqlite3.connect(other)) as made:
        made.execute("CREATE TABLE tub (name)")
    writer.close()
    other.replace(path)
    assert watch.stamp(path) != first


def test_a_value_is_kept_until_the_stamp_differs(monkeypatch: pytest.MonkeyPatch) -> None:
    now: list[written.Stamp | None] = [(1, 1)]
    monkeypatch.setattr(written, "stamp", lambda: now[0])
    kept, made = UntilWritten[str, int](2), iter(range(100))

    def make() -> int:
        return next(made)

    assert [kept.got("a", make), kept.got("a", make), kept.got("b", make)] == [0, 0, 1]
    assert (kept.known("a"), kept.made("a", make), kept.known("a")) == (0, 2, 2)
    assert [kept.got("c", make), kept.known("b"), kept.known("a")] == [3, None, 2], "the latest two"
    now[0] = (1, 2)
    assert (kept.known("a"), kept.got("a", make)) == (None, 4)


def test_what_is_written_while_a_value_is_made_makes_it_old(monkeypatch: pytest.MonkeyPatch) -> None:
    now = [(1, 1)]
    monkeypatch.setattr(written, "stamp", lambda: now[0])

    def make() -> str:
        now[0] = (1, 2)
        return "read before the writing"

    kept = UntilWritten[str, str](2)
    assert kept.got("a", make) == "read before the writing"
    assert kept.known("a") is None


@pytest.mark.django_db
def test_within_a_transaction_nothing_is_kept() -> None:
    kept, made = UntilWritten[str, int](2), iter(range(9))
    assert written.stamp() is None
    assert [kept.got("a", lambda: next(made)) for _ in range(2)] == [0, 1]
