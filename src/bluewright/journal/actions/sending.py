"""The same form sent twice, by a double tap or after a lost network, is written once."""

from __future__ import annotations

import time
from datetime import timedelta
from typing import Final
from uuid import UUID

from django.db import IntegrityError, transaction
from django.utils import timezone

from bluewright.journal.models import Sent

REMEMBERED: Final = timedelta(days=30)
WAITS_S: Final = 8.0
"""How long a second sending waits for the first one to be written."""
STEP_S: Final = 0.1


def arrive(token: UUID) -> str | None:
    """Note that a form arrives; None if it is the first of its token, else where the first one led.

    While the first is being written it is waited for; if nothing comes of it, this one takes its place.
    """
    if _first(token):
        return None
    for _ in range(round(WAITS_S / STEP_S)):
        found = Sent.objects.filter(pk=token).first()
        if found is None and _first(token):
            return None
        if found is not None and found.led_to:
            return found.led_to
        time.sleep(STEP_S)
    return None


def settle(token: UUID, *, led_to: str) -> None:
    """Note where a form led; one that led nowhere (a mistake in it) may be sent again."""
    if led_to:
        Sent.objects.filter(pk=token).update(led_to=led_to[:500])
    else:
        Sent.objects.filter(pk=token).delete()


def _first(token: UUID) -> bool:
    now = timezone.now()
    try:
        with transaction.atomic():
            Sent.objects.create(token=token, arrived_at=now)
            Sent.objects.filter(arrived_at__lt=now - REMEMBERED).delete()
    except IntegrityError:
        return False
    return True
