"""A garden's beds, tubs, wants and limits become the record of its season, and the answer a row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any, Final
from zoneinfo import ZoneInfo

import numpy as np
from django.utils import timezone

from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge import calls, planning
from bluewright.journal.bridge.growing import coming, growth_record, weather_since
from bluewright.journal.bridge.learned import blue_of, taught
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.bridge.stored import word
from bluewright.journal.models import AirTemp, Bed, Change, Garden, Limits, Schedule, Steep, TubTemp
from bluewright.journal.queries import plan, tubs
from bluewright.journal.queries import schedules as queries
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.records import LEAST, dump, read
from bluewright.science.bed.growth_record import GrowthRecord
from bluewright.science.media.weather.record import Weather
from bluewright.science.season.answer import PlannedCut, SeasonAnswer
from bluewright.science.season.record import (
    MOST_DAYS,
    Away,
    BestAfter,
    BestGrams,
    DryingNow,
    FormerCut,
    RunningTub,
    SeasonBed,
    SeasonRecord,
    SeasonWant,
    TrayRoom,
    TubSize,
)
from bluewright.science.steep.answer import SteepAnswer
from bluewright.words.works import works

DRYING_D: Final = 6
"""How long a dish is taken to dry where nobody said."""
MOST_GONE: Final = 300
MOST_DONE: Final = 12
"""Cuts that the record of a bed takes."""
DAY_H: Final = 24.0
LEAST_D: Final = 0.1
"""A tub that was past its best from the beginning is taken to have been there so soon."""
FIRST_S: Final = 0.2
FIRST_GOOD_FRAC: Final = 0.5
"""A first answer is shown as soon as it is so good."""
LIMIT_S: Final = 8.0
KEPT_SCHEDULES: Final = 10
"""Older schedules than so many are let go."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Season:
    """The record of a garden's season, and the keys of its beds by their names there."""

    record: SeasonRecord
    beds: Mapping[str, str]
    left_out: tuple[str, ...]
    """Beds of which area or beginning is not known."""


def season_of(garden: Garden, *, today: date) -> Season:
    """The season of a garden as it stands.

    Raises InputError that says what must be known first, or what cannot be.
    """
    limits = queries.limits(garden)
    if limits is None:
        raise InputError(where="limits", what="tubs and hours are not known", right="write them down first")
    if garden.latitude_deg is None:
        raise InputError(where="garden", what="where it lies is not known", right="give its latitude")
    if limits.last_day <= today:
        raise InputError(where="last_day", what="the season is over", right="give the last day of the next")
    beds, keys, grown, left_out = _beds(garden, today=today, last=limits.last_day)
    if not beds:
        raise InputError(
            where="beds", what="no bed's area and beginning are known", right="say how large it is and when it was sown"
        )
    former = queries.latest_found(garden)
    record = SeasonRecord(
        id=garden.name,
        now=today,
        last=min(limits.last_day, today + timedelta(days=MOST_DAYS - 1)),
        beds=tuple(beds),
        tubs=_sizes(limits),
        free_h=tuple(float(one) for one in limits.free_h),
        extra_h=limits.extra_h,
        away=tuple(Away(first=row.first, last=row.last) for row in queries.away(garden) if row.last >= today),
        drying=TrayRoom(tubs=limits.places, days=limits.drying_d),
        wants=_wants(garden, today=today),
        running=_running(garden, limits, today=today, former=None if former is None else answer_of(former)),
        drying_now=_drying(garden, limits, today=today),
        former=() if former is None else _former(former, beds=keys, today=today),
        weather=max(grown, key=lambda weather: len(weather.days)),
        limit_s=LIMIT_S,
    )
    return Season(record=record, beds=keys, left_out=tuple(left_out))


def answer_of(row: Schedule) -> SeasonAnswer | None:
    """The answer of a schedule; None where it has none, or one of a version that is no longer read."""
    if not row.answer:
        return None
    try:
        return read(SeasonAnswer, row.answer)
    except InputError:
        return None


