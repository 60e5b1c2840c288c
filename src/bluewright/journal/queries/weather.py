"""The weather over a garden as it was written down, by day, and what was given to a bed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from bluewright.journal.loggers.station import NAMES, Day
from bluewright.journal.models import AirTemp, Bed, Garden, RainDay, StationDay, WaterNote

DAY = timedelta(days=1)


def air(of: Garden, *, first: date, last: date) -> list[tuple[datetime, float, bool]]:
    """Each temperature of the air from one day to another: by the garden's clock when, degrees, whether forecast."""
    zone = ZoneInfo(of.time_zone)
    start, beyond = (datetime.combine(day, time(), zone) for day in (first, last + DAY))
    rows = AirTemp.objects.filter(garden=of, time__gte=start, time__lt=beyond).order_by("time", "changed_at")
    return [
        (when.astimezone(zone), temp_c, ahead) for when, temp_c, ahead in rows.values_list("time", "temp_c", "forecast")
    ]


def rain(of: Garden, *, first: date, last: date) -> list[RainDay]:
    """The rain of each day that was written down, from one day to another."""
    return list(RainDay.objects.filter(garden=of, day__gte=first, day__lte=last).order_by("day", "changed_at"))


def station(of: Garden, *, first: date, last: date) -> dict[date, Day]:
    """What stations' files say of each day beside its temperatures, by day; where two say the same, the later one."""
    rows = StationDay.objects.filter(intake__garden=of, intake__deleted_at=None, day__gte=first, day__lte=last)
    found: dict[date, dict[str, float]] = {}
    for row in rows.order_by("intake__made_at").values("day", *NAMES):
        found.setdefault(row["day"], {}).update({name: row[name] for name in NAMES if row[name] is not None})
    return {day: Day(day=day, **told) for day, told in found.items()}


def water_notes(bed: Bed, *, first: date) -> Sequence[WaterNote]:
    """What was given to a bed and seen of it from a day on, in order of days."""
    return list(WaterNote.objects.filter(bed=bed, day__gte=first).order_by("day", "made_at"))


def last_stage(bed: Bed, *, before: date) -> WaterNote | None:
    """The last note before a day that says how the bed looked."""
    return WaterNote.objects.filter(bed=bed, day__lt=before).exclude(stage="").order_by("-day", "-made_at").first()


def picked_on(bed: Bed, *, first: date) -> list[date]:
    """The days on which leaf was picked from a bed, from a day on, by the garden's clock."""
    zone = ZoneInfo(bed.garden.time_zone)
    start = datetime.combine(first, time(), zone)
    taken = bed.pickings.filter(picked_at__gte=start, deleted_at=None).values_list("picked_at", flat=True)
    return sorted({when.astimezone(zone).date() for when in taken})
