"""A choice as the database holds it, where a record wants one of a few words."""

from __future__ import annotations

from typing import Any


def word(stored: str | None) -> Any:
    """The word as it is stored; the record refuses what is none of its own."""
    return stored
