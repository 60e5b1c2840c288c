"""What was asked of the law, by plant."""

from __future__ import annotations

from collections.abc import Sequence

from bluewright.journal.models import Garden, LawCheck


def checks(of: Garden) -> Sequence[LawCheck]:
    """Every check of a garden, the latest first."""
    return list(LawCheck.objects.filter(garden=of))


def last_check(of: Garden, plant: str) -> LawCheck | None:
    """The last check of one plant; None where nobody asked."""
    return LawCheck.objects.filter(garden=of, plant=plant).first()
