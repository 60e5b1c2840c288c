"""What the airing page of a batch shows: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from bluewright.charts.answers import air_chart
from bluewright.journal.models import Airing, Batch, JarLook, LiquorLook
from bluewright.journal.models.airing import WAYS
from bluewright.science.air.answer import AirAnswer
from bluewright.web.pages.airing.forms import counted
from bluewright.web.pages.batches.head import BatchHead, batch_head
from bluewright.web.pages.jarlooks.page import jar_page
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.why import main_why
from bluewright.web.ui.why_view import why_address
from bluewright.words import numbers
from bluewright.words.air import said
from bluewright.words.jar_look import dye_index_said
from bluewright.words.measures import amount
from bluewright.words.numbers import moment
from bluewright.words.signs import level_said, seen_said

END: Final = gettext_lazy(
    "It is done when the foam is %(foam)s, and a drop on white paper shows %(liquor)s. "
    "An oxygen meter then climbs and stays."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class WayLink:
    """A way of airing to be chosen."""

    way: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Counter:
    """The airing under way, with what was counted of it."""

    key: str
    way: str
    counts_pours: bool
    pours: int
    minutes: float
    before_pours: int
    """Pours of earlier airings of the same way."""
    before_min: float
    saved: str
    """When the server's copy was last written, `14:05`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AiringRow:
    """One airing in the story."""

    key: str
    when: str
    said: str
    note: str
    ended: str
    """When it was taken for done; empty while it goes on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookRow:
    """One look at the liquor."""

    key: str
    when: str
    said: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AiringPage:
    """The airing of one batch."""

    head: BatchHead
    needs_temp: bool
    """Whether the liquor's temperature must be asked for before anything can be said."""
    counter: Counter | None
    """None before the first airing and once it is done."""
    done: AiringRow | None
    """The airing that was taken for done, where nothing was begun since."""
    alkali: str
    """What is missing before air: alkali; empty where some is in."""
    answer: Answered | None
    trouble: str
    end_point: str
    ways: tuple[WayLink, ...]
    airings: tuple[AiringRow, ...]
    looks: tuple[LookRow, ...]
    jars: Answered | None
    """What the jars of this batch say, with their course; None where none was photographed."""


def airing_page(
    batch: Batch,
    *,
    answer: AirAnswer | None,
    needs_temp: bool,
    trouble: str = "",
    jars: Sequence[JarLook] = (),
) -> AiringPage:
    """The page of a batch's airing, given its answer and its looks at jars."""
    zone = ZoneInfo(batch.garden.time_zone)
    rows = list(batch.airings.all())
    now = rows[0] if rows else None
    return AiringPage(
        head=batch_head(batch),
        needs_temp=needs_temp,
        counter=_counter(batch, now, zone) if now is not None and now.ended_at is None else None,
        done=_airing_row(now, zone) if now is not None and now.ended_at is not None else None,
        alkali=_missing_alkali(batch),
        answer=_answered(batch, answer) if answer is not None else None,
        trouble=trouble,
        end_point=END % {"foam": level_said("foam", 3), "liquor": level_said("liquor", 3)},
        ways=tuple(WayLink(way=way, words=str(words)) for way, words in WAYS),
        airings=tuple(_airing_row(row, zone) for row in rows),
        looks=tuple(look_row(look, zone) for look in reversed(list(batch.looks.all()))),
        jars=jar_page(batch, jars).answer,
    )


def _answered(batch: Batch, answer: AirAnswer) -> Answered:
    found = said(answer)
    why = main_why(answer, address=why_address("airing.why", key=batch.pk))
    return answered(found, chart=air_chart(answer, answer=found.first), why=why)


def clock(time: datetime, zone: ZoneInfo) -> str:
    """`14:05` by the garden's clock."""
    return numbers.clock(time.astimezone(zone))


def _missing_alkali(batch: Batch) -> str:
    """Liquor of another batch brought its alkali along."""
    if batch.alkali_parts.all() or any(part.batch_id for part in batch.came_from.all()):
        return ""
    return _("No alkali is written down yet: without it the blue hardly forms.")


def _counter(batch: Batch, row: Airing, zone: ZoneInfo) -> Counter:
    whole = counted(batch)
    assert whole is not None
    pours, minutes = row.done_pours or 0, row.done_min or 0.0
    return Counter(
        key=str(row.pk),
        way=row.get_way_display(),
        counts_pours=row.way == "pour",
        pours=pours,
        minutes=round(minutes, 2),
        before_pours=(whole.pours or 0) - pours if row.way == "pour" else 0,
        before_min=round(whole.minutes - minutes, 2),
        saved=clock(row.changed_at, zone),
    )


def _airing_row(row: Airing, zone: ZoneInfo) -> AiringRow:
    counts = [pours_said(row.done_pours)] if row.done_pours else []
    counts += [minutes_said(row.done_min)] if row.done_min else []
    width = [_("vessel %(width)s wide") % {"width": row.vessel_typed}] if row.vessel_typed else []
    pump = [_("%(air)s L of air a minute") % {"air": f"{row.air_l_per_min:g}"}] if row.air_l_per_min else []
    parts = [row.get_way_display(), *filter(None, [_poured(row)]), *pump, *width, *counts]
    return AiringRow(
        key=str(row.pk),
        when=moment(row.started_at.astimezone(zone)),
        said=", ".join(parts),
        note=row.note,
        ended=moment(row.ended_at.astimezone(zone)) if row.ended_at else "",
    )


def _poured(row: Airing) -> str:
    """How much at a time and from which height, as far as it is known."""
    told = {"amount": row.pour_typed, "height": row.height_typed}
    if row.pour_typed and row.height_typed:
        return _("%(amount)s from %(height)s") % told
    return _("from %(height)s") % told if row.height_typed else row.pour_typed


def pours_said(pours: int) -> str:
    """`1 pour`, `20 pours`."""
    return ngettext("%(n)d pour", "%(n)d pours", pours) % {"n": pours}


def minutes_said(minutes: float) -> str:
    """`1 minute`, `13 minutes`."""
    return ngettext("%(n)d minute", "%(n)d minutes", round(minutes)) % {"n": round(minutes)}


def look_row(look: LiquorLook, zone: ZoneInfo) -> LookRow:
    """One look in words."""
    counts = [pours_said(look.after_pours)] if look.after_pours is not None else []
    counts += [minutes_said(look.after_min)] if look.after_min else []
    parts = [_("after %(counts)s") % {"counts": "; ".join(counts)}] if counts else []
    parts += [seen_said("foam", look.foam)] if look.foam is not None else []
    parts += [_("liquor: %(level)s") % {"level": level_said("liquor", look.liquor)}] if look.liquor is not None else []
    oxygen = look.dissolved_oxygen_mg_l
    parts += [_("oxygen %(o2)s mg/L") % {"o2": f"{oxygen:g}"}] if oxygen is not None else []
    parts += [dye_index_said(look.dye_index)] if look.dye_index is not None else []
    parts += [f"pH {look.ph:g}"] if look.ph is not None else []
    parts += [look.temp_typed or amount(look.temp_c, "temp_c")] if look.temp_c is not None else []
    return LookRow(key=str(look.pk), when=moment(look.taken_at.astimezone(zone)), said="; ".join(parts), note=look.note)
