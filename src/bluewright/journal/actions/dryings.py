"""What one does with paste: put a dish of it to dry."""

from __future__ import annotations

from typing import Any

from django.db import transaction

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Drying, Weighing


def put_to_dry(drying: Drying, *, first: Weighing, by: Any) -> Drying:
    """Write a dish with its first weighing, both or none."""
    with transaction.atomic():
        keep(drying, by=by)
        first.drying = drying
        keep(first, by=by)
    return drying