def reckon(garden: Garden, *, by: Any, quick: bool = False) -> Schedule:
    """Reckon a garden's schedule and keep it: at once a first answer, then, unless `quick`, the better one."""
    quickly = {"good_frac": FIRST_GOOD_FRAC, "limit_s": FIRST_S}
    return _reckoned(garden, [(quickly, quick)] if quick else [(quickly, False), ({}, True)], by=by, because=())


def follow(garden: Garden) -> Schedule:
    """Reckon a garden's schedule again since something that it rests on was changed, and keep it with what that was."""
    today, row = _today(garden), queries.latest(garden)
    because = () if row is None else changed_kinds(row, queries.rests_on(garden, today=today))
    return _reckoned(garden, [({}, True)], by=None, because=because)


def is_stale(garden: Garden, *, today: date) -> bool:
    """Whether anything that a garden's schedule rests on was changed, or there is none yet."""
    row = queries.latest(garden)
    return row is None or bool(changed_kinds(row, queries.rests_on(garden, today=today)))


def changed_kinds(row: Schedule, marks: Mapping[str, str]) -> tuple[str, ...]:
    """Kinds of things that a schedule rests on and that were changed since."""
    return tuple(kind for kind, mark in marks.items() if row.rests_on.get(kind) != mark)


def _reckoned(
    garden: Garden, ways: Sequence[tuple[Mapping[str, float], bool]], *, by: Any, because: Sequence[str]
) -> Schedule:
    """One schedule, written after each way of looking for it: how long and how well, and whether that settles it."""
    today, last = _today(garden), queries.latest(garden)
    row = Schedule(garden=garden, rests_on=dict(queries.rests_on(garden, today=today)), because=list(because))
    former = queries.latest_found(garden)
    try:
        season = season_of(garden, today=today)
        row.beds = dict(season.beds)
        for how, settled in ways:
            _write(row, replace(season.record, **how), settled=settled, former=former, by=by)  # type: ignore[arg-type]
    except BluewrightError as error:
        row.trouble, row.settled, row.reckoned_at = str(error)[:400], True, timezone.now()
        if last is not None and last.trouble == row.trouble:
            row.pk, row._state.adding = last.pk, False  # the same trouble once more is no news
        keep(row, by=by)
    _let_go(garden)
    return row


def _today(garden: Garden) -> date:
    return timezone.now().astimezone(ZoneInfo(garden.time_zone)).date()


def _write(row: Schedule, record: SeasonRecord, *, settled: bool, former: Schedule | None, by: Any) -> None:
    from bluewright.science.season.call import season_plan  # noqa: PLC0415 - the solver loads when it is first asked

    found = season_plan(record, rng=np.random.default_rng(record.seed))
    row.answer, row.settled, row.reckoned_at = dump(found), settled, timezone.now()
    row.gone = _gone(found, former)
    keep(row, by=by)


def _gone(found: SeasonAnswer, former: Schedule | None) -> list[dict[str, str]]:
    """Work still to come that the schedule before had, or had given up already, and this one has not."""
    before = None if former is None else answer_of(former)
    if former is None or before is None:
        return []
    had = {one.key: {"key": one.key, "on": one.on.isoformat(), "kind": one.kind, "of": one.of} for one in works(before)}
    had |= {row["key"]: row for row in former.gone}
    now, today = {one.key for one in works(found)}, found.inputs.now.isoformat()
    return [row for key, row in had.items() if key not in now and row["on"] >= today][:MOST_GONE]


def _let_go(garden: Garden) -> None:
    """Schedules of long ago go for good: each can be reckoned again from what it rested on."""
    old = list(Schedule.everything.filter(garden=garden).values_list("pk", flat=True)[KEPT_SCHEDULES:])
    Change.objects.filter(kind="schedule", row_id__in=old).delete()
    Schedule.everything.filter(pk__in=old).delete()


