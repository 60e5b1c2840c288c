"""A backup of the whole installation in one zip, checked as it is made, and back again: all of it or nothing.

The zip holds a copy of the database taken while the program may go on writing, the photos, and a manifest: which
program made it, which migrations the database has had, and size and SHA-256 of each file. The secret key stays
behind: where a backup is restored, everybody comes in anew.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import sqlite3
import tempfile
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path, PurePosixPath
from typing import IO, Any, Final

from bluewright import __version__
from bluewright.science.base.errors import BluewrightError, InputError

FORMAT: Final = "bluewright backup"
VERSION: Final = 1
DATABASE: Final = "garden.sqlite3"
PHOTOS: Final = "photos"
PASSING: Final = ".part"
"""The ending of a photo that is being written."""
MANIFEST: Final = "manifest.json"
MOST_MANIFEST_BYTES: Final = 50_000_000
PIECE_BYTES: Final = 1 << 20
SPARE_BYTES: Final = 5_000_000
OTHER: Final = "take another backup"
MADE_HERE: Final = "choose a backup made by bluewright backup"


class BackupError(BluewrightError):
    """A backup could not be made or restored, and nothing was changed; says why and what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Manifest:
    """What a backup says of itself."""

    program: str
    made_at: str
    migrations: tuple[str, ...]
    """What the database has had, as `app.name`."""
    has_photos: bool
    """False for a copy of the database alone."""
    files: dict[str, tuple[int, str]]
    """Of each file its bytes and its SHA-256."""


def make(home: Path, to: Path, *, now: datetime, has_photos: bool = True) -> Manifest:
    """Back the installation in `home` up to the new file `to`; it appears whole and checked, or not at all.

    Raises InputError if there is no garden or the file is there already, BackupError if the database is damaged or
    the disk is full.
    """
    if not (home / DATABASE).exists():
        raise InputError(where="--home", what=f"there is no garden in {home}", right="name the folder that holds one")
    if to.exists():
        raise InputError(where="--to", what=f"{to} is there already", right="name another file")
    with _said_plainly("The backup was not made"):
        to.parent.mkdir(parents=True, exist_ok=True)
        photos = _photos(home) if has_photos else {}
        _enough_room(to.parent, 2 * (home / DATABASE).stat().st_size + sum(photos.values()))
        with tempfile.TemporaryDirectory(prefix=".bluewright-", dir=to.parent) as folder:
            copy, zipped = Path(folder) / DATABASE, Path(folder) / "backup.zip"
            with closing(sqlite3.connect(home / DATABASE, timeout=30)) as database:
                database.execute("VACUUM INTO ?", (str(copy),))
            check_database(copy)
            manifest = _write(zipped, copy, list(photos), home=home, now=now, has_photos=has_photos)
            check(zipped)
            zipped.chmod(0o600)
            _to_disk(zipped)
            zipped.rename(to)
            _to_disk(to.parent)
    return manifest


def check(file: Path) -> Manifest:
    """Whether the file is a whole backup: every file in it as its manifest says, and the database sound.

    Raises InputError if not.
    """
    with tempfile.TemporaryDirectory(prefix="bluewright-") as folder:
        return _unpack(file, Path(folder), only=DATABASE)


def restore(
    file: Path, home: Path, *, known: frozenset[str], over: bool, now: datetime
) -> tuple[Manifest, Path | None]:
    """Restore a backup into `home`; returns its manifest, and where the garden that was there is kept now.

    `known` are the migrations that this program has. Raises InputError, and changes nothing, if the backup is not
    whole or is of a newer program, or if something is in `home` and `over` is not said; BackupError if the server
    runs on it or the disk is full.
    """
    there = home.exists() and any(home.iterdir())
    if there and not over:
        raise InputError(where="--home", what=f"{home} is not empty", right="name a new folder, or say --over")
    with _said_plainly("Nothing was restored; all is as it was"):
        home.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".bluewright-", dir=home.parent) as folder:
            fresh = Path(folder) / "fresh"
            fresh.mkdir(mode=0o700)
            _enough_room(home.parent, _size_inside(file))
            manifest = _unpack(file, fresh, known=known)
            if there:
                _alone(home / DATABASE)
                if not manifest.has_photos and (home / PHOTOS).exists():
                    shutil.copytree(home / PHOTOS, fresh / PHOTOS)
            kept = _swap(fresh, home, now=now, there=there)
    return manifest, kept


