"""What one does with measured photos: keep a measurement, keep a look at a jar with the row that a forecast reads."""

from __future__ import annotations

from typing import Any

from django.db import transaction

from bluewright.journal.actions.keeping import delete, keep, restore
from bluewright.journal.models import JarLook, Kept, LiquorLook, Measured, Reading


def keep_measured(row: Measured, *, by: Any) -> Measured:
    """Write a measurement."""
    return keep(row, by=by)


def add_jar_look(look: JarLook, *, read_as: Reading | LiquorLook | None, by: Any) -> JarLook:
    """Write a look at a jar with its measurement, and the look that a forecast reads, if it is to read one."""
    with transaction.atomic():
        keep(look.measured, by=by)
        if isinstance(read_as, Reading):
            look.reading = keep(read_as, by=by)
        elif read_as is not None:
            look.liquor_look = keep(read_as, by=by)
        return keep(look, by=by)


def delete_jar_look(look: JarLook, *, by: Any) -> None:
    """Take a look at a jar out of sight, and what a forecast reads of it."""
    with transaction.atomic():
        for part in _parts(look):
            if part.deleted_at is None:
                delete(part, by=by)
        delete(look, by=by)


def restore_jar_look(look: JarLook, *, by: Any) -> bool:
    """Bring it back, and what a forecast reads of it."""
    with transaction.atomic():
        if not restore(look, by=by):
            return False
        for part in _parts(look):
            restore(part, by=by)
        return True


def _parts(look: JarLook) -> list[Kept]:
    """The rows that were written along with it."""
    mine: tuple[Kept | None, ...] = (look.measured, look.reading, look.liquor_look)
    return [part for part in mine if part is not None]
