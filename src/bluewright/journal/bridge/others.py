"""Files of other gardens become a prior of this one: each a shared garden, or one a prior that was pooled before."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import TypeVar

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.memory.pool import pool
from bluewright.science.memory.pool_record import PoolRecord, Prepared, SharedGarden

R = TypeVar("R")
Named = tuple[str, bytes]
"""A file's name and what is in it."""


def joined(files: Sequence[Named], *, own: SharedGarden | None) -> Prepared:
    """What the files say together. Raises InputError, which names the file, where one cannot be taken.

    `own` is what this garden would give away itself: its own file among them would count its tubs twice.
    """
    plain = [(name, _plain(name, text)) for name, text in files]
    if len(plain) == 1 and "beliefs" in plain[0][1]:
        return _as(Prepared, *plain[0])
    gardens = [_as(SharedGarden, name, one) for name, one in plain]
    for (name, _one), garden in zip(plain, gardens, strict=True):
        if own is not None and set(own.batches) & set(garden.batches):
            raise InputError(
                where=name, what="it holds tubs of this garden, which would count twice", right="leave it out"
            )
        if gardens.count(garden) > 1:
            raise InputError(where=name, what="the same garden is there twice", right="choose it once")
    return pool(PoolRecord(gardens=tuple(gardens))).prior


def _plain(name: str, text: bytes) -> dict[str, object]:
    try:
        found = json.loads(text)
    except ValueError:
        found = None
    if not isinstance(found, dict):
        raise InputError(
            where=name, what="it is no file that a garden gave", right="choose one that was kept as a file"
        )
    return found


def _as(kind: type[R], name: str, plain: dict[str, object]) -> R:
    try:
        return read(kind, plain)
    except InputError as error:
        raise error.inside(name) from None
