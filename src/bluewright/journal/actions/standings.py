"""What one does with a vessel that stands: decant it, and take that back."""

from __future__ import annotations

from datetime import datetime
from typing import Any, Final

from django.db import transaction

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Change, Garden, Standing

OF_DECANTING: Final = ("decanted_at", "left_l", "left_typed", "blue_in_decant", "ph", "conductivity_us_per_cm")


def tell_tap(garden: Garden, *, ph: float | None, conductivity_us_per_cm: float | None, by: Any) -> Garden:
    """Keep what the tap water reads; what is None stays as it is."""
    with transaction.atomic():
        row: Garden = Garden.objects.get(pk=garden.pk)
        row.tap_ph = row.tap_ph if ph is None else ph
        if conductivity_us_per_cm is not None:
            row.tap_conductivity_us_per_cm = conductivity_us_per_cm
        return keep(row, by=by)


def undecant(standing: Standing, *, by: Any) -> Standing:
    """It was not decanted after all: what was written of the decanting goes, and stays in the row's changes."""
    for name in OF_DECANTING:
        setattr(standing, name, "" if name == "left_typed" else None)
    return keep(standing, by=by)


def redecant(standing: Standing, *, by: Any) -> bool:
    """Bring a decanting back that was taken back; returns whether there was one."""
    if standing.decanted_at is not None:
        return True
    earlier = Change.objects.filter(kind="standing", row_id=standing.pk).order_by("-at")
    before = next((one.before for one in earlier if one.before["decanted_at"] is not None), None)
    if before is None:
        return False
    for name in OF_DECANTING:
        setattr(standing, name, before[name])
    standing.decanted_at = datetime.fromisoformat(before["decanted_at"])
    keep(standing, by=by)
    return True
