"""The checklist at the vat: which strips go in with each dip, which come out for good, and the clock beside it.

All its steps are told at once, so that a browser without a network goes on from one to the next.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.journal.models import Ladder, LadderDip
from bluewright.journal.queries.ladders import dips_done, open_dip
from bluewright.web.ui.clock import Clock, clock_of
from bluewright.words.cloth import AFTER_DIPS, FINISHES
from bluewright.words.numbers import clock, figure, moment


@dataclass(frozen=True, slots=True, kw_only=True)
class DipRow:
    """One dip that was done."""

    key: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """What is to be done at one point of the ladder."""

    name: str
    """`in-3` before the third dip, `out-3` while it lasts, `end` after the last."""
    to_do: str
    then: str
    done: str
    """Which strips hang apart by now; empty while none does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AtTheVat:
    """The checklist of a ladder."""

    key: str
    name: str
    now: str
    """The name of the step that it is at."""
    steps: tuple[Step, ...]
    said: str
    """Since when they are where they are, and until when, in a sentence."""
    clock: Clock
    dips: tuple[DipRow, ...]


def at_the_vat(row: Ladder, *, now: datetime) -> AtTheVat:
    """The page of the checklist."""
    zone, over, inside = ZoneInfo(row.garden.time_zone), dips_done(row), open_dip(row)
    wanted = sorted(rung.dips for rung in row.rungs.all())
    number = len(over) + 1
    at = "end" if number > max(wanted, default=0) else f"in-{number}"
    out = over[-1].ended_at if over else None
    return AtTheVat(
        key=str(row.pk), name=row.name, now=at if inside is None else f"out-{number}",
        steps=tuple(_steps(row, wanted, last=max([*wanted, 0 if inside is None else number]))),
        said=_said(row, inside, None if at == "end" else out, zone),
        clock=clock_of(row, list(row.dips.all()), out=None if at == "end" else out, now=now),
        dips=tuple(_dip(dip, place, zone) for place, dip in enumerate(row.dips.all(), start=1)),
    )  # fmt: skip


def _steps(row: Ladder, wanted: Sequence[int], *, last: int) -> Iterator[Step]:
    """All that is to be done up to a last dip, and at the end."""
    for number in range(1, last + 1):
        apart = _apart([dips for dips in wanted if dips < number])
        yield Step(name=f"in-{number}", done=apart, **_goes_in(row, wanted, number))
        yield Step(name=f"out-{number}", done=apart, **_in_the_vat(row, wanted, number))
    to_do, then = _all_done(row, wanted)
    yield Step(name="end", to_do=to_do, then=then, done="")


def _apart(dips: Sequence[int]) -> str:
    return _("Done, hanging apart: %(strips)s.") % {"strips": marks(dips)} if dips else ""


def _goes_in(row: Ladder, wanted: Sequence[int], number: int) -> dict[str, str]:
    going = [dips for dips in wanted if dips >= number]
    told = {"dip": number, "strips": marks(going), "many": len(going), "minutes": figure(row.dip_min)}
    then = _("They stay for %(minutes)s minutes.") % told
    if number == 1:
        first = _("Mark each strip with its number of dips, wet them out, squeeze them: all %(many)d go in.")
        return {"to_do": first % told, "then": then}
    to_do = ngettext(
        "Dip %(dip)d: the strip marked %(strips)s goes in.", "Dip %(dip)d: the strips marked %(strips)s go in.",
        len(going),
    )  # fmt: skip
    return {"to_do": to_do % told, "then": then}


def _in_the_vat(row: Ladder, wanted: Sequence[int], number: int) -> dict[str, str]:
    ready, further = [dips for dips in wanted if dips == number], [dips for dips in wanted if dips > number]
    told = {
        "dip": number, "after": _(AFTER_DIPS[row.after_dip]), "ready": marks(ready), "further": marks(further),  # type: ignore[index]
        "minutes": figure(row.dip_min), "air": figure(row.air_min),
    }  # fmt: skip
    to_do = _("Dip %(dip)d: out after %(minutes)s minutes, %(after)s.") % told
    then = []
    if ready:
        then.append(
            ngettext(
                "The strip marked %(ready)s is done: hang it apart.",
                "Those marked %(ready)s are done: hang them apart.", len(ready),
            )
            % told
        )  # fmt: skip
    if further:
        then.append(
            ngettext(
                "The strip marked %(further)s hangs for %(air)s minutes, then it goes in again.",
                "The strips marked %(further)s hang for %(air)s minutes, then they go in again.", len(further),
            )
            % told
        )  # fmt: skip
    return {"to_do": to_do, "then": " ".join(then)}


def _all_done(row: Ladder, wanted: Sequence[int]) -> tuple[str, str]:
    if not wanted:
        return _("It has no strips yet."), _("Add one on its page.")
    told = {"finish": _(FINISHES[row.finish])}  # type: ignore[index]
    then = _("At the end: %(finish)s. Let them dry, weigh them as before, and take one photo of all with your card.")
    return _("All dips are done."), then % told


def _said(row: Ladder, inside: LadderDip | None, out: datetime | None, zone: ZoneInfo) -> str:
    if inside is not None:
        due = inside.began_at + timedelta(minutes=row.dip_min)
        told = {"since": moment(inside.began_at.astimezone(zone)), "out": clock(due.astimezone(zone))}
        return _("In the vat since %(since)s; out at %(out)s.") % told
    if out is None:
        return ""
    due = out + timedelta(minutes=row.air_min)
    told = {"since": moment(out.astimezone(zone)), "from": clock(due.astimezone(zone))}
    return _("They hang in the air since %(since)s; next dip from %(from)s.") % told


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
