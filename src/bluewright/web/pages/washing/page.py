"""What is shown of washing: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from django.utils.translation import gettext as _

from bluewright.journal.bridge import answers
from bluewright.journal.bridge.batches import wash_record
from bluewright.journal.models import Batch
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.settle.acid_record import AcidAnswer
from bluewright.web.pages.batches.head import BatchHead, batch_head
from bluewright.web.ui.answered import Answered, Table, answered
from bluewright.web.ui.why import main_why
from bluewright.web.ui.why_view import why_address
from bluewright.words import acid as acid_words
from bluewright.words import wash as wash_words
from bluewright.words.numbers import rough
from bluewright.words.own_text import own_text


@dataclass(frozen=True, slots=True, kw_only=True)
class WashPart:
    """The washes of a batch that was decanted once."""

    done: int
    """Washes done."""
    answer: Answered | None
    enough: bool
    """Whether the last reading met a stop rule, or by the volumes none is left to do."""
    trouble: str
    needs_refill: bool
    """Whether the amount of fresh water must be asked for first."""
    tap: str
    """What is known of the tap water, in words; empty if nothing is."""
    limed: bool
    """Whether lime went in: then acid frees the blue."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AcidPage:
    """Acid for the limed pigment of a batch."""

    head: BatchHead
    answer: Answered | None
    parts: Table | None
    trouble: str


def wash_part(batch: Batch, *, refill: float | None) -> WashPart | None:
    """The washes done and left; `refill` (litres) stands for those to come where it is given."""
    done = [one for one in batch.standings.all() if one.decanted_at is not None]
    if not done:
        return None
    answer, trouble, needs_refill, enough = None, "", False, False
    try:
        found = answers.washed(wash_record(batch, refill_l=refill))
        answer = answered(wash_words.said(found), why=main_why(found, address=_why_address(batch, refill)))
        enough = bool(found.rule_met) or (found.rule_met is None and found.washes_left.p50 == 0)
    except InputError as error:
        needs_refill, trouble = error.where == "refill_l", own_text(str(error))
    except BluewrightError as error:
        trouble = own_text(str(error))
    return WashPart(
        done=sum(one.refill_l is not None for one in done),
        answer=answer,
        enough=enough,
        trouble="" if needs_refill else trouble,
        needs_refill=needs_refill,
        tap=tap_said(batch),
        limed=any(part.alkali.kind == "slaked_lime" for part in batch.alkali_parts.all()),
    )


def _why_address(batch: Batch, refill: float | None) -> Callable[[str], str]:
    """Where it says why, for the same fresh water as was asked for."""
    plain = why_address("washing.why", key=batch.pk)
    return plain if refill is None else lambda figure: f"{plain(figure)}?refill={refill:g}"


def tap_said(batch: Batch) -> str:
    """`pH 7.4, 420 µS/cm`."""
    ph, conductivity = batch.garden.tap_ph, batch.garden.tap_conductivity_us_per_cm
    parts = [f"pH {ph:g}"] if ph is not None else []
    return ", ".join([*parts, *([f"{conductivity:g} µS/cm"] if conductivity is not None else [])])


def acid_page(batch: Batch, *, answer: AcidAnswer | None, trouble: str) -> AcidPage:
    """The page of the acid, given its answer."""
    parts = None
    if answer is not None:
        before = [None, *(one.then for one in answer.parts)]
        rows = tuple(
            (False, (rough(one.add_ml), rough(one.total_ml), one.then if one.then != last else _("the same")))
            for one, last in zip(answer.parts, before, strict=False)
        )
        head = (_("pour in, mL"), _("in all, mL"), _("then"))
        parts = Table(caption=_("Part by part"), head=head, rows=rows)
    said = answered(acid_words.said(answer)) if answer is not None else None
    return AcidPage(head=batch_head(batch), answer=said, parts=parts, trouble=trouble)
