"""The checklist at the vat: which strips go in now, which come out for good, and until when."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.journal.models import Ladder, LadderDip
from bluewright.journal.queries.ladders import dips_done, open_dip
from bluewright.words.cloth import AFTER_DIPS, FINISHES
from bluewright.words.numbers import clock, figure, moment


@dataclass(frozen=True, slots=True, kw_only=True)
class DipRow:
    """One dip that was done."""

    key: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StripNow:
    """Where one strip is."""

    dips: int
    said: str
    """`in the vat`, `goes in`, `done`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AtTheVat:
    """The checklist of a ladder."""

    key: str
    name: str
    to_do: str
    """What is to be done now, in one sentence."""
    then: str
    """What comes after it."""
    clock: str
    """Until when, by the garden's clock; empty where nothing waits."""
    due_ms: int | None
    """The same, by this machine's clock."""
    now_ms: int
    button: str
    """`in` or `out`: what can be pressed; empty when all dips are done."""
    strips: tuple[StripNow, ...]
    dips: tuple[DipRow, ...]


def at_the_vat(row: Ladder, *, now: datetime) -> AtTheVat:
    """The page of the checklist."""
    zone, over, inside = ZoneInfo(row.garden.time_zone), dips_done(row), open_dip(row)
    wanted = sorted(rung.dips for rung in row.rungs.all())
    number = len(over) + 1
    due = _due(row, over, inside)
    if inside is not None:
        to_do, then, button = _in_the_vat(row, wanted, number, due, zone)
    elif any(dips >= number for dips in wanted):
        to_do, then, button = _goes_in(row, wanted, number, over, due, zone)
    else:
        to_do, then, button = *_all_done(row, wanted), ""
    return AtTheVat(
        key=str(row.pk), name=row.name, to_do=to_do, then=then, button=button,
        clock=clock(due.astimezone(zone)) if due is not None and button else "",
        due_ms=round(1000 * due.timestamp()) if due is not None and button else None,
        now_ms=round(1000 * now.timestamp()),
        strips=tuple(StripNow(dips=dips, said=_where(dips, number, inside)) for dips in wanted),
        dips=tuple(_dip(dip, place, zone) for place, dip in enumerate(row.dips.all(), start=1)),
    )  # fmt: skip


def _due(row: Ladder, over: Sequence[LadderDip], inside: LadderDip | None) -> datetime | None:
    """When the strips are to come out, or may go in again."""
    if inside is not None:
        return inside.began_at + timedelta(minutes=row.dip_min)
    last = over[-1].ended_at if over else None
    return None if last is None else last + timedelta(minutes=row.air_min)


def _goes_in(
    row: Ladder, wanted: Sequence[int], number: int, over: Sequence[LadderDip], due: datetime | None, zone: ZoneInfo
) -> tuple[str, str, str]:
    going = [dips for dips in wanted if dips >= number]
    told = {
        "dip": number, "strips": marks(going), "many": len(going), "minutes": figure(row.dip_min),
        "from": "" if due is None else clock(due.astimezone(zone)),
    }  # fmt: skip
    if not over:
        first = _("Mark each strip with its number of dips, wet them out, squeeze them: all %(many)d go in.")
        return first % told, _("They stay for %(minutes)s minutes.") % told, "in"
    to_do = (
        ngettext(
            "Dip %(dip)d, from %(from)s on: the strip marked %(strips)s goes in.",
            "Dip %(dip)d, from %(from)s on: the strips marked %(strips)s go in.",
            len(going),
        )
        % told
    )
    return to_do, _("They stay for %(minutes)s minutes.") % told, "in"


def _in_the_vat(
    row: Ladder, wanted: Sequence[int], number: int, due: datetime | None, zone: ZoneInfo
) -> tuple[str, str, str]:
    ready, further = [dips for dips in wanted if dips == number], [dips for dips in wanted if dips > number]
    told = {
        "out": "" if due is None else clock(due.astimezone(zone)), "after": _(AFTER_DIPS[row.after_dip]),  # type: ignore[index]
        "ready": marks(ready), "further": marks(further), "air": figure(row.air_min),
    }  # fmt: skip
    to_do = _("Take them out at %(out)s: %(after)s.") % told
    then = []
    if ready:
        then.append(
            ngettext(
                "The strip marked %(ready)s is done: hang it apart.",
                "Those marked %(ready)s are done: hang them apart.",
                len(ready),
            )
            % told
        )
    if further:
        then.append(
            ngettext(
                "The strip marked %(further)s hangs for %(air)s minutes, then it goes in again.",
                "The strips marked %(further)s hang for %(air)s minutes, then they go in again.",
                len(further),
            )
            % told
        )
    return to_do, " ".join(then), "out"


def _all_done(row: Ladder, wanted: Sequence[int]) -> tuple[str, str]:
    if not wanted:
        return _("It has no strips yet."), _("Add one on its page.")
    told = {"finish": _(FINISHES[row.finish])}  # type: ignore[index]
    then = _("At the end: %(finish)s. Let them dry, weigh them as before, and take one photo of all with your card.")
    return _("All dips are done."), then % told


def _where(dips: int, number: int, inside: LadderDip | None) -> str:
    if dips < number:
        return _("done")
    if inside is not None:
        return _("in the vat")
    return _("goes in") if number == 1 else _("hangs, then goes in again")


def _dip(dip: LadderDip, number: int, zone: ZoneInfo) -> DipRow:
    told = {"number": number, "when": moment(dip.began_at.astimezone(zone))}
    if dip.ended_at is None:
        return DipRow(key=str(dip.pk), said=_("Dip %(number)d, %(when)s: in the vat now") % told)
    minutes = (dip.ended_at - dip.began_at).total_seconds() / 60
    said = _("Dip %(number)d, %(when)s: %(minutes)s minutes") % (told | {"minutes": f"{minutes:.1f}"})
    return DipRow(key=str(dip.pk), said=said)


def marks(dips: Sequence[int]) -> str:
    """`1, 2, 4`, each once."""
    return ", ".join(str(one) for one in sorted(set(dips)))
