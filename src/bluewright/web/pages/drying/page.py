"""What the drying page of a batch shows: rounding and words happen here, once."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, tzinfo
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.charts.answers import dry_chart
from bluewright.journal.bridge import answers
from bluewright.journal.bridge.batches import dry_record
from bluewright.journal.models import Batch, Drying
from bluewright.science.base.errors import BluewrightError
from bluewright.science.settle.drying_record import DryAnswer
from bluewright.web.pages.batches.head import BatchHead, batch_head
from bluewright.web.pages.drying.next import weigh_again_at
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.why import main_why
from bluewright.web.ui.why_view import why_address
from bluewright.words.dry import said
from bluewright.words.numbers import about, moment
from bluewright.words.own_text import own_text


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighingRow:
    """One weighing."""

    key: str
    when: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Dish:
    """One dish of paste."""

    key: str
    title: str
    said: str
    """Dish, layer and air in one line."""
    answer: Answered | None
    trouble: str
    dry: bool
    """Whether two weighings a day apart met the rule."""
    again: str
    """When to weigh it next; empty once it is dry."""
    ended: str
    """When it was taken for dry; empty before."""
    weighings: tuple[WeighingRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingPage:
    """The drying of one batch."""

    head: BatchHead
    dishes: tuple[Dish, ...]
    ready: bool
    """Whether any dish is dry: then a jar can be filled."""


def drying_page(batch: Batch, *, now: datetime) -> DryingPage:
    """The page of a whole batch; dishes that still dry come first."""
    zone = ZoneInfo(batch.garden.time_zone)
    dishes = [
        _dish(batch, one, number, now.astimezone(zone)) for number, one in enumerate(batch.dryings.all(), start=1)
    ]
    return DryingPage(
        head=batch_head(batch),
        dishes=tuple(sorted(dishes, key=lambda dish: bool(dish.ended))),
        ready=any(dish.dry or dish.ended for dish in dishes),
    )


def _dish(batch: Batch, one: Drying, number: int, now: datetime) -> Dish:
    one.batch, zone = batch, now.tzinfo
    answer, trouble = dried(one)
    dry = answer is not None and answer.rule_met is True
    again = weigh_again_at(one, answer).astimezone(zone) if answer is not None and not dry else None
    return Dish(
        key=str(one.pk),
        title=one.note or _("Dish %(number)s") % {"number": number},
        said=_facts(one, zone),
        answer=_answered(one, answer) if answer is not None else None,
        trouble=trouble,
        dry=dry,
        again=_again(again, now) if again is not None and one.ended_at is None else "",
        ended=moment(one.ended_at.astimezone(zone)) if one.ended_at else "",
        weighings=tuple(
            WeighingRow(key=str(row.pk), when=moment(row.weighed_at.astimezone(zone)), said=row.total_typed)
            for row in reversed(list(one.weighings.all()))
        ),
    )


def dried(one: Drying) -> tuple[DryAnswer | None, str]:
    """How dry a dish of a whole batch is; or why that cannot be said."""
    try:
        return answers.dried(dry_record(one)), ""
    except BluewrightError as error:
        return None, own_text(str(error))


def _answered(one: Drying, answer: DryAnswer) -> Answered:
    found = said(answer)
    why = main_why(answer, address=why_address("drying.why", key=one.batch.pk, row=one.pk))
    return answered(found, chart=dry_chart(answer, answer=found.first), why=why)


def _again(at: datetime, now: datetime) -> str:
    if at <= now:
        return _("Weigh it again now.")
    return _("Weigh it again about %(when)s.") % {"when": about(at)}


def _facts(one: Drying, zone: tzinfo | None) -> str:
    parts = [_("since %(when)s") % {"when": moment(one.started_at.astimezone(zone))}]
    parts += [_("dish %(dish)s") % {"dish": one.dish_typed}]
    parts += [_("%(layer)s thick") % {"layer": one.layer_typed}] if one.layer_typed else []
    parts += [_("air %(temp)s") % {"temp": one.temp_typed}] if one.temp_typed else []
    parts += [_("humidity %(percent).0f%%") % {"percent": 100 * one.humidity_frac}] if one.humidity_frac else []
    return ", ".join(parts)
