"""What the beds of a garden want next, kept while the program runs by what it rests on.

Growth and water of a bed take some tenths of a second each, and a garden has many beds: no page waits for them all.
`kept` gives what is known at once; `reckon` works out what is not, beside the pages.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Final, TypeVar
from uuid import UUID

from bluewright.journal.bridge.growing import damage_of, growth_of, next_leaf_kg, stand_of
from bluewright.journal.bridge.watering import water_of
from bluewright.journal.courtesy import give_way
from bluewright.journal.models import Bed, Garden
from bluewright.journal.queries import outlooks as queries
from bluewright.journal.written import UntilWritten
from bluewright.science.base.errors import BluewrightError
from bluewright.science.bed.disease_record import DiseaseAnswer
from bluewright.science.bed.growth_record import GrowthAnswer
from bluewright.science.bed.stand_record import StandAnswer
from bluewright.science.watering.record import BedWaterAnswer

A = TypeVar("A")
MOST_GARDENS: Final = 4
STANDS_FOR: Final = timedelta(days=2)
"""An outlook of so many days ago is shown until the new one is there: its days are days of the calendar."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """What one bed wants next, as reckoned on a day; either is None while something must be known first."""

    on: date
    of_bed: queries.Stamp
    of_garden: queries.Stamp
    growth: GrowthAnswer | None
    water: BedWaterAnswer | None
    stand: StandAnswer | None
    damage: DiseaseAnswer | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What is known of a garden's beds now."""

    known: Mapping[UUID, Outlook]
    """Of beds of which nothing was written since; it may rest on the weather as it was known before."""
    missing: frozenset[UUID]
    """Beds whose outlook is to be reckoned, since there is none or it is not of today."""


_outlooks: OrderedDict[UUID, dict[UUID, Outlook]] = OrderedDict()
_stamps: Final = UntilWritten[tuple[UUID, datetime, date], tuple[queries.Stamp, Mapping[UUID, queries.Stamp]]](4)


def kept(garden: Garden, *, today: date) -> Kept:
    """What is known without reckoning."""
    shared, beds = _stamped(garden, today=today)
    mine = _outlooks.get(garden.pk, {})
    known = {
        key: mine[key]
        for key, stamp in beds.items()
        if key in mine and mine[key].of_bed == stamp and timedelta(0) <= today - mine[key].on <= STANDS_FOR
    }
    fresh = {key for key, one in known.items() if one.on == today and one.of_garden == shared}
    return Kept(known=known, missing=frozenset(beds) - fresh)


def reckon(garden: Garden, *, today: date) -> None:
    """Work out what is missing, bed by bed."""
    shared, stamps = _stamped(garden, today=today)
    wanted = kept(garden, today=today).missing
    found = _outlooks.setdefault(garden.pk, {})
    _outlooks.move_to_end(garden.pk)
    while len(_outlooks) > MOST_GARDENS:
        _outlooks.popitem(last=False)
    for bed in Bed.objects.filter(garden=garden, pk__in=wanted).select_related("garden"):
        give_way()
        growth, water = _reckoned(growth_of, bed, today), _reckoned(water_of, bed, today)
        found[bed.pk] = Outlook(
            on=today, of_bed=stamps[bed.pk], of_garden=shared, growth=growth, water=water, stand=stand_of(bed),
            damage=damage_of(bed, leaf_kg=next_leaf_kg(growth)),
        )  # fmt: skip


def _stamped(garden: Garden, *, today: date) -> tuple[queries.Stamp, Mapping[UUID, queries.Stamp]]:
    """What tells whether anything was written that an outlook rests on: of the garden, and of each bed."""
    key = (garden.pk, garden.changed_at, today)
    return _stamps.got(
        key, lambda: (queries.of_the_garden(garden, today=today), queries.of_beds(garden, today=today))
    )  # fmt: skip


def _reckoned(answer: Callable[..., A | None], bed: Bed, today: date) -> A | None:
    """The answer; None too where what was written down cannot be, which the bed's own page tells."""
    try:
        return answer(bed, today=today)
    except BluewrightError:
        return None
