"""What one does with a logger's file: bring its readings in, take them out, bring them back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime, timedelta
from itertools import islice
from typing import Any, Final
from uuid import uuid4
from zoneinfo import ZoneInfo

import numpy as np
from django.db import connection, models, transaction
from django.utils import timezone
from numpy.typing import NDArray

from bluewright.journal.actions import keeping
from bluewright.journal.loggers import station
from bluewright.journal.loggers.columns import Columns
from bluewright.journal.loggers.reading import Readings
from bluewright.journal.loggers.station import NAMES, Day
from bluewright.journal.models import AirTemp, Intake, StationDay, TubTemp
from bluewright.journal.models.garden import HIGHEST_AT, LOWEST_AT
from bluewright.science.base.errors import InputError

LONGEST_STEEP: Final = timedelta(days=60)
CLOCKS_DIFFER: Final = timedelta(minutes=5)
MOST_GAPS: Final = 20
GAP_STEPS: Final = 3.0
"""A pause is longer than so many usual steps."""
ROWS_AT_ONCE: Final = 5000
AIR_STEP_S: Final = 600
"""Of the air no more is kept than one temperature in so many seconds: tubs take hours to follow it."""
Seconds = NDArray[np.int64]


def bring_in(intake: Intake, found: Readings, *, by: Any, now: datetime | None = None) -> Intake:
    """Write the readings of a file, all of them or nothing; the report on the intake says what was left out and why.

    Of a tub only the time from its start to its straining counts. What is there already is skipped. Of lines without
    a temperature only a station's days are written. Raises InputError if nothing is left.
    """
    now = now or timezone.now()
    with transaction.atomic():
        seconds, first = np.unique(np.array(found.seconds, dtype=np.int64), return_index=True)
        repeated = len(found.seconds) - len(seconds)
        temps_c, thinned = np.array(found.temps_c)[first], 0
        days, parts, days_known = _station_days(intake, found, seconds, first, now=now)
        without = int(np.isnan(temps_c).sum())
        if intake.steep is None:
            seconds, temps_c = _ends(intake, found, seconds, temps_c, first)
        seconds, temps_c = seconds[~np.isnan(temps_c)], temps_c[~np.isnan(temps_c)]
        if intake.steep is None:
            seconds, temps_c, thinned = _thinned(seconds, temps_c)
        low_s, high_s = _span(intake)
        coming = seconds > int((now + CLOCKS_DIFFER).timestamp())
        outside = ~coming & ((seconds < low_s) | (seconds > high_s))
        known = ~coming & ~outside & np.isin(seconds, _known(intake, seconds))
        left = ~(coming | outside | known)
        intake.report = {
            "written": int(left.sum()), "thinned": thinned, "repeated": repeated, "known": int(known.sum()),
            "outside": int(outside.sum()), "coming": int(coming.sum()), "told": found.told,
            "unread": found.unread + (without if intake.steep else 0),
            "twice": found.twice, "station": _counted(days), "parts": parts, "days_known": days_known,
            "without": 0 if intake.steep or intake.columns.get("temp_column") is None else without,
            **_gaps(seconds[left]),
        }  # fmt: skip
        if not left.any() and not days:
            raise InputError(where="file", what=_why_nothing(intake.report), right="nothing was written")
        keeping.keep(intake, by=by)
        write_temps(intake, seconds[left].tolist(), temps_c[left].tolist(), by=by)
        StationDay.objects.bulk_create(StationDay(intake=intake, day=one.day, **one.told()) for one in days)
    return intake


def _station_days(
    intake: Intake, found: Readings, seconds: Seconds, first: NDArray[np.intp], *, now: datetime
) -> tuple[list[Day], int, int]:
    """What a station says of each day beside its temperature, as far as no other file said it: a gauge for rain and a
    meter for the sun may tell of one day. And how many days were not whole, and how many are here already.
    """
    if intake.steep is not None or not found.beside:
        return [], 0, 0
    zone = ZoneInfo(intake.garden.time_zone)
    values = {name: np.array(every)[first] for name, every in found.beside.items()}
    days, parts = station.days(seconds, values, Columns(**intake.columns), zone=zone)
    today = now.astimezone(zone).date()
    said = StationDay.objects.filter(intake__garden=intake.garden_id, intake__deleted_at=None)
    known: dict[date, set[str]] = {}
    for row in said.filter(day__gte=days[0].day, day__lte=days[-1].day).values("day", *NAMES) if days else ():
        known.setdefault(row["day"], set()).update(name for name in NAMES if row[name] is not None)
    past = [one for one in days if one.day <= today]
    news = [(one, {k: v for k, v in one.told().items() if k not in known.get(one.day, ())}) for one in past]
    return [Day(day=one.day, **told) for one, told in news if told], parts, sum(not told for _one, told in news)


def _ends(
    intake: Intake, found: Readings, seconds: Seconds, temps_c: NDArray[np.float64], first: NDArray[np.intp]
) -> tuple[Seconds, NDArray[np.float64]]:
    """Of a file of whole days the lowest and the highest at the hours of the day at which people write them down."""
    if not intake.columns.get("daily"):
        return seconds, temps_c
    zone = ZoneInfo(intake.garden.time_zone)
    lows_c = np.array(found.beside["low"])[first] if "low" in found.beside else np.full(len(seconds), np.nan)
    days = [datetime.fromtimestamp(int(second), UTC).astimezone(zone).date() for second in seconds]
    lowest, highest = (
        np.array([int(datetime.combine(day, clock, zone).timestamp()) for day in days], dtype=np.int64)
        for clock in (LOWEST_AT, HIGHEST_AT)
    )
    known = ~np.isnan(lows_c)
    every, ends_c = np.concatenate([lowest[known], highest]), np.concatenate([lows_c[known], temps_c])
    order = np.argsort(every)
    return every[order], ends_c[order]


def _counted(days: Sequence[Day]) -> dict[str, int]:
    """How many days say what."""
    return dict(Counter(name for one in days for name in one.told()))


def write_temps(intake: Intake, seconds: Sequence[int], temps_c: Sequence[float], *, by: Any) -> None:
    """Write the temperatures that an intake owns."""
    adapt = connection.ops.adapt_datetimefield_value
    times = [adapt(datetime.fromtimestamp(second, UTC)) for second in seconds]
    if intake.steep_id:
        _insert(TubTemp, {"steep": intake.steep_id, "intake": intake.pk}, times, temps_c)
        return
    made = {"made_at": intake.made_at, "changed_at": intake.made_at, "made_by": by, "changed_by": by}
    plain = {"deleted_at": None, "note": "", "temp_typed": "", "forecast": False, "garden": intake.garden_id}
    _insert(AirTemp, {**plain, **made, "intake": intake.pk}, times, temps_c)


def delete_intake(intake: Intake, *, by: Any) -> None:
    """Take an intake out with its temperatures."""
    with transaction.atomic():
        keeping.delete(intake, by=by)
        AirTemp.objects.filter(intake=intake).update(deleted_at=intake.deleted_at)


def restore_intake(intake: Intake, *, by: Any) -> bool:
    """Bring an intake back with its temperatures, but for those that were brought in anew meanwhile."""
    with transaction.atomic():
        if not keeping.restore(intake, by=by):
            return False
        same = {"time": models.OuterRef("time")}
        anew = TubTemp.objects.filter(steep=intake.steep_id, intake__deleted_at=None, **same).exclude(intake=intake)
        TubTemp.objects.filter(models.Exists(anew), intake=intake).delete()
        read = AirTemp.objects.filter(garden=intake.garden_id, forecast=False, **same)
        AirTemp.everything.filter(~models.Exists(read), intake=intake).update(deleted_at=None)
    return True


def _insert(model: Any, same: dict[str, Any], times: Sequence[Any], temps_c: Sequence[float]) -> None:
    """Rows straight into their table: as many objects of a model would take minutes.

    `same` is what all of them share. A row with a key of its own gets one.
    """
    fields = {name: model._meta.get_field(name) for name in same}
    values = [
        field.get_db_prep_save(getattr(same[name], "pk", same[name]), connection) for name, field in fields.items()
    ]
    key = model._meta.pk
    own_key = isinstance(key, models.UUIDField)
    columns = [*(["id"] if own_key else []), "time", "temp_c", *(field.column for field in fields.values())]
    quoted = ", ".join(connection.ops.quote_name(column) for column in columns)
    marks = ", ".join(["%s"] * len(columns))
    sql = f"INSERT INTO {connection.ops.quote_name(model._meta.db_table)} ({quoted}) VALUES ({marks})"
    keys = ([key.get_db_prep_save(uuid4(), connection)] if own_key else [] for _ in times)
    rows = ((*k, time, temp_c, *values) for k, time, temp_c in zip(keys, times, temps_c, strict=True))
    with connection.cursor() as cursor:
        while batch := list(islice(rows, ROWS_AT_ONCE)):
            cursor.executemany(sql, batch)


def _thinned(seconds: Seconds, temps_c: NDArray[np.float64]) -> tuple[Seconds, NDArray[np.float64], int]:
    """The air read more often than each ten minutes, as means of ten minutes; how many readings went into them."""
    if len(seconds) < 2 or np.median(np.diff(seconds)) >= AIR_STEP_S:
        return seconds, temps_c, 0
    steps, of_step, many = np.unique(seconds // AIR_STEP_S, return_inverse=True, return_counts=True)
    means_c = np.round(np.bincount(of_step, temps_c) / many, 2)
    return steps * AIR_STEP_S + AIR_STEP_S // 2, means_c, len(seconds)


def _span(intake: Intake) -> tuple[float, float]:
    """From when to when a reading belongs to what the logger was in."""
    if intake.steep is None:
        return -np.inf, np.inf
    ends: Iterable[datetime] = intake.steep.strains.values_list("strained_at", flat=True)
    start = intake.steep.started_at
    return start.timestamp(), min([*ends, start + LONGEST_STEEP]).timestamp()


def _known(intake: Intake, seconds: Seconds) -> Seconds:
    """Seconds at which a reading is there already."""
    if not len(seconds):
        return seconds
    low, high = (datetime.fromtimestamp(int(s), UTC) for s in (seconds[0], seconds[-1]))
    rows: models.QuerySet[Any] = TubTemp.objects.filter(steep=intake.steep_id, intake__deleted_at=None)
    if intake.steep_id is None:
        rows = AirTemp.objects.filter(garden=intake.garden_id, forecast=False)
    times = rows.filter(time__gte=low, time__lte=high).values_list("time", flat=True)
    return np.array([int(time.timestamp()) for time in times.iterator()], dtype=np.int64)


def _gaps(seconds: Seconds) -> dict[str, Any]:
    """The usual step, how many pauses there are, and the first of them."""
    steps = np.diff(seconds)
    if not len(steps):
        return {"step_s": None, "gaps": 0, "first_gaps": []}
    usual = float(np.median(steps))
    at = np.flatnonzero(steps > GAP_STEPS * usual)
    told = [[int(seconds[i]), int(seconds[i + 1])] for i in at[:MOST_GAPS]]
    return {"step_s": usual, "gaps": len(at), "first_gaps": told}


def _why_nothing(report: dict[str, Any]) -> str:
    """Why no reading of a file can be written."""
    if report["known"] or report["days_known"]:
        return "all its readings are here already"
    if report["outside"]:
        return "none of its readings falls between the start of the steep and its straining"
    if report["coming"]:
        return "all its readings are still to come: is the order of day and month right, and the clock"
    if report["parts"]:
        return f"no day of it was read in {station.FULL_DAY_H} hours or more"
    told = report["told"]
    return f"no line can be read: line {told[0][0]}: {told[0][1]}" if told else "it has a head but no reading"