def _beds(
    garden: Garden, *, today: date, last: date
) -> tuple[list[SeasonBed], dict[str, str], list[Weather], list[str]]:
    """Beds whose season is known, their keys, the weather of each, and names of those left out."""
    found, keys, weathers, left_out = list[SeasonBed](), dict[str, str](), list[Weather](), list[str]()
    for bed in Bed.objects.filter(garden=garden).select_related("garden"):
        name = bed.name if bed.name not in keys else f"{bed.name} ({len(keys) + 1})"
        one = _coming(bed, name, today=today, last=last) or _standing(bed, name, today=today, last=last)
        if one is None:
            left_out.append(bed.name)
            continue
        keys[name] = str(bed.pk)
        found.append(one[0])
        weathers.append(one[1])
    return found, keys, weathers, left_out


def _standing(bed: Bed, name: str, *, today: date, last: date) -> tuple[SeasonBed, Weather] | None:
    """A bed in its present season, with its weather; None where area or beginning are not known, or come too late."""
    record = _growth(bed, today=today)
    if record is None or bed.area_m2 is None or record.since > last:
        return None
    told = SeasonBed(
        id=name, plant=record.plant, area_m2=bed.area_m2, start=record.start, began=record.began, cuts=record.cuts,
        lengths=record.lengths, blue=record.blue, earlier=record.earlier,
        most_cuts=_most_cuts(record.plant, record.start, done=len(record.cuts)),
    )  # fmt: skip
    return told, record.weather


def _coming(bed: Bed, name: str, *, today: date, last: date) -> tuple[SeasonBed, Weather] | None:
    """A bed whose next season has its day already, once the present one gives no more."""
    try:
        season = coming(bed, today=today)
    except BluewrightError:
        return None
    if season is None or bed.area_m2 is None or season.began > last:
        return None
    told = SeasonBed(
        id=name, plant=word(bed.plant), area_m2=bed.area_m2, start=word(season.start), began=season.began,
        blue=blue_of(bed.garden, plant=bed.plant, on=today, bed=bed.pk), earlier=season.earlier,
        most_cuts=_most_cuts(bed.plant, season.start, done=0),
    )  # fmt: skip
    return told, weather_since(bed.garden, today, today=today)


def _most_cuts(plant: str, start: str, *, done: int) -> int | None:
    """Cuts of the whole season; None where the record takes no more, so that the usual number holds.

    Woad that stood over winter is cut once, before its stems rise.
    """
    if plant == "woad" and start == "overwintered":
        return max(done, planning.SECOND_YEAR_CUTS)
    most = done + planning.cuts_left(done)
    return most if most <= MOST_DONE else None


def _growth(bed: Bed, *, today: date) -> GrowthRecord | None:
    try:
        return growth_record(bed, today=today)
    except InputError:
        return None


def _sizes(limits: Limits) -> tuple[TubSize, ...]:
    return tuple(TubSize(volume_l=float(one["volume_l"]), count=int(one["count"])) for one in limits.tubs)


def _wants(garden: Garden, *, today: date) -> tuple[SeasonWant, ...]:
    """Open wants with a day to come: the pure blue still to be made for each, once the jars have given theirs."""
    coming = [want for want in plan.wants(garden) if want.by_day and want.by_day >= today]
    if not coming:
        return ()
    record = planning.plan_record(garden, wants=coming, basis=plan.basis(garden), today=today)
    if record is None:
        return ()
    # What beds give and the days back are the schedule's own question.
    taken = planning.planned(replace(record, beds=(), weather=None)).wants
    return tuple(
        SeasonWant(name=one.name, on=one.by, blue_g=round(one.to_make_g.p50, 3))
        for one in taken
        if one.kind in {"cloth", "pigment"} and one.by is not None and one.to_make_g.p50 >= planning.LEAST_G
    )


