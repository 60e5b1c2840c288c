"""Trials: laid down with all their lots at once; an envelope opened once its tub is full."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.db import transaction
from django.utils import timezone

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Steep, Trial, TrialTub


def lay_down(row: Trial, *, lots: Iterable[TrialTub], by: Any) -> Trial:
    """A new trial with its sealed lots, all or nothing."""
    with transaction.atomic():
        keep(row, by=by)
        for lot in lots:
            keep(lot, by=by)
    return row


def open_envelope(lot: TrialTub, *, steep: Steep | None, by: Any) -> TrialTub:
    """The lot is opened for a tub; one that is open stays as it is."""
    with transaction.atomic():
        held: TrialTub = TrialTub.objects.select_for_update().get(pk=lot.pk)
        if held.opened_at is None:
            held.opened_at, held.steep = timezone.now(), steep
            keep(held, by=by)
    return held