def check_database(path: Path) -> None:
    """Raise BackupError unless the database is sound, in itself and in what refers to what."""
    try:
        with closing(sqlite3.connect(path)) as database:
            found = database.execute("PRAGMA integrity_check").fetchall()
            astray = database.execute("PRAGMA foreign_key_check").fetchall()
    except sqlite3.DatabaseError as error:
        raise BackupError(f"The database is damaged ({error}). Restore an earlier backup.") from None
    if found != [("ok",)] or astray:
        what = f"{len(astray)} rows refer to nothing" if found == [("ok",)] else str(found[0][0])
        raise BackupError(f"The database is damaged ({what}). Restore an earlier backup.")


def migrations_of(path: Path) -> tuple[str, ...]:
    """The migrations that a database has had, as `app.name`."""
    with closing(sqlite3.connect(path)) as database:
        rows = database.execute("SELECT app, name FROM django_migrations ORDER BY app, name").fetchall()
    return tuple(f"{app}.{name}" for app, name in rows)


def _photos(home: Path) -> dict[Path, int]:
    """Every photo with its bytes; one that is being written is not yet there."""
    found = sorted(path for path in (home / PHOTOS).rglob("*") if path.is_file() and path.suffix != PASSING)
    return {path: path.stat().st_size for path in found}


