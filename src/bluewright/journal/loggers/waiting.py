"""Files that were sent and wait until a person has said how to read them; for a day, in the garden's folder."""

from __future__ import annotations

import json
import shutil
import time
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Final
from uuid import UUID, uuid4

from django.conf import settings

from bluewright.journal.loggers.lines import encoding_of
from bluewright.journal.models import Garden, Steep
from bluewright.science.base.errors import InputError

KEPT_FOR_S: Final = 24 * 3600


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """One file that waits."""

    key: UUID
    path: Path
    name: str
    encoding: str
    steep_key: UUID | None
    """The tub that it is of; None for the air."""


def keep_waiting(pieces: Iterable[bytes], *, name: str, garden: Garden, steep: Steep | None) -> UUID:
    """Keep a file that was sent; older ones that nobody confirmed go. Raises InputError, keeping nothing, for a file
    that is no text or too long."""
    _sweep()
    key = uuid4()
    folder = _folder(key)
    folder.mkdir(parents=True)
    try:
        with (folder / "file").open("wb") as file:
            for piece in pieces:
                file.write(piece)
        told = {
            "garden": str(garden.pk), "steep": str(steep.pk) if steep else None, "name": name[-120:],
            "encoding": encoding_of(folder / "file"),
        }  # fmt: skip
    except (InputError, OSError):
        shutil.rmtree(folder, ignore_errors=True)
        raise
    (folder / "told.json").write_text(json.dumps(told), encoding="utf-8")
    return key


def waiting(key: UUID, *, of: Garden) -> Waiting | None:
    """The file of that key in a garden; None if there is none, or no more."""
    folder = _folder(key)
    try:
        told = json.loads((folder / "told.json").read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    if told["garden"] != str(of.pk):
        return None
    steep_key = UUID(told["steep"]) if told["steep"] else None
    return Waiting(key=key, path=folder / "file", name=told["name"], encoding=told["encoding"], steep_key=steep_key)


def drop(key: UUID) -> None:
    """Throw a waiting file away."""
    shutil.rmtree(_folder(key), ignore_errors=True)


def _folder(key: UUID) -> Path:
    return Path(settings.HOME) / "waiting" / str(key)


def _sweep() -> None:
    old = time.time() - KEPT_FOR_S
    for folder in _folder(UUID(int=0)).parent.glob("*"):
        if folder.stat().st_mtime < old:
            shutil.rmtree(folder, ignore_errors=True)
