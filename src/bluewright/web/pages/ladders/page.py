"""What the pages of ladders show: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.charts.colours import hex_of_lab
from bluewright.charts.dyeing_answers import ladder_chart
from bluewright.journal.bridge.dyeing import Own
from bluewright.journal.bridge.swatches import lab
from bluewright.journal.models import Ladder, LadderRung, Measured
from bluewright.journal.queries.history import Step
from bluewright.journal.queries.ladders import dips_done, is_measured, swatch_of
from bluewright.science.dyeing.ladder_record import LadderAnswer
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.own_dyeing import began_with, strips
from bluewright.web.ui.photos import Thumb
from bluewright.web.ui.turning import Linked
from bluewright.web.ui.why import Link
from bluewright.words.cloth import AFTER_DIPS, FIBRES, FINISHES
from bluewright.words.dye_ladder import said
from bluewright.words.measures import amount
from bluewright.words.numbers import day, figure, moment


@dataclass(frozen=True, slots=True, kw_only=True)
class LadderRow:
    """One ladder at a glance."""

    key: str
    name: str
    said: str
    """`wool, 4 strips of 1, 2, 4 and 8 dips`."""
    stands: str
    """How far it is."""
    colours: tuple[str, ...]
    """Of its strips, as a screen shows them, the lightest first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LaddersPage:
    """All ladders of a garden."""

    rows: tuple[LadderRow, ...]
    learned: tuple[str, ...]
    """For each fibre how much was learned of it."""
    pages: tuple[Linked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StripRow:
    """One strip of a ladder."""

    key: str
    dips: str
    mass: str
    colour: str
    """As a screen shows it; empty while it is not known."""
    said: str
    """`L* 43, a* -2, b* -22`, its K/S, or that it is not measured yet."""
    swatch: str
    """Address of the swatch that it was measured as; empty for none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A measured photo of the ladder, whose samples can be named."""

    said: str
    to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LadderPage:
    """One ladder."""

    row: LadderRow
    facts: tuple[tuple[str, str], ...]
    vat: str
    vat_page: str
    """Address of its vat; empty where it is not in the book."""
    strips: tuple[StripRow, ...]
    stage: str
    """`planned`, `dipping`, `dry` (nothing is measured), `measured` or `done`."""
    rests: str
    answer: Answered | None
    trouble: str
    measured: tuple[Sheet, ...]
    photos: tuple[Thumb, ...]
    note: str
    written: str
    history: tuple[HistoryRow, ...]


def ladders_page(rows: Sequence[Ladder], *, every: Iterable[Ladder], pages: tuple[Linked, ...] = ()) -> LaddersPage:
    """The page of all ladders; `every` holds all that are done, of whatever page."""
    found: dict[str, list[int]] = {}
    for row in every:
        found.setdefault(row.fibre, []).append(sum(map(is_measured, row.rungs.all())))
    return LaddersPage(
        rows=tuple(map(ladder_row, rows)),
        learned=tuple(_learned(fibre, found[fibre]) for fibre in FIBRES if fibre in found),
        pages=pages,
    )


def _learned(fibre: str, counts: Sequence[int]) -> str:
    told = {
        "fibre": _(FIBRES[fibre]).capitalize(), "ladders": len(counts), "strips": strips(sum(counts))  # type: ignore[index]
    }  # fmt: skip
    return (
        ngettext(
            "%(fibre)s: %(ladders)d ladder, %(strips)s.", "%(fibre)s: %(ladders)d ladders, %(strips)s.", len(counts)
        )
        % told
    )


def ladder_row(row: Ladder) -> LadderRow:
    """One ladder in a list."""
    rungs = list(row.rungs.all())
    colours = sorted((colour for rung in rungs if (colour := _lab(rung)) is not None), key=lambda one: -one[0])
    dips = ", ".join(str(rung.dips) for rung in rungs)
    told = {"fibre": _(FIBRES[row.fibre]), "strips": strips(len(rungs)), "dips": dips}  # type: ignore[index]
    return LadderRow(
        key=str(row.pk), name=row.name, stands=_stands(row), colours=tuple(map(hex_of_lab, colours)),
        said=_("%(fibre)s, %(strips)s with %(dips)s dips") % told if rungs else _("%(fibre)s, no strip yet") % told,
    )  # fmt: skip


def stage_of(row: Ladder) -> str:
    """How far a ladder is."""
    rungs = list(row.rungs.all())
    if row.done_at is not None:
        return "done"
    if any(map(is_measured, rungs)):
        return "measured"
    dips = len(dips_done(row))
    if not row.dips.all():
        return "planned"
    return "dry" if dips >= max((rung.dips for rung in rungs), default=0) else "dipping"


def _stands(row: Ladder) -> str:
    when = day(row.begun_at.astimezone(ZoneInfo(row.garden.time_zone)))
    if row.done_at is not None:
        return _("learned from, %(day)s") % {"day": day(row.done_at.astimezone(ZoneInfo(row.garden.time_zone)))}
    known = sum(map(is_measured, row.rungs.all()))
    if known:
        return _("begun %(day)s, %(known)s measured") % {"day": when, "known": strips(known)}
    dips = len(row.dips.all())
    if not dips:
        return _("planned %(day)s") % {"day": when}
    return ngettext("begun %(day)s, %(dips)d dip", "begun %(day)s, %(dips)d dips", dips) % {"day": when, "dips": dips}


def ladder_page(
    row: Ladder, *, answer: LadderAnswer | None, trouble: str, own: Own, measured: Sequence[Measured],
    photos: tuple[Thumb, ...], steps: Sequence[Step],
) -> LadderPage:  # fmt: skip
    """The page of one ladder."""
    zone = ZoneInfo(row.garden.time_zone)
    stands = row.vat is not None and row.vat.deleted_at is None
    why = Link(to=reverse("ladders.why", kwargs={"key": row.pk, "figure": "per_dip_pct"}), name=_("the first dip"))
    return LadderPage(
        row=ladder_row(row),
        facts=tuple(_facts(row)),
        vat=row.vat.name if row.vat is not None and stands else "",
        vat_page=reverse("vats.show", kwargs={"key": row.vat_id}) if stands else "",
        strips=tuple(map(_strip, row.rungs.all())),
        stage=stage_of(row),
        rests=began_with(own, row.fibre),
        answer=None if answer is None else _answered(answer, why),
        trouble=trouble,
        measured=tuple(_sheet(one, row) for one in measured),
        photos=photos,
        note=row.note,
        written=written(row, zone),
        history=history(row, steps, zone),
    )


def _answered(found: LadderAnswer, why: Link) -> Answered:
    told = said(found)
    return answered(told, chart=ladder_chart(found, answer=str(told.parts[0])), why=why)


def _facts(row: Ladder) -> Iterable[tuple[str, str]]:
    strength = {"strength": figure(row.active_g_per_l), "share": figure(100 * (row.active_sd_frac or 0.0))}
    if row.active_sd_frac is None:
        told = _("%(strength)s g/L, as judged") % strength
    else:
        told = _("%(strength)s g/L, give or take %(share)s%%") % strength
    yield _("Strength before the first dip"), told + ("; " + _("reckoned from the vat") if row.reckoned else "")
    yield _("Liquor"), row.bath_typed or amount(row.bath_l, "volume_l")
    yield _("Each strip"), _("about %(mass)s") % {"mass": row.strip_typed}
    way = {"dip": figure(row.dip_min), "air": figure(row.air_min), "after": _(AFTER_DIPS[row.after_dip])}  # type: ignore[index]
    yield _("Each dip"), _("%(dip)s min in the vat, %(after)s; %(air)s min in the air") % way
    yield _("At the end"), _(FINISHES[row.finish])  # type: ignore[index]
    if row.ground_l_star is not None:
        yield _("Undyed"), _lab_said((row.ground_l_star, row.ground_a_star or 0.0, row.ground_b_star or 0.0))


def _strip(rung: LadderRung) -> StripRow:
    colour, swatch = _lab(rung), swatch_of(rung)
    depth = rung.k_over_s if swatch is None else swatch.k_over_s
    said = [_lab_said(colour)] if colour is not None else []
    said += [f"K/S {figure(depth)}"] if depth is not None else []
    return StripRow(
        key=str(rung.pk),
        dips=ngettext("%(dips)d dip", "%(dips)d dips", rung.dips) % {"dips": rung.dips},
        mass=_mass(rung),
        colour="" if colour is None else hex_of_lab(colour),
        said="; ".join(said) or (_("weighed only") if is_measured(rung) else _("not measured yet")),
        swatch="" if swatch is None else reverse("swatches.show", kwargs={"key": swatch.pk}),
    )


def _mass(rung: LadderRung) -> str:
    told = {"before": rung.before_typed, "after": rung.after_typed}
    if rung.before_g is None:
        return ""
    return _("%(before)s before") % told if rung.after_g is None else _("%(before)s before, %(after)s after") % told


def _lab(rung: LadderRung) -> tuple[float, float, float] | None:
    swatch = swatch_of(rung)
    if swatch is not None:
        return lab(swatch)
    l_star, a_star, b_star = rung.l_star, rung.a_star, rung.b_star
    return None if l_star is None or a_star is None or b_star is None else (l_star, a_star, b_star)


def _lab_said(colour: Sequence[float]) -> str:
    parts = [f"{part:.0f}".replace("-0", "0") if abs(part) < 0.5 else f"{part:.0f}" for part in colour]
    return "L* {}, a* {}, b* {}".format(*parts)


def _sheet(one: Measured, row: Ladder) -> Sheet:
    zone, many = ZoneInfo(row.garden.time_zone), len(one.answer["samples"])
    told = {"when": moment(one.measured_at.astimezone(zone)), "many": many}
    said = ngettext(
        "Say which strip the colour of %(when)s is", "Say which strips the %(many)d colours of %(when)s are", many
    )
    return Sheet(said=said % told, to=reverse("ladders.colours", kwargs={"key": row.pk, "photo": one.pk}))
