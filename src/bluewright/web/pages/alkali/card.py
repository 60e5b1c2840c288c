"""The alkali card: one sheet for the tub, with the parts to be ticked and the pH to be written beside them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Final
from zoneinfo import ZoneInfo

from bluewright.journal.models import Alkali, Batch
from bluewright.science.alkali.record import DoseAnswer
from bluewright.science.base.bands import Band
from bluewright.web.pages.alkali.cupboard import strength
from bluewright.web.pages.alkali.page import said_enough, take_care, work_out
from bluewright.web.pages.batches.head import facts
from bluewright.words.measures import dosed, dosed_band
from bluewright.words.numbers import moment

LATER_PARTS: Final = 2
"""Equal parts in which the dose goes in after the first."""
BLANK_ROWS: Final = 2
"""Empty lines for what the pH then asks for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPart:
    """A line of the card: an amount to be ticked, or an empty one."""

    number: int
    amount: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AlkaliCard:
    """What stands on the card."""

    key: str
    batch: str
    facts: str
    alkali: str
    strength: str
    wanted_ph: str
    dose: str
    """All of it with its range; empty where there is none."""
    ph_after: str
    parts: tuple[CardPart, ...]
    trouble: str
    """Why there is no dose; empty where there is one."""
    take_care: tuple[str, ...]
    made: str
    """When it was worked out."""


def alkali_card(batch: Batch, alkali: Alkali, *, now: datetime) -> AlkaliCard:
    """The card of a whole batch with this alkali."""
    worked = work_out(batch, alkali)
    trouble = said_enough(batch, worked.known) or worked.trouble
    found = None if trouble else worked.answer
    return AlkaliCard(
        key=str(batch.pk),
        batch=batch.name,
        facts=facts(batch),
        alkali=alkali.name,
        strength=strength(alkali),
        wanted_ph=f"{batch.target_ph:g}",
        dose=_dose(found) if found is not None else "",
        ph_after=f"{found.ph_after.p50:.1f}" if found is not None else "",
        parts=_parts(found, in_already=worked.known.since_reading) if found is not None else (),
        trouble=trouble,
        take_care=take_care(alkali, worked) if found is not None else (),
        made=moment(now.astimezone(ZoneInfo(batch.garden.time_zone))),
    )


def _dose(found: DoseAnswer) -> str:
    dose = Band(p5=found.dose.p5, p50=found.dose.p50, p95=found.dose.p95)
    return dosed_band(dose, found.dose.unit)


def _parts(found: DoseAnswer, *, in_already: float) -> tuple[CardPart, ...]:
    """The first part, the rest in equal ones, and empty lines; nothing but those while a reading is due."""
    first, rest = found.first_part, found.dose.p50 - found.first_part
    amounts = [] if in_already or not first else [first, *([rest / LATER_PARTS] * LATER_PARTS if rest > 0 else [])]
    said_amounts = [dosed(one, found.dose.unit) for one in amounts]
    lines = [*said_amounts, *[""] * BLANK_ROWS]
    return tuple(CardPart(number=number, amount=line) for number, line in enumerate(lines, start=1))
