"""What one does with alkali that is more than one row: draw a jar for a titration."""

from __future__ import annotations

from typing import Any

from django.db import transaction

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import JarTest, LiquorLook


def begin_jar_test(test: JarTest, *, ph: float | None, by: Any) -> JarTest:
    """Write a jar titration; the pH of its liquor, if it was read, as a look at the batch."""
    with transaction.atomic():
        if ph is not None:
            keep(LiquorLook(batch=test.batch, taken_at=test.taken_at, ph=ph), by=by)
        return keep(test, by=by)
