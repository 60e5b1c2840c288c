"""What was changed of a row, by whom and when, and what it said before."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final
from uuid import UUID

from bluewright.journal.models import Change, Kept
from bluewright.journal.models.kept import as_plain

SILENT: Final = frozenset({"made_at", "made_by_id", "changed_at", "changed_by_id", "deleted_at"})
"""Columns that change with every change."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One change of a row."""

    verb: str
    """`change`, `delete` or `restore`."""
    at: datetime
    by: str
    """Name of who did it; empty where nobody is known."""
    before: dict[str, Any]
    """What it said before, only what was changed: by column, or by what hangs on the row (`beds`, `leaf`)."""


def histories(rows: Iterable[Kept]) -> dict[UUID, list[Step]]:
    """The changes of each row, the newest first, in one read."""
    now = {row.pk: as_plain(row) for row in rows}
    found: dict[UUID, list[Step]] = defaultdict(list)
    for change in Change.objects.filter(row_id__in=list(now)).select_related("by").order_by("-at", "-pk"):
        after = now[change.row_id]
        before = {k: v for k, v in change.before.items() if k not in SILENT and (k not in after or after[k] != v)}
        by = change.by.get_username() if change.by else ""
        found[change.row_id].append(Step(verb=change.verb, at=change.at, by=by, before=before))
        now[change.row_id] = {k: v for k, v in change.before.items() if k in after}
    return found