def _running(
    garden: Garden, limits: Limits, *, today: date, former: SeasonAnswer | None
) -> tuple[RunningTub, ...]:  # fmt: skip
    """Tubs that steep, each as the smallest size that holds it and is not taken yet; of those too many none."""
    zone, free = ZoneInfo(garden.time_zone), {one.volume_l: one.count for one in _sizes(limits)}
    before = {} if former is None else {one.id: one.strain_on for one in former.steeps if one.id}
    days = {steep: steep.started_at.astimezone(zone).date() for steep in tubs.steeping(garden)}
    lately = {steep: day for steep, day in days.items() if 0 <= (today - day).days <= queries.MOST_TUB_D}
    air, logged, found = tubs.air_by_tub(garden, lately), tubs.logged_by_tub(lately), []
    for steep, filled in lately.items():
        leaf_kg, sizes = sum(one.leaf_kg for one in steep.leaf.all()), [size for size in sorted(free) if free[size]]
        if not sizes or leaf_kg <= 0:
            continue
        size = next((size for size in sizes if size >= steep.water_l), sizes[-1])
        free[size] -= 1
        call = _call(steep, air=air[steep.pk], logged=logged[steep.pk])
        seen = steep.readings.all() or logged[steep.pk]
        found.append(
            RunningTub(
                id=steep.name, volume_l=size, plant=word(steep.plant), leaf_kg=leaf_kg, filled=filled,
                best=_best(call) if call and seen else None, best_g=_best_g(call) if call else None,
                planned=before.get(steep.name),
            )
        )  # fmt: skip
    return tuple(found)


def _call(steep: Steep, *, air: Sequence[AirTemp], logged: Sequence[TubTemp]) -> SteepAnswer | None:
    """The strain call of a tub as it stands; None where none can be made."""
    try:
        record = steep_record(steep, air=air, logged=logged, now=timezone.now())
        return calls.strain_call(steep.pk, taught(record, steep))
    except BluewrightError:
        return None


def _best(call: SteepAnswer) -> BestAfter:
    """When a tub is at its best."""
    days = [round(max(hours / DAY_H, LEAST_D), 2) for hours in (call.best_h.p5, call.best_h.p50, call.best_h.p95)]
    return BestAfter(p5_d=days[0], p50_d=days[1], p95_d=days[2])


def _best_g(call: SteepAnswer) -> BestGrams:
    """What a tub gives then."""
    best = call.recoverable_g.best
    grams = [max(one, LEAST) for one in (best.p5, best.p50, best.p95)]
    return BestGrams(p5_g=grams[0], p50_g=grams[1], p95_g=grams[2])


def _drying(garden: Garden, limits: Limits, *, today: date) -> tuple[DryingNow, ...]:
    zone, found = ZoneInfo(garden.time_zone), []
    for dish in queries.drying_now(garden):
        until = dish.started_at.astimezone(zone).date() + timedelta(days=limits.drying_d or DRYING_D)
        found.append(DryingNow(until=max(until, today + timedelta(days=1))))
    return tuple(found[:60])


def _former(row: Schedule, *, beds: Mapping[str, str], today: date) -> tuple[FormerCut, ...]:
    """Cuts of the schedule before that are still to come, by the names that beds have now."""
    names = {key: name for name, key in beds.items()}
    answer = answer_of(row)
    return tuple(
        FormerCut(bed=names[row.beds[cut.bed]], on=cut.on)
        for cut in (answer.cuts if answer else ())
        if cut.on >= today and row.beds.get(cut.bed) in names
    )


def planned_cuts(row: Schedule, answer: SeasonAnswer) -> dict[str, PlannedCut]:
    """By key of the bed its next planned cut."""
    found: dict[str, PlannedCut] = {}
    for cut in answer.cuts:
        key = row.beds.get(cut.bed)
        if key is not None:
            found.setdefault(key, cut)
    return found
