"""What the pages of cloth show: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.journal.bridge.swatches import lab
from bluewright.journal.models import Dip, HomeTest, Photo, Piece, Swatch
from bluewright.journal.queries.history import Step
from bluewright.journal.queries.pieces import dips_of, stage_of
from bluewright.science.base.bands import NINETY_Z, Band
from bluewright.science.colour.hues import hue_of, shade_of
from bluewright.science.dyeing.gain import Gain, gain
from bluewright.science.media.cloth import dry_kg
from bluewright.web.pages.cloth.colours import Patch, ground, patch
from bluewright.web.pages.cloth.expected import Expected, expected
from bluewright.web.pages.cloth.next import NextThing, next_thing
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.photos import Thumb, thumbs
from bluewright.web.ui.turning import Linked
from bluewright.words.colour import grade_said, lab_said, named
from bluewright.words.measures import fitting
from bluewright.words.numbers import clock, figure, moment, ranged


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceRow:
    """One piece at a glance."""

    key: str
    name: str
    facts: str
    """`wool, 480 g; 3 of 5 dips`."""
    patch: Patch
    next: str
    """What comes next; empty where nothing does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecesPage:
    """All pieces, the newest first."""

    pieces: tuple[PieceRow, ...]
    pages: tuple[Linked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One thing on the time line of a piece."""

    kind: str
    """`begun`, `scour`, `dip`, `finish`, `test` or `swatch`."""
    key: str
    """Of the row that it is; of the piece where it has none."""
    when: str
    said: str
    note: str
    page: str
    """Where it is found; empty where that is here."""
    history: tuple[HistoryRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecePage:
    """One piece."""

    row: PieceRow
    next: NextThing | None
    undyed: bool
    """It was in no vat yet and is not finished: the jars can be asked for it."""
    expected: Expected | None
    """What it is likely to come to; None without a vat to dye it in."""
    figures: tuple[tuple[str, str], ...]
    """Each with its name."""
    ground: Patch
    story: tuple[Event, ...]
    tests: tuple[Event, ...]
    note: str
    photos: tuple[Thumb, ...]
    written: str
    history: tuple[HistoryRow, ...]


def pieces_page(rows: Sequence[Piece], *, now: datetime, pages: tuple[Linked, ...]) -> PiecesPage:
    """The list."""
    return PiecesPage(pieces=tuple(piece_row(row, now) for row in rows), pages=pages)


def piece_row(row: Piece, now: datetime) -> PieceRow:
    """A piece at a glance."""
    found = next_thing(row, now)
    return PieceRow(
        key=str(row.pk), name=row.name, facts=facts(row), patch=patch(row), next="" if found is None else found.what
    )


def facts(row: Piece) -> str:
    """`wool, 480 g; 3 of 5 dips`."""
    return f"{row.get_fibre_display()}, {row.mass_typed}; {dips_said(len(dips_of(row)), row.wanted_dips)}"


def dips_said(done: int, wanted: int | None) -> str:
    """`3 of 5 dips`, `3 dips`."""
    if wanted is None or done > wanted:
        return ngettext("%(n)d dip", "%(n)d dips", done) % {"n": done}
    return ngettext("%(n)d of %(of)d dip", "%(n)d of %(of)d dips", wanted) % {"n": done, "of": wanted}


def piece_page(
    row: Piece, *, now: datetime, photos: Mapping[UUID, Sequence[Photo]], told: Mapping[UUID, Sequence[Step]]
) -> PiecePage:
    """The page of one piece."""
    zone = ZoneInfo(row.garden.time_zone)
    return PiecePage(
        row=piece_row(row, now),
        next=next_thing(row, now),
        undyed=stage_of(row) in {"begun", "scoured"},
        expected=expected(row, now),
        figures=tuple(figures(row)),
        ground=ground(row),
        story=tuple(story(row, zone, told)),
        tests=tuple(test_event(one, zone, told) for one in row.home_tests.all()),
        note=row.note,
        photos=thumbs(photos.get(row.pk, ())),
        written=written(row, zone),
        history=history(row, told.get(row.pk, ()), zone),
    )


def figures(row: Piece) -> Iterator[tuple[str, str]]:
    """What is known of it in figures."""
    fibre: Any = row.fibre
    basis: Any = row.basis
    yield _("mass before the vat"), f"{row.mass_typed}, {row.get_basis_display()}"
    if row.basis != "dry":
        yield _("bone dry, about"), fitting(1000 * dry_kg(row.mass_g / 1000, fibre=fibre), "mass_g")
    if row.wanted_dips is not None:
        yield _("dips wanted"), str(row.wanted_dips)
    yield _("each dip"), _("%(in)s min in the vat, %(air)s min in the air; %(after)s") % {
        "in": figure(row.dip_min), "air": figure(row.air_min), "after": row.get_after_dip_display(),
    }  # fmt: skip
    if row.thickness_typed:
        yield _("thickness"), f"{row.thickness_typed}, {row.get_body_display()}"
    if row.after_g is not None:
        yield _("mass after it"), row.after_typed
        found = gain(row.mass_g, row.after_g, fibre=fibre, basis=basis, scale_sd_g=row.scale_sd_g)
        yield _("what it took up"), _gain(found, own_scale=row.scale_sd_g is not None)


def story(row: Piece, zone: ZoneInfo, told: Mapping[UUID, Sequence[Step]]) -> list[Event]:
    """All that was done with it, the first thing first."""
    events: list[tuple[datetime, Event]] = [(row.begun_at, _event(row, "begun", row.begun_at, _("came into the book")))]
    if row.scoured_at is not None:
        said = _("scoured: %(how)s") % {"how": row.get_scour_display()}
        events.append((row.scoured_at, _event(row, "scour", row.scoured_at, said)))
    for number, dip in enumerate(dips_of(row), start=1):
        events.append((dip.began_at, _dip_event(dip, number, zone, told)))
    if row.finished_at is not None:
        said = _("finished: %(how)s") % {"how": row.get_finish_display()}
        events.append((row.finished_at, _event(row, "finish", row.finished_at, said)))
    for swatch in row.swatches.all():
        events.append((swatch.measured_at, _swatch_event(swatch, zone)))
    return [event for _when, event in sorted(events, key=lambda one: one[0])]


def test_event(row: HomeTest, zone: ZoneInfo, told: Mapping[UUID, Sequence[Step]]) -> Event:
    """A home test in words."""
    parts = [str(row.get_kind_display()), test_grade(row), row.how]
    return Event(
        kind="test", key=str(row.pk), when=moment(row.done_at.astimezone(zone)),
        said="; ".join(part for part in parts if part), note=row.note, page="",
        history=history(row, told.get(row.pk, ()), zone),
    )  # fmt: skip


def test_grade(row: HomeTest) -> str:
    """`grade 3-4 by eye`; empty where none was told."""
    if row.grade is None:
        return ""
    off = NINETY_Z * (row.grade_sd or 0.0)
    band = Band(p5=max(row.grade - off, 1.0), p50=row.grade, p95=min(row.grade + off, 5.0))
    if row.measured_key is None:
        return _("grade %(grade)s by eye") % {"grade": grade_said(Band(p5=row.grade, p50=row.grade, p95=row.grade))}
    return _("grade %(grade)s by photo, CIEDE2000 %(off)s") % {
        "grade": grade_said(band), "off": figure(row.off_de or 0.0),
    }  # fmt: skip


def _event(row: Piece, kind: str, when: datetime, said: str) -> Event:
    told = moment(when.astimezone(ZoneInfo(row.garden.time_zone)))
    return Event(kind=kind, key=str(row.pk), when=told, said=said, note="", page="", history=())


def _dip_event(dip: Dip, number: int, zone: ZoneInfo, told: Mapping[UUID, Sequence[Step]]) -> Event:
    return Event(
        kind="dip", key=str(dip.pk), when=moment(dip.began_at.astimezone(zone)), said=dip_said(dip, number, zone),
        note=dip.note, page="", history=history(dip, told.get(dip.pk, ()), zone),
    )  # fmt: skip


def dip_said(dip: Dip, number: int, zone: ZoneInfo) -> str:
    """`dip 2 in Vat 1: 5 min, out at 14:10`."""
    words = {"number": number, "vat": dip.vat.name}
    if dip.ended_at is None:
        return _("dip %(number)d in %(vat)s: it is in it now") % words
    minutes = (dip.ended_at - dip.began_at).total_seconds() / 60
    told = words | {"minutes": figure(minutes), "out": clock(dip.ended_at.astimezone(zone))}
    return _("dip %(number)d in %(vat)s: %(minutes)s min, out at %(out)s") % told


def _swatch_event(swatch: Swatch, zone: ZoneInfo) -> Event:
    told = lab(swatch)
    said = _("%(name)s measured: %(colour)s, %(lab)s") % {
        "name": swatch.name, "colour": named(hue_of(told), shade_of(told)), "lab": lab_said(told),
    }  # fmt: skip
    return Event(
        kind="swatch", key=str(swatch.pk), when=moment(swatch.measured_at.astimezone(zone)), said=said,
        note=swatch.note, page=reverse("swatches.show", kwargs={"key": swatch.pk}), history=(),
    )  # fmt: skip


def _gain(found: Gain, *, own_scale: bool) -> str:
    """What two weighings tell, and which of scale and water leaves more of it open."""
    told = {
        "gain": ranged(found.gain_g, "g"), "scale": figure(found.scale_off_g), "water": figure(found.water_off_g)
    }  # fmt: skip
    said = _("%(gain)s") if found.gain_g.p5 > 0.0 else _("%(gain)s: less than scale and weather can tell")
    if found.water_off_g > found.scale_off_g:
        why = _("The water in it leaves ±%(water)s g open, the scale ±%(scale)s g: a finer scale would not help.")
    elif own_scale:
        why = _("The scale leaves ±%(scale)s g of it open, the water in it ±%(water)s g.")
    else:
        why = _("A usual kitchen scale leaves ±%(scale)s g of it open: say what yours tells apart.")
    return _("%(gain)s. %(why)s") % {"gain": said % told, "why": why % told}
