"""What the settling page of a batch shows: rounding and words happen here, once."""

from __future__ import annotations

from dataclasses import dataclass
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.charts.answers import settle_chart
from bluewright.journal.models import Batch, Standing
from bluewright.science.settle.interface_record import SettleAnswer
from bluewright.web.pages.batches.head import BatchHead, batch_head
from bluewright.web.pages.washing.page import WashPart
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.why import main_why
from bluewright.web.ui.why_view import why_address
from bluewright.words.measures import amount
from bluewright.words.numbers import moment
from bluewright.words.settle import said
from bluewright.words.signs import level_said


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeRow:
    """One height of the edge."""

    key: str
    when: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingRow:
    """One standing in the story."""

    key: str
    title: str
    when: str
    said: str
    decanted: str
    """When and how it was decanted; empty while it stands."""
    note: str
    edges: tuple[EdgeRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SettlingPage:
    """Settling and washing of one batch."""

    head: BatchHead
    stands: StandingRow | None
    """What stands now; None before it is left to stand and after each decanting."""
    answer: Answered | None
    trouble: str
    needs_depth: bool
    wash: WashPart | None
    """None before the first decanting."""
    standings: tuple[StandingRow, ...]


def standing_now(batch: Batch) -> Standing | None:
    """What stands now: the last standing that was not decanted."""
    return next((one for one in reversed(list(batch.standings.all())) if one.decanted_at is None), None)


def settling_page(
    batch: Batch, *, answer: SettleAnswer | None, wash: WashPart | None, trouble: str = ""
) -> SettlingPage:
    """The page of a batch's settling, given its answer."""
    zone, now = ZoneInfo(batch.garden.time_zone), standing_now(batch)
    rows = tuple(_row(one, zone) for one in batch.standings.all())
    return SettlingPage(
        head=batch_head(batch),
        stands=next((row for row in rows if now is not None and row.key == str(now.pk)), None),
        answer=_answered(batch, answer) if answer is not None else None,
        trouble=trouble,
        needs_depth=now is not None and now.depth_mm is None,
        wash=wash,
        standings=rows[::-1],
    )


def _answered(batch: Batch, answer: SettleAnswer) -> Answered:
    found = said(answer)
    why = main_why(answer, address=why_address("settling.why", key=batch.pk))
    return answered(found, chart=settle_chart(answer, answer=found.first), why=why)


def _row(one: Standing, zone: ZoneInfo) -> StandingRow:
    title = _("First settling") if one.refill_l is None else _("Wash with %(water)s") % {"water": one.refill_typed}
    parts = [_("%(depth)s deep") % {"depth": one.depth_typed}] if one.depth_mm is not None else []
    parts += [_("acid in the water")] if one.acid else []
    return StandingRow(
        key=str(one.pk),
        title=title,
        when=moment(one.started_at.astimezone(zone)),
        said=", ".join(parts),
        decanted=_decanted(one, zone),
        note=one.note,
        edges=tuple(
            EdgeRow(key=str(e.pk), when=moment(e.taken_at.astimezone(zone)), said=e.interface_typed)
            for e in reversed(list(one.edges.all()))
        ),
    )


def _decanted(one: Standing, zone: ZoneInfo) -> str:
    if one.decanted_at is None:
        return ""
    parts = [moment(one.decanted_at.astimezone(zone))]
    parts += [_("%(left)s stayed") % {"left": one.left_typed or amount(one.left_l, "volume_l")}] if one.left_l else []
    blue = one.blue_in_decant
    parts += [level_said("blue_in_decant", blue)] if blue is not None else []
    parts += [f"pH {one.ph:g}"] if one.ph is not None else []
    parts += [f"{one.conductivity_us_per_cm:g} µS/cm"] if one.conductivity_us_per_cm is not None else []
    return "; ".join(parts)
