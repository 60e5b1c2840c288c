"""What went into a batch of liquor, seen from the alkali that is to be dosed: what counts as added, from which pH on.

The science knows one alkali in one liquor. A part of another alkali therefore makes a new liquor: the pH read after it
is that of the liquor as it now stands, and only what was added since counts as added.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from uuid import UUID

from bluewright.journal.models import Alkali, AlkaliPart, Batch, JarTest, LiquorLook
from bluewright.journal.models.alkali import Added

Moment = tuple[datetime, datetime]
"""When it happened and when it was written: of two things in one minute the one written later came later."""


@dataclass(slots=True, kw_only=True)
class Dosing:
    """A batch of liquor and one alkali; amounts are in the measure of that alkali, mL or g."""

    alkali_id: UUID | None = None
    """Which alkali is asked about."""
    ph: float | None = None
    """Of the liquor before the parts that count."""
    last_ph: float | None = None
    """As it was read last, whatever has gone in since."""
    added: float = 0.0
    """In the liquor in all, of the parts that count."""
    read: dict[float, float] = field(default_factory=dict)
    """The pH last read at each sum of parts."""
    unread: bool = False
    """Whether something went in since the pH was read."""
    parts: list[AlkaliPart] = field(default_factory=list)
    """All that went in, in order."""
    settled_count: int = 0
    """How many of those, from the first on, count only through the pH that was read after them."""
    jar: JarTest | None = None
    """The latest jar titration that speaks of this liquor."""
    jar_had: float = 0.0
    """What was in the tub when that jar was drawn from it."""

    @property
    def settled(self) -> list[AlkaliPart]:
        """The parts up to the last of another alkali, and up to the first pH read after that."""
        return self.parts[: self.settled_count]

    @property
    def blind(self) -> bool:
        """Whether another alkali went in and no pH was read after it: from there no dose can be reckoned."""
        return bool(self.settled) and self.ph is None

    @property
    def since_reading(self) -> float:
        """Of the parts that count, what went in since the pH was read."""
        return self.added - max(self.read, default=0.0)

    @property
    def grown_l(self) -> float:
        """What the settled parts have added to the volume."""
        return sum(part.added_ml or 0.0 for part in self.settled) / 1000.0


def dosing(batch: Batch, *, alkali: Alkali | None) -> Dosing:
    """How a whole batch stands towards `alkali`."""
    found = Dosing(alkali_id=alkali.pk if alkali is not None else None)
    for _, event in sorted(_events(batch), key=lambda one: one[0]):
        if isinstance(event, AlkaliPart):
            _take_part(found, event)
        elif isinstance(event, JarTest):
            _take_jar(found, event)
        elif event.ph is not None:
            _take_ph(found, event.ph)
    return found


def amount(row: Added) -> float:
    """What was added, in its own measure."""
    return row.added_ml if row.added_ml is not None else row.added_g or 0.0


def tested(batch: Batch) -> list[JarTest]:
    """Jar titrations of a whole batch with at least one reading, the latest first."""
    return [test for test in batch.jar_tests.all() if any(step.ph is not None for step in test.steps.all())]


def _events(batch: Batch) -> Iterator[tuple[Moment, AlkaliPart | JarTest | LiquorLook]]:
    for part in batch.alkali_parts.all():
        yield (part.added_at, part.made_at), part
    for test in tested(batch):
        yield (test.taken_at, test.made_at), test
    for look in batch.looks.all():
        if look.after_min is None and look.after_pours is None:
            yield (look.taken_at, look.made_at), look


def _take_part(found: Dosing, part: AlkaliPart) -> None:
    found.parts.append(part)
    found.unread = part.ph is None
    if part.alkali_id == found.alkali_id:
        found.added += amount(part)
    else:
        _settle(found, ph=None)
    if part.ph is not None:
        _take_ph(found, part.ph)


def _take_ph(found: Dosing, ph: float) -> None:
    found.last_ph, found.unread = ph, False
    if not found.added:
        found.ph = ph
    elif found.blind:
        _settle(found, ph=ph)
    else:
        found.read[found.added] = ph


def _settle(found: Dosing, *, ph: float | None) -> None:
    """From here on it is a new liquor, of this pH."""
    found.settled_count, found.ph, found.added, found.read = len(found.parts), ph, 0.0, {}
    found.jar, found.jar_had = None, 0.0


def _take_jar(found: Dosing, test: JarTest) -> None:
    """A jar speaks of this liquor if what it already held is of the jar's own alkali, or nothing."""
    if not found.added or test.alkali_id == found.alkali_id:
        found.jar, found.jar_had = test, found.added
    else:
        found.jar, found.jar_had = None, 0.0
