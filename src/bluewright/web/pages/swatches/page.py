"""What the pages of swatches show: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final
from uuid import UUID
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.charts.ab_plane import MOST_CHIPS, AbPlane, ab_plane
from bluewright.charts.colour_answers import difference_chart
from bluewright.charts.colours import Chip, hex_of_lab
from bluewright.charts.depth_ladder import DepthLadder, Rung, depth_ladder
from bluewright.charts.inputs import Span
from bluewright.journal.bridge.swatches import ground, lab, lab_sd, told
from bluewright.journal.models import Measured, Swatch
from bluewright.journal.queries.history import Step
from bluewright.science.colour.compare_record import CompareAnswer, ToldColour
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.photos import Thumb
from bluewright.web.ui.turning import Linked
from bluewright.words import colour as words
from bluewright.words.numbers import figure, moment, ranged
from bluewright.words.own_text import own_text

MOST_LADDERS: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class SwatchRow:
    """One swatch at a glance."""

    key: str
    name: str
    colour: str
    """As a screen shows it, `#a1b2c3`."""
    said: str
    """`deep blue, h 266°`."""
    lab: str
    depth: str
    facts: str
    """What it is, of which fibre, how many dips, from which jar."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SwatchesPage:
    """The library."""

    swatches: tuple[SwatchRow, ...]
    named: str
    """What every Lab is told for."""
    plane: str
    """SVG text; empty without swatches."""
    ladders: tuple[str, ...]
    """One for each fibre that has several swatches with dips; SVG text."""
    pages: tuple[Linked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """A swatch that is like another."""

    name: str
    colour: str
    said: str
    to: str
    """The page of both."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SwatchPage:
    """One swatch."""

    row: SwatchRow
    facts: tuple[tuple[str, str], ...]
    """What is known of it, each with its name."""
    jar: str
    jar_page: str
    """Address of its jar; empty where none is known."""
    piece: str
    piece_page: str
    """Address of the piece that it is of; empty where none is known."""
    measured: str
    """Address of the photo with the boxes that its colour was measured in; empty where there is none."""
    recipe: str
    note: str
    near: tuple[Near, ...]
    photos: tuple[Thumb, ...]
    written: str
    history: tuple[HistoryRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparePage:
    """Two swatches beside each other."""

    key: str
    other: str
    answer: str
    lines: tuple[str, ...]
    chart: str
    standard: SwatchRow
    sample: SwatchRow
    named: str
    """What both Labs are told for."""
    figures: tuple[tuple[str, str, str], ...]
    """Name, value in words, and the path of the figure."""
    to_know: tuple[str, ...]


def swatches_page(rows: Sequence[Swatch], *, pages: tuple[Linked, ...] = ()) -> SwatchesPage:
    """The library, lightest first within a page, with its charts."""
    both = sorted(((row, told(row)) for row in rows), key=lambda one: -one[0].l_star)
    return SwatchesPage(
        swatches=tuple(swatch_row(row, colour) for row, colour in both),
        named=words.lab_named(),
        plane=_plane(both[:MOST_CHIPS]) if both else "",
        ladders=tuple(_ladders(both)),
        pages=pages,
    )


def swatch_page(
    row: Swatch, *, near: Iterable[tuple[Swatch, float]], steps: Sequence[Step], photos: tuple[Thumb, ...],
    measured: Mapping[UUID, Measured],
) -> SwatchPage:  # fmt: skip
    """The page of one swatch."""
    zone, found = ZoneInfo(row.garden.time_zone), told(row)
    stands = row.jar is not None and row.jar.deleted_at is None
    of_piece = row.piece is not None and row.piece.deleted_at is None
    return SwatchPage(
        row=swatch_row(row, found),
        facts=tuple(_facts(row, found, zone)),
        jar=row.jar.name if row.jar is not None and stands else "",
        jar_page=reverse("jars.show", kwargs={"key": row.jar_id}) if stands else "",
        piece=row.piece.name if row.piece is not None and of_piece else "",
        piece_page=reverse("cloth.show", kwargs={"key": row.piece_id}) if of_piece else "",
        measured=_measured_page(row, measured),
        recipe=row.recipe,
        note=row.note,
        near=tuple(_near(row, other, far) for other, far in near),
        photos=photos,
        written=written(row, zone),
        history=history(row, steps, zone),
    )


def _measured_page(row: Swatch, measured: Mapping[UUID, Measured]) -> str:
    return reverse("measured.show", kwargs={"key": row.measured_key}) if row.measured_key in measured else ""


def compare_page(standard: Swatch, sample: Swatch, found: CompareAnswer) -> ComparePage:
    """The page of two swatches."""
    said, difference = words.compared(found), found.against[0]
    one, two = (swatch_row(row, colour) for row, colour in zip((standard, sample), found.colours, strict=True))
    figures = [
        (_("how different, CIEDE2000"), ranged(difference.de00, ""), "against.0.de00"),
        ("CIE76", figure(difference.de76), "against.0.de76"),
        ("CMC(2:1)", figure(difference.cmc_2_1), "against.0.cmc_2_1"),
        (_("grade of change (estimate, no test report)"), words.grade_said(difference.change_grade),
         "against.0.change_grade"),
    ]  # fmt: skip
    if difference.depth_factor is not None:
        figures.insert(1, (_("times as deep"), ranged(difference.depth_factor, ""), "against.0.depth_factor"))
    if difference.stain_grade is not None:
        name = _("grade of staining (estimate, no test report)")
        figures.append((name, words.grade_said(difference.stain_grade), "against.0.stain_grade"))
    return ComparePage(
        key=str(standard.pk),
        other=str(sample.pk),
        answer=said.first,
        lines=(_size(found),),
        chart=difference_chart(found, answer=said.first),
        standard=one,
        sample=two,
        named=words.lab_named(),
        figures=tuple(figures),
        to_know=tuple(own_text(caution.text) for caution in found.cautions),
    )


def swatch_row(row: Swatch, found: ToldColour) -> SwatchRow:
    """A swatch at a glance."""
    return SwatchRow(
        key=str(row.pk),
        name=row.name,
        colour=hex_of_lab(lab(row)),
        said=_("%(colour)s, h %(hue)s") % {
            "colour": words.named(found.hue, found.shade), "hue": f"{found.hue_deg.p50 % 360:.0f}°",
        },
        lab=words.lab_said(lab(row)),
        depth=_depth(row, found),
        facts=", ".join(_what(row)),
    )  # fmt: skip


def _what(row: Swatch) -> Iterable[str]:
    yield row.get_of_display()
    if row.fibre:
        yield row.get_fibre_display()
    if row.dips:
        yield dips(row.dips)
    if row.jar is not None and row.jar.deleted_at is None:
        yield _("from %(name)s") % {"name": row.jar.name}


def dips(many: int) -> str:
    """`1 dip`, `4 dips`."""
    return ngettext("%(n)d dip", "%(n)d dips", many) % {"n": many}


def _depth(row: Swatch, found: ToldColour) -> str:
    """K/S as a photo tells it, and that at 660 nm where it was read."""
    red = _("K/S %(depth)s in red light") % {"depth": ranged(found.k_over_s, "")}
    return (
        red if row.k_over_s is None else _("%(red)s; %(deep)s at 660 nm") % {"red": red, "deep": figure(row.k_over_s)}
    )


def _facts(row: Swatch, found: ToldColour, zone: ZoneInfo) -> Iterable[tuple[str, str]]:
    yield _("Colour"), f"{words.lab_said(lab(row))} ({words.lab_named()})"
    known = None not in (row.l_sd, row.a_sd, row.b_sd)
    spread = ", ".join(figure(sd) for sd in lab_sd(row))
    yield _("Give or take"), spread if known else _("%(spread)s (usual for how it was measured)") % {"spread": spread}
    undyed = ground(row)
    if undyed is not None:
        yield _("The same cloth undyed"), words.lab_said(undyed)
    yield _("Hue and chroma"), f"{words.hue_said(found.hue_deg)}; C {ranged(found.chroma, '')}"
    yield _("Depth"), _depth(row, found)
    yield _("Measured"), f"{moment(row.measured_at.astimezone(zone))}, {row.get_how_display()}"


def _size(found: CompareAnswer) -> str:
    """What the number means."""
    return (
        _("CIEDE2000: about 1 is the least that an eye sees side by side; under 2 is close, over 5 is large.")
        if (found.against[0].told_apart)
        else _("Measure both in one photo, side by side, if the difference matters: that tells them apart best.")
    )


def _near(row: Swatch, other: Swatch, far: float) -> Near:
    return Near(
        name=other.name,
        colour=hex_of_lab(lab(other)),
        said=_("CIEDE2000 %(far)s") % {"far": figure(far)},
        to=f"{reverse('swatches.compare')}?a={row.pk}&b={other.pk}",
    )


def _chip(row: Swatch, found: ToldColour) -> Chip:
    return Chip(name=row.name, lab=lab(row), lab_sd=lab_sd(row), said=words.named(found.hue, found.shade))


def _plane(both: Sequence[tuple[Swatch, ToldColour]]) -> str:
    first, last = both[0], both[-1]
    answer = _("From %(pale)s to %(deep)s.") % {
        "pale": words.named(first[1].hue, first[1].shade), "deep": words.named(last[1].hue, last[1].shade),
    }  # fmt: skip
    chips = tuple(_chip(row, found) for row, found in both)
    return ab_plane(AbPlane(question=_("Where do these colours lie?"), answer=answer, chips=chips))


def _ladders(both: Sequence[tuple[Swatch, ToldColour]]) -> Iterable[str]:
    """For each fibre with at least two different numbers of dips a ladder: depth is not compared across fibres."""
    by_fibre: dict[str, list[tuple[Swatch, ToldColour]]] = {}
    for row, found in both:
        if row.dips and row.of == "cloth" and row.fibre:
            by_fibre.setdefault(row.fibre, []).append((row, found))
    several = [rows for rows in by_fibre.values() if len({row.dips for row, _found in rows}) > 1]
    for rows in several[:MOST_LADDERS]:
        yield _ladder(rows)


def _ladder(rows: Sequence[tuple[Swatch, ToldColour]]) -> str:
    rungs = tuple(
        Rung(
            x=float(row.dips or 1), chip=_chip(row, found),
            depth=Span(low=found.k_over_s.p5, mid=found.k_over_s.p50, high=found.k_over_s.p95),
        )
        for row, found in rows
    )  # fmt: skip
    shallow, deep = min(rungs, key=lambda rung: rung.x), max(rungs, key=lambda rung: rung.x)
    answer = _("From K/S %(from)s at %(few)s to %(to)s at %(many)s.") % {
        "from": figure(shallow.depth.mid), "few": dips(int(shallow.x)), "to": figure(deep.depth.mid),
        "many": dips(int(deep.x)),
    }  # fmt: skip
    question = _("How deep does each dip take %(fibre)s?") % {"fibre": rows[0][0].get_fibre_display()}
    return depth_ladder(DepthLadder(question=question, answer=answer, x_name=_("dips"), rungs=rungs))
