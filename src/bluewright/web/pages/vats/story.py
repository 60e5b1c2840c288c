"""The story of a vat on one line of time: what went in, what was seen, what was dyed in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal
from uuid import UUID
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.models import Dip, Vat, VatAddition, VatPoured, VatReading
from bluewright.journal.queries.history import Step
from bluewright.science.base.bands import NINETY_Z, Band
from bluewright.web.ui.history import HistoryRow, history
from bluewright.words.numbers import figure, moment, percent, ranged
from bluewright.words.signs import VatSign, seen_said


@dataclass(frozen=True, slots=True, kw_only=True)
class StoryRow:
    """One thing that happened to a vat."""

    kind: Literal["addition", "water", "heel", "look", "dip"]
    key: str
    """Of the row; of a dip that of its piece."""
    source: str
    """Of a heel the key of the vat that it came from; else empty."""
    when: str
    said: str
    note: str
    history: tuple[HistoryRow, ...]


def story(vat: Vat, *, zone: ZoneInfo, steps: Mapping[UUID, Sequence[Step]]) -> tuple[StoryRow, ...]:
    """All of it, the newest first; what was changed stands by the key of its row."""
    found = sorted(_all(vat, zone, steps), key=lambda one: one[0], reverse=True)
    return tuple(row for _at, row in found)


def addition_said(row: VatAddition) -> str:
    """`60 g of indigo powder out of Jar 3`."""
    told = {"mass": row.mass_typed, "what": row.get_what_display()}
    if row.taken is not None:
        return _("%(mass)s of %(what)s out of %(jar)s") % (told | {"jar": row.taken.jar.name})
    if row.purity_frac is not None:
        return _("%(mass)s of %(what)s, %(share)s indigo") % (told | {"share": percent(row.purity_frac)})
    return _("%(mass)s of %(what)s") % told


def poured_said(row: VatPoured) -> str:
    """`5 L of water`, `10 L out of Vat 3, with 4.2 g of pure indigo (3.1 to 5.3)`."""
    if row.source is None:
        return _("%(litres)s of water") % {"litres": row.volume_typed}
    spread = NINETY_Z * row.pure_sd_g
    pure = Band(p5=max(row.pure_g - spread, 0.0), p50=row.pure_g, p95=row.pure_g + spread)
    told = {"litres": row.volume_typed, "vat": row.source.name, "pure": ranged(pure, "g")}
    if row.volume_l:
        return _("%(litres)s out of %(vat)s, with %(pure)s of pure indigo") % told
    return _("the sediment of %(vat)s, with %(pure)s of pure indigo") % told


def look_said(row: VatReading) -> str:
    """What was read and seen in one look."""
    signs: tuple[VatSign, ...] = ("liquor_look", "film", "grains_seen")
    parts = [_("vat %(temp)s") % {"temp": row.temp_typed}] if row.temp_c is not None else []
    parts += [f"pH {row.ph:g}"] if row.ph is not None else []
    if row.potential_mv is not None:
        told = {"mv": f"{row.potential_mv:g}", "electrode": row.get_electrode_display()}
        parts.append(_("%(mv)s mV (%(electrode)s)") % told)
    if row.strip_s is not None:
        parts.append(_("a strip turned blue in %(seconds)s s") % {"seconds": figure(row.strip_s)})
    parts += [seen_said(name, level) for name in signs if (level := getattr(row, name)) is not None]
    return "; ".join(parts)


def _all(vat: Vat, zone: ZoneInfo, steps: Mapping[UUID, Sequence[Step]]) -> Iterator[tuple[datetime, StoryRow]]:
    for addition in vat.additions.all():
        yield addition.added_at, StoryRow(
            kind="addition", key=str(addition.pk), source="", when=moment(addition.added_at.astimezone(zone)),
            said=addition_said(addition), note=addition.note,
            history=history(addition, steps.get(addition.pk, ()), zone),
        )  # fmt: skip
    for poured in vat.poured.all():
        yield poured.poured_at, StoryRow(
            kind="water" if poured.source is None else "heel", key=str(poured.pk),
            source="" if poured.source is None else str(poured.source.pk),
            when=moment(poured.poured_at.astimezone(zone)), said=poured_said(poured), note=poured.note,
            history=history(poured, steps.get(poured.pk, ()), zone),
        )  # fmt: skip
    for look in vat.readings.all():
        yield look.taken_at, StoryRow(
            kind="look", key=str(look.pk), source="", when=moment(look.taken_at.astimezone(zone)), said=look_said(look),
            note=look.note, history=history(look, steps.get(look.pk, ()), zone),
        )  # fmt: skip
    yield from _dips(vat.dips.all(), zone)


def _dips(dips: Iterable[Dip], zone: ZoneInfo) -> Iterator[tuple[datetime, StoryRow]]:
    for dip in dips:
        told = {"piece": dip.piece.name, "mass": dip.piece.mass_typed, "fibre": dip.piece.get_fibre_display()}
        if dip.ended_at is None:
            said = _("%(piece)s (%(mass)s of %(fibre)s) went in, and is in it") % told
        else:
            told["minutes"] = figure((dip.ended_at - dip.began_at).total_seconds() / 60)
            said = _("%(piece)s (%(mass)s of %(fibre)s) was in it for %(minutes)s min") % told
        yield dip.began_at, StoryRow(
            kind="dip", key=str(dip.piece_id), source="", when=moment(dip.began_at.astimezone(zone)), said=said,
            note=dip.note, history=(),
        )  # fmt: skip