def _write(zipped: Path, copy: Path, photos: list[Path], *, home: Path, now: datetime, has_photos: bool) -> Manifest:
    files: dict[str, tuple[int, str]] = {}
    with zipfile.ZipFile(zipped, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as into:
        for path in [copy, *photos]:
            name = DATABASE if path is copy else path.relative_to(home).as_posix()
            info = zipfile.ZipInfo(name, now.timetuple()[:6])
            # Photos are compressed already.
            info.compress_type = zipfile.ZIP_DEFLATED if path is copy else zipfile.ZIP_STORED
            # A photo may be removed for good meanwhile.
            with (
                suppress(FileNotFoundError),
                path.open("rb") as source,
                into.open(info, "w", force_zip64=True) as target,
            ):
                files[name] = _copy(source, target)
        manifest = Manifest(
            program=__version__,
            made_at=now.isoformat(timespec="seconds"),
            migrations=migrations_of(copy),
            has_photos=has_photos,
            files=files,
        )
        into.writestr(MANIFEST, json.dumps(_plain(manifest), indent=1))
    return manifest


def _plain(manifest: Manifest) -> dict[str, Any]:
    return {
        "format": FORMAT,
        "version": VERSION,
        "program": manifest.program,
        "made_at": manifest.made_at,
        "migrations": list(manifest.migrations),
        "has_photos": manifest.has_photos,
        "files": {name: {"bytes": size, "sha256": digest} for name, (size, digest) in manifest.files.items()},
    }


def _unpack(file: Path, folder: Path, *, only: str = "", known: frozenset[str] | None = None) -> Manifest:
    """Check every file of a backup, and write them (or only one) into the folder."""
    try:
        with zipfile.ZipFile(file) as zipped:
            manifest = _manifest(zipped)
            for name, (size, digest) in manifest.files.items():
                path = folder / name if not only or name == only else Path(os.devnull)
                path.parent.mkdir(parents=True, exist_ok=True)
                with zipped.open(name) as source, path.open("wb") as target:
                    found = _copy(source, target, most=size)
                if found != (size, digest):
                    raise InputError(where=name, what="it is not as it was when the backup was made", right=OTHER)
    except FileNotFoundError:
        raise InputError(where="file", what=f"there is no {file}", right=MADE_HERE) from None
    except (zipfile.BadZipFile, EOFError, KeyError, NotImplementedError, RuntimeError, zlib.error) as error:
        raise InputError(where="file", what=f"it is broken ({error})", right=OTHER) from None
    check_database(folder / DATABASE)
    newer = set(migrations_of(folder / DATABASE)) - known if known is not None else set()
    if newer:
        what = f"it was made by Bluewright {manifest.program}, which is newer than this one, {__version__}"
        raise InputError(where="file", what=what, right="update the program first")
    return manifest


def _size_inside(file: Path) -> int:
    """Bytes of what a zip holds, as it says; nothing if it cannot be read, which is said later."""
    try:
        with zipfile.ZipFile(file) as zipped:
            return sum(info.file_size for info in zipped.infolist())
    except (OSError, zipfile.BadZipFile):
        return 0


def _manifest(zipped: zipfile.ZipFile) -> Manifest:
    """The manifest, if it fits what is in the zip and names nothing outside."""
    try:
        info = zipped.getinfo(MANIFEST)
        plain = json.loads(zipped.read(info)) if info.file_size <= MOST_MANIFEST_BYTES else {}
        if plain["format"] != FORMAT:
            raise KeyError("format")
        if plain["version"] != VERSION:
            what = f"it is of version {plain['version']!r}, which this program does not read"
            raise InputError(where="file", what=what, right="update the program first")
        manifest = Manifest(
            program=str(plain["program"]),
            made_at=str(plain["made_at"]),
            migrations=tuple(map(str, plain["migrations"])),
            has_photos=bool(plain["has_photos"]),
            files={name: (int(one["bytes"]), str(one["sha256"])) for name, one in plain["files"].items()},
        )
    except (KeyError, TypeError, AttributeError, ValueError) as error:
        if isinstance(error, InputError):
            raise
        raise InputError(where="file", what="it is not a backup of Bluewright", right=MADE_HERE) from None
    inside = {name for name in zipped.namelist() if name != MANIFEST}
    if inside != set(manifest.files) or DATABASE not in inside or not all(map(_ours, inside)):
        raise InputError(where="file", what="it does not hold what its manifest says", right=OTHER)
    return manifest


def _ours(name: str) -> bool:
    """Whether the name is the database's or of a file in the folder of photos."""
    parts = PurePosixPath(name).parts
    plain = not any(part in {"..", ".", ""} or "\\" in part or ":" in part for part in name.split("/"))
    return name == DATABASE or (plain and len(parts) > 1 and parts[0] == PHOTOS)


def _copy(source: IO[bytes], target: IO[bytes], *, most: int | None = None) -> tuple[int, str]:
    """Copy to the end, or to one piece beyond `most` bytes; returns bytes and SHA-256 of what was copied."""
    size, digest = 0, hashlib.sha256()
    while piece := source.read(PIECE_BYTES):
        size += len(piece)
        digest.update(piece)
        target.write(piece)
        if most is not None and size > most:
            break
    return size, digest.hexdigest()


def _alone(database: Path) -> None:
    """Raise BackupError if another program has the database open: it would go on writing into what is put aside."""
    if not database.exists():
        return
    with closing(sqlite3.connect(database, timeout=0.2)) as held:
        held.execute("PRAGMA locking_mode=EXCLUSIVE")
        try:
            held.execute("BEGIN EXCLUSIVE")
        except sqlite3.OperationalError:
            raise BackupError("The program is running on this garden. Stop it, then restore.") from None
        except sqlite3.DatabaseError:
            return  # damaged: nobody can be writing into it
        held.rollback()


def _swap(fresh: Path, home: Path, *, now: datetime, there: bool) -> Path | None:
    """Put the fresh folder in the place of the one that is there, which is kept beside it."""
    for path in fresh.rglob("*"):
        if path.is_file():
            _to_disk(path)
    if not there:
        if home.exists():
            home.rmdir()
        fresh.rename(home)
        return None
    kept = home.with_name(f"{home.name}-before-{now:%Y-%m-%d-%H%M%S}")
    home.rename(kept)
    try:
        fresh.rename(home)
    except OSError:
        kept.rename(home)
        raise
    _to_disk(home.parent)
    return kept


def _to_disk(path: Path) -> None:
    """Wait until a file, or the names in a folder, are on the disk."""
    if path.is_dir() and os.name == "nt":
        return  # Windows cannot, and need not
    number = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(number)
    finally:
        os.close(number)


def _enough_room(folder: Path, needed_bytes: int) -> None:
    free_bytes = shutil.disk_usage(folder).free
    if free_bytes < needed_bytes + SPARE_BYTES:
        raise BackupError(
            f"There is not enough room in {folder}: about {needed_bytes / 1e6:.0f} MB are needed, "
            f"{free_bytes / 1e6:.0f} MB are free. Make room, or name another disk."
        )


@contextmanager
def _said_plainly(nothing_done: str) -> Iterator[None]:
    """Trouble with the disk, as a BackupError in words."""
    try:
        yield
    except OSError as error:
        raise BackupError(f"{nothing_done}: {error.strerror or error} ({error.filename or 'while writing'}).") from None
    except sqlite3.Error as error:
        raise BackupError(f"{nothing_done}: {error}.") from None
