"""What the beds want: water, a cut, flower stems off. From outlooks that are reckoned aside: Today does not wait."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date, datetime
from typing import Final
from uuid import UUID
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.journal.bridge import outlooks
from bluewright.journal.models import Bed, Garden
from bluewright.science.bed.growth_record import GrowthAnswer
from bluewright.science.watering.record import BedWaterAnswer
from bluewright.web.aside import ASIDE
from bluewright.web.pages.today.page import Matter, Step
from bluewright.words.growth import OVER_CHANCE
from bluewright.words.measures import litres, measured, on_ground
from bluewright.words.numbers import percent, weekday

DAY_H: Final = 24.0
EVENING_H: Final = 8.0
"""Water is given in the evening, a cut is taken in the morning: neither comes before a tub."""
MORNING_H: Final = 12.0
CLOSES_H: Final = 6.0
FROST_H: Final = 4.0
NEAR_D: Final = 7
"""A window that opens within so many days is told of; water that is wanted within half of that."""
CLOSES_D: Final = 3
FROST_D: Final = 3
PODS_D: Final = 14
"""Flower stems are to be cut before the pods blacken: so long ahead it is told."""
FLOWERS: Final = 0.5
"""From this chance of flowering on it is told of."""


def foretold(garden: Garden, now: datetime, *, but: Collection[UUID] = ()) -> tuple[Collection[UUID], Iterator[Matter]]:
    """The beds whose next cut is foretold, and what all beds want; what is not reckoned yet is asked for.

    Of the beds in `but` the next cut is planned: it is not told twice.
    """
    today = now.astimezone(ZoneInfo(garden.time_zone)).date()
    kept = outlooks.kept(garden, today=today)
    if kept.missing:
        ASIDE.ask(garden.pk, lambda: outlooks.reckon(garden, today=today))
    beds = Bed.objects.filter(garden=garden, pk__in=kept.known)
    told = {key for key, one in kept.known.items() if one.growth is not None}
    return told, (
        matter for bed in beds for matter in wants(bed, kept.known[bed.pk], today, cuts=bed.pk not in but)
    )  # fmt: skip


def wants(bed: Bed, outlook: outlooks.Outlook, today: date, *, cuts: bool = True) -> list[Matter]:
    """What a bed wants by its outlook; without its cuts where those are told elsewhere."""
    found = (
        water(bed, outlook.water, today),
        cut(bed, outlook.growth, today) if cuts else None,
        pods(bed, outlook.growth, today),
    )
    return [matter for matter in found if matter is not None]


def water(bed: Bed, answer: BedWaterAnswer | None, today: date) -> Matter | None:
    """Water that is wanted now or in the next days."""
    if answer is None or answer.water_on is None or answer.water_on_l is None or answer.water_on_mm is None:
        return None
    days = max((answer.water_on - today).days, 0)
    if days > NEAR_D // 2:
        return None
    told = {"bed": bed.name, "much": litres(answer.water_on_l), "day": weekday(answer.water_on)}
    what = _("%(bed)s: water it with %(much)s") if days == 0 else _("%(bed)s: %(much)s of water on %(day)s")
    why = {"each": on_ground(answer.water_on_mm), "chance": percent(answer.dry_now_chance)}
    return Matter(
        urgency_h=EVENING_H + DAY_H * days,
        key=str(bed.pk),
        what=what % told,
        why=_("%(each)s last it a week. The chance that it is thirsty now is %(chance)s: feel the soil first.") % why,
        do=Step(says=_("Open its water"), href=reverse("watering.show", kwargs={"key": bed.pk}), writes=False),
    )


def cut(bed: Bed, answer: GrowthAnswer | None, today: date) -> Matter | None:
    """A cut whose window opens soon, is open or closes, and frost that comes before it."""
    if answer is None or answer.ready_on.middle is None or answer.in_season_chance < OVER_CHANCE:
        return None
    frost = None if answer.frost_on is None else answer.frost_on.early
    if frost is not None and (frost - today).days <= FROST_D:
        said = _("%(bed)s: frost may come on %(day)s; cut what is there before, or cover it")
        found: tuple[str, date, float] | None = (said, max(frost, today), FROST_H)
    else:
        found = _window(answer.ready_on.middle, answer.past_on.middle, today)
    if found is None:
        return None
    what, day, urgency_h = found
    return Matter(
        urgency_h=urgency_h,
        key=str(bed.pk),
        what=what % {"bed": bed.name, "day": weekday(day)},
        why=_leaf(answer),
        do=Step(says=_("Write down a picking"), href=f"{reverse('pickings.add')}?bed={bed.pk}"),
        also=Step(says=_("Open its growth"), href=reverse("growing.show", kwargs={"key": bed.pk}), writes=False),
    )


def _window(opens: date, shuts: date | None, today: date) -> tuple[str, date, float] | None:
    """What to say of a cut's window, with which day, and how urgent it is; None while it is far off."""
    ahead = (opens - today).days
    if ahead > NEAR_D:
        return None
    if ahead > 0:
        return _("%(bed)s: its next cut is ready about %(day)s"), opens, MORNING_H + DAY_H * ahead
    if shuts is None or (shuts - today).days > CLOSES_D:
        return _("%(bed)s is ready to cut"), opens, MORNING_H
    if shuts > today:
        return _("%(bed)s: cut it now; it is past its best from about %(day)s"), shuts, CLOSES_H
    return _("%(bed)s: past its best since about %(day)s; cut it, or leave it to regrow"), shuts, MORNING_H


def _leaf(answer: GrowthAnswer) -> str:
    """What the cut gives, and until when."""
    told = {"past": _("later") if answer.past_on.middle is None else weekday(answer.past_on.middle)}
    if answer.leaf_kg is None:
        return _("Past it from about %(past)s.") % told
    return _("About %(leaf)s of leaf; past it from about %(past)s.") % (
        told | {"leaf": measured(answer.leaf_kg, "mass_kg")}
    )


def pods(bed: Bed, answer: GrowthAnswer | None, today: date) -> Matter | None:
    """Flower stems to be cut before pods blacken and seed falls."""
    if answer is None or answer.pods_black_on is None or (answer.bolting_chance or 0.0) < FLOWERS:
        return None
    early, late = answer.pods_black_on.early, answer.pods_black_on.late
    if early is None or not -PODS_D <= (early - today).days <= PODS_D or (late is not None and late < today):
        return None
    told = {"bed": bed.name, "day": weekday(early)}
    return Matter(
        urgency_h=max(DAY_H * (early - today).days, MORNING_H),
        key=str(bed.pk),
        what=_("%(bed)s: cut the flower stems before %(day)s, or bag the pods") % told,
        why=_("Pods may blacken from then on, and one plant drops thousands of seeds. No seed on the compost."),
        do=Step(says=_("Open its growth"), href=reverse("growing.show", kwargs={"key": bed.pk}), writes=False),
    )
