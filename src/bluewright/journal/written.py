"""How often rows of the journal were written by this program: what is kept in memory stands while that number stays."""

from __future__ import annotations

from itertools import count
from typing import Any

from django.db.models.signals import post_delete, post_save

_numbers = count(1)
_last = [0]


def _wrote(sender: Any, **_told: Any) -> None:
    if sender._meta.app_label == "journal":
        _last[0] = next(_numbers)


post_save.connect(_wrote, dispatch_uid="bluewright.journal.written")
post_delete.connect(_wrote, dispatch_uid="bluewright.journal.unwritten")


def writes() -> int:
    """The number of the last writing; it differs once any row was written, changed or deleted."""
    return _last[0]
