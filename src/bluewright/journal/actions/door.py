"""Passphrases tried at the door: each one in vain lets the next wait longer, by address and by name.

A try is counted before the passphrase is looked at, so that many at once are not free. An address waits up to a
quarter of an hour. A name waits at most a minute: else a stranger could keep its owner out by trying.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import ip_address, ip_network
from typing import Final

from django.db import transaction
from django.utils.crypto import salted_hmac

from bluewright.journal.models import DoorTry

FORGOTTEN_AFTER: Final = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Patience:
    """How many tries are free, and how long the wait grows, doubling with each further one."""

    free: int
    first_s: int
    most_s: int

    def wait_s(self, failures: int) -> int:
        """Seconds to wait after so many tries in vain."""
        over = failures - self.free
        return 0 if over < 0 else min(self.first_s * 2 ** min(over, 20), self.most_s)


BY_ADDRESS: Final = Patience(free=5, first_s=5, most_s=900)
BY_NAME: Final = Patience(free=10, first_s=5, most_s=60)


def knock(*, address: str, name: str, now: datetime) -> int:
    """Count a try; returns 0 if the passphrase may be looked at, else how many seconds to wait (not counted)."""
    with transaction.atomic():
        DoorTry.objects.filter(last_at__lt=now - FORGOTTEN_AFTER).delete()
        rows = [(DoorTry.objects.filter(key=key).first() or DoorTry(key=key, last_at=now), patience)
                for key, patience in _keys(address, name)]  # fmt: skip
        left = max(_left_s(row, patience, now) for row, patience in rows)
        if left > 0:
            return math.ceil(left)
        for row, _ in rows:
            row.failures, row.last_at = row.failures + 1, now
            row.save()
    return 0


def opened(*, address: str, name: str) -> None:
    """The passphrase was right: the name's tries are forgotten, and this one no longer counts against the address."""
    (by_address, _), (by_name, _) = _keys(address, name)
    with transaction.atomic():
        DoorTry.objects.filter(key=by_name).delete()
        row = DoorTry.objects.filter(key=by_address).first()
        if row is not None:
            row.failures = max(row.failures - 1, 0)
            row.save()


def _left_s(row: DoorTry, patience: Patience, now: datetime) -> float:
    return patience.wait_s(row.failures) - max((now - row.last_at).total_seconds(), 0.0)


def _keys(address: str, name: str) -> tuple[tuple[str, Patience], tuple[str, Patience]]:
    """The two rows that a try counts on. A household's IPv6 phones share their first 64 bits: so do their tries."""
    try:
        ip = ip_address(address)
        place = str(ip_network(f"{ip}/64", strict=False)) if ip.version == 6 else str(ip)
    except ValueError:
        place = "unknown"
    digest = salted_hmac("bluewright.door", " ".join(name.split()).casefold(), algorithm="sha256").hexdigest()
    return (f"from {place}", BY_ADDRESS), (digest, BY_NAME)
