"""What the blue of a year costs, kept until something of it is written, for pages that show it beside others."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final
from uuid import UUID

from bluewright.journal.bridge import costs
from bluewright.journal.courtesy import give_way
from bluewright.journal.models import Garden
from bluewright.journal.queries.book import Key, Span
from bluewright.journal.written import UntilWritten
from bluewright.science.base.errors import BluewrightError
from bluewright.science.cost.cost_record import BatchCost, CostAnswer

MOST: Final = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A year's costs as they were reckoned."""

    names: dict[Key, str]
    """By key of a batch the name that the answer has for it."""
    answer: CostAnswer | None
    """None where no batch was begun in that year, or its costs cannot be reckoned."""

    def of(self, key: UUID) -> BatchCost | None:
        """One batch; None if it is not among those of the year."""
        name = self.names.get(key.hex)
        return None if self.answer is None else next((one for one in self.answer.batches if one.id == name), None)


_kept: Final = UntilWritten[tuple[UUID, int], Kept](MOST)


def kept(of: Garden, year: int) -> Kept | None:
    """What was reckoned, if nothing that it was reckoned from was written since; else None."""
    return _kept.known((of.pk, year))


def reckon(of: Garden, year: int, span: Span) -> Kept:
    """Work a year's costs out and keep them."""
    return _kept.made((of.pk, year), lambda: _reckoned(of.pk, span))


def _reckoned(garden: UUID, span: Span) -> Kept:
    found = costs.season(Garden.objects.get(pk=garden), span)  # read anew: its prices may have changed since
    give_way()
    try:
        answer = None if found is None else costs.reckoned(found.record)
    except BluewrightError:
        answer = None
    return Kept(names={} if found is None else dict(found.names), answer=answer)
