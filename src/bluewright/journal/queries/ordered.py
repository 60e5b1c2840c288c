"""Rows by their keys, in the order of the keys."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar
from uuid import UUID

from django.db.models import Model, QuerySet

R = TypeVar("R", bound=Model)


def with_keys(rows: QuerySet[R], keys: Iterable[UUID]) -> list[R]:
    """Those of the rows that have these keys, in their order; none asked for is no statement."""
    wanted = list(keys)
    found = {row.pk: row for row in rows.order_by().filter(pk__in=wanted)} if wanted else {}
    return [found[key] for key in wanted if key in found]
