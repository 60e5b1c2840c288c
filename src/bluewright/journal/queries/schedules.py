"""Schedules, the limits they keep, and what they rest on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime, time, timedelta
from typing import Any, Final
from zlib import crc32
from zoneinfo import ZoneInfo

from django.db.models import Count, Max
from django.utils import timezone

from bluewright.journal.models import (
    Assay,
    DaysAway,
    Drying,
    Garden,
    Jar,
    JarTaken,
    Limits,
    Reading,
    Schedule,
    Steep,
    Strain,
    TubTemp,
    Want,
)
from bluewright.journal.queries import outlooks

MOST_TUB_D: Final = 40
"""A tub that steeps longer was forgotten and is left out."""


def limits(of: Garden) -> Limits | None:
    """The limits that count now."""
    return Limits.objects.filter(garden=of).first()


def away(of: Garden) -> Sequence[DaysAway]:
    """Days away, in order."""
    return list(DaysAway.objects.filter(garden=of))


def latest(of: Garden) -> Schedule | None:
    """The schedule that counts now: the latest that was found, or the latest trouble."""
    return Schedule.objects.filter(garden=of).first()


def latest_found(of: Garden) -> Schedule | None:
    """The latest schedule that has an answer."""
    return Schedule.objects.filter(garden=of).exclude(answer={}).first()


def planned_gardens() -> Sequence[Garden]:
    """Gardens whose limits are written down and whose planned season is not over."""
    limits = Limits.objects.filter(last_day__gt=timezone.localdate()).values("garden")
    return list(Garden.objects.filter(pk__in=limits))


def drying_now(of: Garden) -> Sequence[Drying]:
    """Dishes that dry."""
    return list(Drying.objects.filter(batch__garden=of, batch__deleted_at=None, ended_at=None))


def rests_on(of: Garden, *, today: date) -> Mapping[str, str]:
    """A mark for each kind of thing that a schedule rests on, in a fixed number of reads."""
    return {
        "day": today.isoformat(),
        "weather": _mark(outlooks.of_the_garden(of, today=today)),
        "beds": _mark(sorted((str(key), repr(stamp)) for key, stamp in outlooks.of_beds(of, today=today).items())),
        "tubs": _mark(_latest(Steep.everything.filter(garden=of)), _latest(Strain.everything.filter(steep__garden=of))),
        "looks": _mark(*_looks(of, today=today)),
        "drying": _mark(_latest(Drying.everything.filter(batch__garden=of))),
        "jars": _mark(
            _latest(Jar.everything.filter(garden=of)),
            _latest(JarTaken.everything.filter(jar__garden=of)),
            _latest(Assay.everything.filter(jar__garden=of)),
        ),
        "wants": _mark(_latest(Want.everything.filter(garden=of))),
        "limits": _mark(_latest(Limits.everything.filter(garden=of)), _latest(DaysAway.everything.filter(garden=of))),
    }


def _looks(of: Garden, *, today: date) -> tuple[tuple[Any, ...], ...]:
    """What was seen and logged of tubs that may still steep: of older ones nothing moves a plan any more."""
    since = datetime.combine(today - timedelta(days=MOST_TUB_D), time(), ZoneInfo(of.time_zone))
    recent = Steep.everything.filter(garden=of, started_at__gte=since).values("pk")
    logged = TubTemp.objects.filter(steep__in=recent, intake__deleted_at=None)
    told = logged.aggregate(many=Count("pk"), latest=Max("time"))
    return _latest(Reading.everything.filter(steep__in=recent)), (told["many"], told["latest"])


def _latest(rows: Any) -> tuple[Any, ...]:
    found = rows.order_by().aggregate(many=Count("pk"), latest=Max("changed_at"))
    return found["many"], found["latest"]


def _mark(*parts: Any) -> str:
    return f"{crc32(repr(parts).encode()):08x}"
