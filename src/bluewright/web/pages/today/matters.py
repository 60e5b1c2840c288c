"""What wants doing, place by place: each function reads what it needs and tells its matters."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import datetime, timedelta
from typing import Final
from uuid import UUID
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.journal.bridge import calls
from bluewright.journal.bridge.learned import taught
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.models import Garden, Steep
from bluewright.journal.queries import gardens, kept
from bluewright.science.base.errors import BluewrightError
from bluewright.science.steep.answer import SteepAnswer
from bluewright.web.pages.batches.next import next_step
from bluewright.web.pages.today.beds import foretold
from bluewright.web.pages.today.cloth import cloth_matters
from bluewright.web.pages.today.page import Matter, Step
from bluewright.web.pages.today.planned import planned
from bluewright.web.pages.today.trials import trial_matters
from bluewright.web.pages.today.vats import vat_matters
from bluewright.words.numbers import moment, sentence
from bluewright.words.own_text import own_text
from bluewright.words.steep import advice, now_gives

LEAF_KEEPS: Final = timedelta(days=5)
"""Picked leaf that went into no tub is asked after so long."""
LIQUOR_KEEPS: Final = timedelta(days=10)
"""Strained liquor that is in no batch is asked after so long."""
REGROWN: Final = timedelta(weeks=5)
"""From here on a bed that was picked is worth a look (common practice: woad again after five to seven weeks)."""
REGROWTH_OVER: Final = timedelta(weeks=12)
"""A bed not picked for longer than this is not asked after: the season is over."""


def all_matters(garden: Garden, now: datetime) -> Iterator[Matter]:
    """Every matter of a garden."""
    yield from tub_matters(garden, now)
    yield from leaf_matters(garden, now)
    yield from liquor_matters(garden, now)
    yield from batch_matters(garden, now)
    yield from cloth_matters(garden, now)
    yield from vat_matters(garden, now)
    yield from trial_matters(garden, now)
    by_schedule, planned_ones = planned(garden, now)
    yield from planned_ones
    told, matters = foretold(garden, now, but=by_schedule)
    yield from matters
    yield from bed_matters(garden, now, but={*told, *by_schedule})


def tub_matters(garden: Garden, now: datetime) -> Iterator[Matter]:
    """Tubs that steep: to be strained, or to be looked at."""
    for steep, air, logged in kept.steeping(garden):
        try:
            record = steep_record(steep, air=air, logged=logged, now=now)
            answer = calls.strain_call(steep.pk, taught(record, steep))
        except BluewrightError as error:
            yield _tub(steep, urgency_h=24.0, what=steep.name, why=_no_forecast(error))
        else:
            yield _called(steep, answer)


def leaf_matters(garden: Garden, now: datetime) -> Iterator[Matter]:
    """Leaf that was picked and is in no tub yet: it loses blue by the hour."""
    for picking in gardens.waiting_pickings(garden, since=now - LEAF_KEEPS):
        when = _by_clock(garden, picking.picked_at)
        words = {"leaf": picking.leaf_typed, "plant": picking.get_plant_display()}
        yield Matter(
            urgency_h=0.5,
            key=str(picking.pk),
            what=_("%(leaf)s of %(plant)s leaf waits") % words,
            why=_("Picked %(when)s; it loses blue by the hour.") % {"when": when},
            do=Step(says=_("Put it in a tub"), href=f"{reverse('tubs.begin')}?picking={picking.pk}"),
        )


def liquor_matters(garden: Garden, now: datetime) -> Iterator[Matter]:
    """Strained liquor that is in no batch yet."""
    for strain in kept.unworked_strains(garden):
        if strain.strained_at < now - LIQUOR_KEEPS:
            continue
        yield Matter(
            urgency_h=_hours(strain.strained_at - now),
            key=str(strain.pk),
            what=_("%(tub)s is strained: make its liquor alkaline") % {"tub": strain.steep.name},
            why=_("Strained %(when)s. The liquor loses blue while it stands.")
            % {"when": _by_clock(garden, strain.strained_at)},
            do=Step(says=_("Make a batch of it"), href=f"{reverse('batches.begin')}?strain={strain.pk}"),
        )


def batch_matters(garden: Garden, now: datetime) -> Iterator[Matter]:
    """Batches on their way: alkali, air, decant, wash, weigh."""
    for batch in kept.working(garden):
        found = next_step(batch, now)
        if found is not None:
            yield Matter(
                urgency_h=_hours(found.due - now),
                key=str(batch.pk),
                what=found.what,
                why=found.why,
                do=Step(says=found.says, href=found.href, writes=False),
                keeps=found.keeps,
            )


def bed_matters(garden: Garden, now: datetime, *, but: Collection[UUID]) -> Iterator[Matter]:
    """Beds that have been regrowing for so long that they are worth a look, but those whose next cut is foretold."""
    for bed, picked_at in gardens.last_picked(garden, since=now - REGROWTH_OVER):
        if bed.pk not in but and now - picked_at >= REGROWN:
            weeks = (now - picked_at) // timedelta(weeks=1)
            yield Matter(
                urgency_h=24.0,
                key=str(bed.pk),
                what=_("%(bed)s: ready to pick again?") % {"bed": bed.name},
                why=ngettext(
                    "It has been regrowing for %(n)d week.", "It has been regrowing for %(n)d weeks.", weeks
                ) % {"n": weeks},
                do=Step(says=_("Open the bed"), href=reverse("beds.show", kwargs={"key": bed.pk}), writes=False),
                also=Step(says=_("Write down a picking"), href=reverse("pickings.add")),
            )  # fmt: skip


def _no_forecast(error: BluewrightError) -> str:
    return _("no forecast: %(why)s") % {"why": own_text(str(error))}


def _called(steep: Steep, answer: SteepAnswer) -> Matter:
    if answer.advice != "wait":
        what = f"{steep.name}: {advice(answer)}"
        return _tub(steep, urgency_h=-1.0, what=what, why=now_gives(answer))
    again = {"tub": steep.name, "when": moment(answer.look_again_at)}
    return _tub(
        steep,
        urgency_h=_hours(answer.look_again_at - answer.inputs.now),
        what=_("%(tub)s: look again %(when)s") % again,
        why=f"{sentence(advice(answer))}. {now_gives(answer)}",
    )


def _tub(steep: Steep, *, urgency_h: float, what: str, why: str) -> Matter:
    keys = {"key": steep.pk}
    return Matter(
        urgency_h=urgency_h,
        key=str(steep.pk),
        what=what,
        why=why,
        do=Step(says=_("Open the tub"), href=reverse("tubs.show", kwargs=keys), writes=False),
        also=Step(says=_("Quick look"), href=reverse("tubs.look", kwargs=keys)),
    )


def _by_clock(garden: Garden, when: datetime) -> str:
    return moment(when.astimezone(ZoneInfo(garden.time_zone)))


def _hours(span: timedelta) -> float:
    return span / timedelta(hours=1)
