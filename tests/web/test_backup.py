"""Backup and restore: everything, checked, all of it or nothing."""

from __future__ import annotations

import errno
import hashlib
import json
import os
import shutil
import sqlite3
import subprocess
import sys
import zipfile
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from bluewright import __version__
from bluewright.journal import backup
from bluewright.science.base.errors import InputError
from bluewright.web import home as homes
from tests.web.homes import bluewright, copied, with_photos
from tests.web.running import server

NOW = datetime(2026, 7, 3, 12, tzinfo=UTC)
KNOWN = homes.known_migrations()


@pytest.fixture(scope="module")
def pattern(season: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return with_photos(copied(season, tmp_path_factory.mktemp("pattern")))


@pytest.fixture
def home(pattern: Path, tmp_path: Path) -> Path:
    shutil.copytree(pattern, tmp_path / "garden")
    return tmp_path / "garden"


@pytest.fixture
def made(home: Path, tmp_path: Path) -> Path:
    backup.make(home, tmp_path / "backup.zip", now=NOW)
    return tmp_path / "backup.zip"


def dump(home: Path) -> list[str]:
    """The whole database as SQL text."""
    with closing(sqlite3.connect(home / "garden.sqlite3")) as database:
        return list(database.iterdump())


def photos(home: Path) -> dict[str, bytes]:
    return {p.relative_to(home).as_posix(): p.read_bytes() for p in (home / "photos").rglob("*") if p.is_file()}


def change(made: Path, how: Callable[[dict[str, bytes], dict[str, Any]], None]) -> None:
    """Write the zip anew with other content or another manifest."""
    with zipfile.ZipFile(made) as zipped:
        files = {name: zipped.read(name) for name in zipped.namelist()}
    manifest = json.loads(files.pop("manifest.json"))
    how(files, manifest)
    with zipfile.ZipFile(made, "w") as zipped:
        for name, content in files.items():
            zipped.writestr(name, content)
        zipped.writestr("manifest.json", json.dumps(manifest))


def restored(made: Path, to: Path, *, over: bool = False) -> Path | None:
    return backup.restore(made, to, known=KNOWN, over=over, now=NOW)[1]


def test_what_is_restored_is_what_was_backed_up(home: Path, made: Path, tmp_path: Path) -> None:
    assert restored(made, tmp_path / "again") is None
    assert dump(tmp_path / "again") == dump(home)
    assert photos(tmp_path / "again") == photos(home)
    assert len(photos(home)) == 2


def test_the_manifest_says_what_is_in_it(home: Path, made: Path) -> None:
    with zipfile.ZipFile(made) as zipped:
        plain = json.loads(zipped.read("manifest.json"))
        inside = {name: zipped.read(name) for name in zipped.namelist() if name != "manifest.json"}
    assert plain["program"] == __version__
    assert "journal.0001_initial" in plain["migrations"]
    assert set(plain["files"]) == set(inside) == {"garden.sqlite3", *photos(home)}
    for name, content in inside.items():
        assert plain["files"][name] == {"bytes": len(content), "sha256": hashlib.sha256(content).hexdigest()}
    assert b"secret.key" not in made.read_bytes()


def test_a_backup_made_while_the_journal_runs_holds_what_was_acknowledged(season: Path, tmp_path: Path) -> None:
    from tests.web.running import Browser

    home = copied(season, tmp_path / "garden")
    with server(home) as port, Browser(port) as browser:
        assert browser.post("/beds/add/", {"name": "By the well", "plant": "woad", "origin": "sown"})[0] == 302
        done = bluewright("backup", "--home", home, "--to", tmp_path)
        assert done.returncode == 0, done.stderr
        (made,) = tmp_path.glob("garden-*.zip")
        assert str(made) in done.stdout
        running = bluewright("restore", made, "--home", home, "--over")
        assert running.returncode == 2
        assert "Stop it, then restore" in running.stderr
        assert browser.ask("GET", "/tubs/")[0] == 200
    assert bluewright("restore", made, "--check").returncode == 0
    done = bluewright("restore", made, "--home", tmp_path / "again")
    assert done.returncode == 0, done.stderr
    with server(tmp_path / "again") as port, Browser(port) as browser:
        assert "Tub 3" in browser.ask("GET", "/tubs/")[2]
        assert "By the well" in browser.ask("GET", "/beds/")[2]


def test_a_garden_that_is_there_is_not_replaced_unasked(home: Path, made: Path) -> None:
    before = dump(home)
    with pytest.raises(InputError, match="not empty; name a new folder, or say --over"):
        restored(made, home)
    assert dump(home) == before


def test_what_was_replaced_is_kept_beside(home: Path, made: Path) -> None:
    with closing(sqlite3.connect(home / "garden.sqlite3")) as database, database:
        database.execute("DELETE FROM journal_reading")
    (home / "photos" / "later.jpg").write_bytes(b"later")
    changed = dump(home)
    kept = restored(made, home, over=True)
    assert kept == home.with_name("garden-before-2026-07-03-120000")
    assert dump(kept) == changed
    assert dump(home) != changed
    assert (kept / "photos" / "later.jpg").exists()
    assert not (home / "photos" / "later.jpg").exists()
    assert sorted(p.name for p in home.parent.iterdir()) == ["backup.zip", "garden", kept.name]


def test_a_copy_of_the_database_alone_leaves_the_photos(home: Path, tmp_path: Path) -> None:
    backup.make(home, tmp_path / "alone.zip", now=NOW, has_photos=False)
    before = photos(home)
    restored(tmp_path / "alone.zip", home, over=True)
    assert photos(home) == before


def cut(made: Path) -> None:
    made.write_bytes(made.read_bytes()[: made.stat().st_size // 2])


def turn_a_bit(made: Path) -> None:
    content = bytearray(made.read_bytes())
    content[len(content) // 3] ^= 1
    made.write_bytes(content)


def another_byte(files: dict[str, bytes], _: dict[str, Any]) -> None:
    files["photos/one.jpg"] = b"\xff\xd8 not a pictura"


def longer(files: dict[str, bytes], _: dict[str, Any]) -> None:
    files["photos/one.jpg"] += b"x" * 3_000_000


def one_gone(files: dict[str, bytes], _: dict[str, Any]) -> None:
    del files["photos/one.jpg"]


def one_too_many(files: dict[str, bytes], _: dict[str, Any]) -> None:
    files["photos/two.jpg"] = b""


def outside(files: dict[str, bytes], manifest: dict[str, Any]) -> None:
    files["photos/../../evil"] = b""
    manifest["files"]["photos/../../evil"] = {"bytes": 0, "sha256": hashlib.sha256(b"").hexdigest()}


def a_later_form(_: dict[str, bytes], manifest: dict[str, Any]) -> None:
    manifest["version"] = 2


def another_kind(_: dict[str, bytes], manifest: dict[str, Any]) -> None:
    manifest["format"] = "a cookbook"


def no_list(_: dict[str, bytes], manifest: dict[str, Any]) -> None:
    manifest["files"] = 3


@pytest.mark.parametrize(
    ("how", "says"),
    [
        (cut, "it is broken"),
        (turn_a_bit, "it is broken"),
        (lambda made: made.write_bytes(b""), "it is broken"),
        (lambda made: made.unlink(), "there is no"),
        (another_byte, r"photos/one.jpg: it is not as it was"),
        (longer, r"photos/one.jpg: it is not as it was"),
        (one_gone, "does not hold what its manifest says"),
        (one_too_many, "does not hold what its manifest says"),
        (outside, "does not hold what its manifest says"),
        (a_later_form, "version 2, which this program does not read; update"),
        (another_kind, "not a backup of Bluewright"),
        (no_list, "not a backup of Bluewright"),
    ],
)
def test_a_backup_that_is_not_whole_is_refused_and_nothing_is_changed(
    home: Path, made: Path, how: Any, says: str
) -> None:
    if how.__code__.co_argcount == 1:
        how(made)
    else:
        change(made, how)
    before, names = dump(home), sorted(p.name for p in home.parent.iterdir())
    for to in (home, home.with_name("new")):
        with pytest.raises(InputError, match=says):
            restored(made, to, over=True)
    with pytest.raises(InputError, match=says):
        backup.check(made)
    assert dump(home) == before
    assert sorted(p.name for p in home.parent.iterdir()) == names


def test_a_backup_of_a_newer_program_is_refused(home: Path, tmp_path: Path) -> None:
    with closing(sqlite3.connect(home / "garden.sqlite3")) as database, database:
        database.execute("INSERT INTO django_migrations (app, name, applied) VALUES ('journal', '9999_later', '')")
    backup.make(home, tmp_path / "newer.zip", now=NOW)
    with pytest.raises(InputError, match="newer than this one"):
        restored(tmp_path / "newer.zip", tmp_path / "new")
    assert not (tmp_path / "new").exists()
    done = bluewright("serve", "--home", home, "--no-browser", "--port", 1)
    assert (done.returncode, "newer Bluewright already" in done.stderr) == (2, True)


def test_a_damaged_database_is_not_backed_up(home: Path, tmp_path: Path) -> None:
    database = home / "garden.sqlite3"
    with closing(sqlite3.connect(database)) as held:
        held.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        held.execute("PRAGMA journal_mode=DELETE")
    content = bytearray(database.read_bytes())
    content[4096 * 3 : 4096 * 20] = b"\x55" * (4096 * 17)
    database.write_bytes(content)
    with pytest.raises(backup.BackupError, match=r"damaged|malformed"):
        backup.make(home, tmp_path / "bad.zip", now=NOW)
    assert [p.name for p in tmp_path.iterdir()] == ["garden"]


def test_a_row_that_refers_to_nothing_is_damage(home: Path, tmp_path: Path) -> None:
    with closing(sqlite3.connect(home / "garden.sqlite3")) as database, database:
        database.execute("DELETE FROM journal_garden")
    with pytest.raises(backup.BackupError, match="rows refer to nothing"):
        backup.make(home, tmp_path / "bad.zip", now=NOW)


def test_without_a_garden_there_is_nothing_to_back_up(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="there is no garden in"):
        backup.make(tmp_path / "nowhere", tmp_path / "b.zip", now=NOW)


def test_a_file_that_is_there_is_not_written_over(home: Path, made: Path) -> None:
    before = made.read_bytes()
    with pytest.raises(InputError, match="is there already"):
        backup.make(home, made, now=NOW)
    assert made.read_bytes() == before


def test_a_photo_that_is_being_written_or_removed_meanwhile_does_not_hinder(
    home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (home / "photos" / "two.part").write_bytes(b"half")
    check = backup.check_database

    def and_remove(path: Path) -> None:
        (home / "photos" / "one.jpg").unlink(missing_ok=True)
        check(path)

    monkeypatch.setattr(backup, "check_database", and_remove)
    made = backup.make(home, tmp_path / "b.zip", now=NOW)
    assert set(made.files) == {"garden.sqlite3", "photos/2026/Küpe 2.jpg"}


@pytest.mark.skipif(os.name == "nt", reason="rights of Unix")
def test_only_its_owner_may_read_a_backup_and_what_is_restored(made: Path, tmp_path: Path) -> None:
    restored(made, tmp_path / "again")
    assert made.stat().st_mode & 0o777 == 0o600
    assert (tmp_path / "again").stat().st_mode & 0o777 == 0o700


def test_too_little_room_is_said_before_anything_is_written(
    home: Path, made: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(backup.shutil, "disk_usage", lambda _: SimpleNamespace(free=1_000_000))
    with pytest.raises(backup.BackupError, match=r"MB are needed, 1 MB are free"):
        backup.make(home, tmp_path / "b.zip", now=NOW)
    with pytest.raises(backup.BackupError, match=r"MB are needed, 1 MB are free"):
        restored(made, tmp_path / "new")
    assert not (tmp_path / "new").exists()


@pytest.mark.parametrize("written", [0, 1, 3])
def test_a_disk_that_fills_up_meanwhile_leaves_nothing_half_done(
    home: Path, made: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, written: int
) -> None:
    left, copy = [written], backup._copy

    def full(*given: Any, **named: Any) -> tuple[int, str]:
        if left[0] == 0:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        left[0] -= 1
        return copy(*given, **named)

    before, names = dump(home), sorted(p.name for p in tmp_path.iterdir())
    monkeypatch.setattr(backup, "_copy", full)
    with pytest.raises(backup.BackupError, match="was not made: No space left on device"):
        backup.make(home, tmp_path / "b.zip", now=NOW)
    left[0] = min(written, 2)
    with pytest.raises(backup.BackupError, match="Nothing was restored; all is as it was: No space left on device"):
        restored(made, home, over=True)
    assert dump(home) == before
    assert sorted(p.name for p in tmp_path.iterdir()) == names


@pytest.mark.skipif(os.name == "nt", reason="limits of Unix")
def test_a_database_that_does_not_fit_is_said_in_words(home: Path, tmp_path: Path) -> None:
    """A limit on the size of files stands for a disk that fills up while SQLite writes."""
    script = (
        "import resource, signal, sys; from bluewright.cli.main import main\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (100_000, 100_000))\n"
        "sys.exit(main(sys.argv[1:]))"
    )
    words = ["backup", "--home", str(home), "--to", str(tmp_path / "b.zip")]
    done = subprocess.run([sys.executable, "-c", script, *words], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "The backup was not made" in done.stderr
    assert "Traceback" not in done.stderr
    assert [p.name for p in tmp_path.iterdir()] == ["garden"]


def test_a_folder_that_cannot_be_put_aside_stays_where_it_is(
    home: Path, made: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, rename = dump(home), Path.rename

    def stuck(self: Path, to: Path) -> Path:
        if self.name == "fresh":
            raise PermissionError(errno.EACCES, "Permission denied")
        return rename(self, to)

    monkeypatch.setattr(Path, "rename", stuck)
    with pytest.raises(backup.BackupError, match="all is as it was"):
        restored(made, home, over=True)
    assert dump(home) == before


def test_before_a_migration_the_database_is_copied_and_seven_copies_are_kept(home: Path) -> None:
    with closing(sqlite3.connect(home / "garden.sqlite3")) as database, database:
        (last,) = database.execute(
            "SELECT name FROM django_migrations WHERE app = 'sessions' ORDER BY name DESC"
        ).fetchone()
        database.execute("DELETE FROM django_migrations WHERE app = 'sessions'")
        database.execute("DROP TABLE django_session")
    (home / "backups").mkdir()
    for day in range(9):
        old = home / "backups" / f"before-0.0.{day}-2026-01-0{day + 1}-120000.zip"
        old.write_bytes(b"")
        then = (NOW - timedelta(days=100 - day)).timestamp()
        os.utime(old, (then, then))
    assert last == "0001_initial"
    assert bluewright("people", "list", "--home", home).returncode == 0
    kept = sorted((home / "backups").iterdir(), key=lambda path: path.stat().st_mtime)
    assert [path.name[:12] for path in kept[:-1]] == [f"before-0.0.{day}" for day in range(3, 9)]
    manifest = backup.check(kept[-1])
    assert "sessions.0001_initial" not in manifest.migrations
    assert not manifest.has_photos
    assert bluewright("people", "list", "--home", home).returncode == 0
    assert len(list((home / "backups").iterdir())) == 7, "nothing to migrate, nothing to copy"


def test_a_new_garden_needs_no_copy(pattern: Path) -> None:
    assert not (pattern / "backups").exists()
