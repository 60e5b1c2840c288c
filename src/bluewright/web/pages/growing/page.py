"""What the page of a bed's growth shows: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from django.utils import timezone
from django.utils.translation import gettext as _

from bluewright.charts.disease_chart import disease_chart, key_drawing
from bluewright.charts.growth_chart import growth_chart
from bluewright.journal.bridge.growing import (
    damaged,
    disease_record,
    last_counted,
    last_scored,
    next_leaf_kg,
    stand_record,
    stood,
)
from bluewright.journal.models import Bed, BedLook
from bluewright.journal.models.bed_look import STARTS
from bluewright.science.bed.disease import under_curve_frac_d
from bluewright.science.bed.growth_record import GrowthAnswer
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.why import main_why
from bluewright.web.ui.why_view import why_address
from bluewright.words import disease, growth, stand
from bluewright.words.numbers import sentence, weekday

SEASON_D: Final = 200
"""Looks within so many days of the last are of its season."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookRow:
    """What was counted, scored or begun on a day."""

    key: str
    when: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowingPage:
    """The growth of one bed."""

    key: str
    name: str
    answer: Answered | None
    trouble: str
    needs_place: bool
    stand: Answered | None
    """Of the last frames that were counted."""
    stand_on: str
    damage: Answered | None
    """Of the last leaves that were scored."""
    damage_on: str
    over_season: tuple[str, ...]
    """Damage summed over the looks of a season, a sentence for each kind; nothing before the second look."""
    leaf_key: str
    """Drawn leaves to compare with."""
    looks: tuple[LookRow, ...]


def growing_page(bed: Bed, *, answer: GrowthAnswer | None, looks: Sequence[BedLook], trouble: str = "") -> GrowingPage:
    """The page of a bed's growth, given its answer."""
    counted, scored = last_counted(looks), last_scored(looks)
    return GrowingPage(
        key=str(bed.pk),
        name=bed.name,
        answer=None if answer is None else _answered(bed, answer),
        trouble=trouble,
        needs_place=bed.garden.latitude_deg is None,
        stand=None if counted is None else _stand(counted),
        stand_on="" if counted is None else weekday(counted.day),
        damage=None if scored is None else _damage(scored, next_leaf_kg(answer)),
        over_season=_over_season(looks),
        damage_on="" if scored is None else weekday(scored.day),
        leaf_key=key_drawing(),
        looks=tuple(_row(row) for row in reversed(looks)),
    )


def _answered(bed: Bed, answer: GrowthAnswer) -> Answered:
    found = growth.said(answer)
    why = main_why(answer, address=why_address("growing.why", key=bed.pk))
    over = answer.in_season_chance < growth.OVER_CHANCE
    return answered(found, chart="" if over else growth_chart(answer, answer=found.first), why=why)


def _stand(look: BedLook) -> Answered | None:
    record = stand_record(look)
    return None if record is None else answered(stand.said(stood(record)))


def _over_season(looks: Sequence[BedLook]) -> tuple[str, ...]:
    """What the looks of the last months add up to: early damage weighs more than late, since it lasts."""
    last = last_scored(looks)
    recent = [row for row in looks if last is not None and (last.day - row.day).days <= SEASON_D]
    words = {
        "spotted": _("Spotted leaf summed over %(many)s looks since %(first)s: %(sum)s %%-days."),
        "eaten": _("Eaten leaf summed over %(many)s looks since %(first)s: %(sum)s %%-days."),
    }
    return tuple(filter(None, (_summed(recent, kind, said) for kind, said in words.items())))


def _summed(looks: Sequence[BedLook], kind: str, said: str) -> str:
    """One kind of damage over the days of its looks; of several looks on one day their mean."""
    by_day: dict[date, list[float]] = {}
    for row in looks:
        by_day.setdefault(row.day, []).extend(float(one) for one in getattr(row, kind).split())
    rows = sorted((day, sum(scores) / len(scores) / 100) for day, scores in by_day.items() if scores)
    if len(rows) < 2:
        return ""
    summed = under_curve_frac_d([day.toordinal() for day, _frac in rows], [frac for _day, frac in rows])
    return said % {"many": len(rows), "first": weekday(rows[0][0]), "sum": f"{100 * summed:.3g}"}


def _damage(look: BedLook, leaf_kg: float | None) -> Answered | None:
    record = disease_record(look, leaf_kg=leaf_kg)
    if record is None:
        return None
    answer = damaged(record)
    found = disease.said(answer)
    return answered(found, chart=disease_chart(answer, answer=found.first))


def _row(row: BedLook) -> LookRow:
    told = [str(dict(STARTS)[row.began])] if row.began else []
    if row.day > timezone.localdate():
        told = [_("still to come: %(what)s") % {"what": what} for what in told]
    if row.counts:
        counted = {"counts": row.counts, "frame": row.frame_typed}
        told.append(_("plants in frames of %(frame)s: %(counts)s") % counted)
    told += [_("longest leaves: %(lengths)s") % {"lengths": row.longest_typed}] if row.longest_typed else []
    told += [_("spotted, %%: %(scores)s") % {"scores": row.spotted}] if row.spotted else []
    told += [_("eaten, %%: %(scores)s") % {"scores": row.eaten}] if row.eaten else []
    return LookRow(key=str(row.pk), when=weekday(row.day), said=sentence("; ".join(told)))
