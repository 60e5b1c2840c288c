"""The files of photos, in the garden's folder: `photos/<first two letters>/<name>-<size>.jpg`.

A file is written under a passing name, forced to the disk, and only then given its own name: it stands whole or not
at all. Names say nothing of what is in them.
"""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path
from typing import Final, Literal

from django.conf import settings

from bluewright.journal.models import Photo
from bluewright.journal.photos.preparing import Prepared

Size = Literal["1600", "320", "original"]
SIZES: Final[tuple[Size, ...]] = ("1600", "320", "original")


def path(photo: Photo, size: Size) -> Path:
    """Where a file of a photo stands, whether it is there or not."""
    ending = photo.original_ending if size == "original" else "jpg"
    folder: Path = settings.HOME / "photos" / photo.name[:2]
    return folder / f"{photo.name}-{size}.{ending}"


def write(photo: Photo, ready: Prepared) -> None:
    """Write the files of a photo and note their sizes in its row; on an error none of them stays."""
    photo.original_ending, photo.original_bytes = ready.ending, len(ready.original)
    photo.shown_bytes, photo.thumb_bytes = len(ready.shown), len(ready.thumb)
    try:
        _write(path(photo, "1600"), ready.shown)
        _write(path(photo, "320"), ready.thumb)
        if ready.original:
            _write(path(photo, "original"), ready.original)
    except OSError:
        remove(photo)
        raise


def remove(photo: Photo) -> None:
    """Remove the files of a photo for good."""
    for size in SIZES:
        with suppress(FileNotFoundError):
            path(photo, size).unlink()


def _write(where: Path, content: bytes) -> None:
    where.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    passing = where.with_suffix(".part")
    try:
        with passing.open("wb") as file:
            passing.chmod(0o600)
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        passing.replace(where)
    except OSError:
        passing.unlink(missing_ok=True)
        raise
    if os.name == "posix":  # so that the name, too, outlives a cut of the power; other systems have no such call
        folder = os.open(where.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
