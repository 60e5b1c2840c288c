"""From the record of a season to its numbers: beds' ways, steeps of each day, hours, rooms, wants."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.media.air_temp import northern_day
from bluewright.science.media.basket import LeafState, Plant
from bluewright.science.media.precursor import GOT_FRAC, STORAGE_LOSS_PER_H, draw_mmol_per_kg
from bluewright.science.media.stoichiometry import INDIGO_G_PER_MMOL_PRECURSOR
from bluewright.science.media.weather.days import Bools
from bluewright.science.pigment.priors import KEPT
from bluewright.science.plan.schedule_priors import (
    CUT_H_PER_KG,
    DRY_D,
    EXTRA_G_PER_H,
    FILL_H,
    LATE_FRAC,
    LEAF_KG_PER_L,
    LOOK_H,
    MOVE_FRAC_PER_D,
    NIGHT_H,
    REST_D,
    STRAIN_H,
    TRAY_M2_PER_KG,
    TUB_G,
    WASH_D,
    WASH_H,
    WASH_WAIT_D,
)
from bluewright.science.plan.schedule_problem import Drying, Hours, Ints, Prices, Problem, Running, Size, Want
from bluewright.science.season.beds import DRAWS, Grown, all_ways, grown, season_warmth
from bluewright.science.season.record import SeasonRecord
from bluewright.science.season.steeps import MOST_D, Steeping, as_seen, choices, steeping, strainings, two_sided

COMING_WEEK_D: Final = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Set:
    """A season as the schedule needs it, and the draws behind it."""

    problem: Problem
    plants: tuple[Plant, ...]
    """The kinds of leaf, by number."""
    beds: tuple[Grown, ...]
    steeps: tuple[Steeping, ...]
    running: tuple[Steeping, ...]
    """The course of each running tub, by what was seen of it; of today alone."""
    running_g: tuple[Floats, ...]
    """Blue in the jar of each running tub, were it strained on the best day that can be planned for it, (n,)."""
    every_d: int


def season_set(record: SeasonRecord, *, rng: np.random.Generator) -> Set:
    """The season of a record."""
    plants = tuple(dict.fromkeys([*(bed.plant for bed in record.beds), *(tub.plant for tub in record.running)]))
    seed = int(rng.integers(2**32))
    warm = {plant: season_warmth(record, plant, seed=seed) for plant in plants}
    beds = tuple(
        grown(record, bed, kind=plants.index(bed.plant), season=warm[bed.plant], rng=rng) for bed in record.beds
    )
    steeps = tuple(
        steeping(plant, season=warm[plant], today=warm[plant].at(record.now), method=record.method) for plant in plants
    )
    free_h = _free(record)
    workable: Bools = free_h > 0
    chosen = tuple(choices(one, workable=workable, clash_chance=record.clash_chance) for one in steeps)
    kept = [_best_kept(one.fill, one.kept_frac, len(free_h)) for one in chosen]
    ways, every_d = all_ways(beds, workable=workable, kept_frac=kept)
    running = tuple(as_seen(steeps[plants.index(tub.plant)], tub.best) for tub in record.running)
    running_g = tuple(_running_blue_g(record, k, steep, rng=rng) for k, steep in enumerate(running))
    problem = Problem(
        days=len(free_h),
        free_h=free_h,
        extra_h=np.where(workable, record.extra_h, 0.0),
        beds=tuple(ways),
        sizes=_sizes(record),
        steeps=chosen,
        hours=_hours(record),
        drying=_drying(record, len(free_h)),
        prices=_prices(plants),
        wants=_wants(record),
        ready_g=record.ready_g,
        running=_running(record, running, running_g, workable),
        kept_days=_kept_days(record),
    )
    return Set(
        problem=problem, plants=plants, beds=beds, steeps=steeps, running=running, running_g=running_g, every_d=every_d
    )  # fmt: skip


def _free(record: SeasonRecord) -> Floats:
    """Hours free on each day from today on."""
    first, days = record.now.toordinal(), (record.last - record.now).days + 1
    found = np.array([record.free_h[date.fromordinal(first + day).weekday()] for day in range(days)], dtype=float)
    for gone in record.away:
        found[max(0, gone.first.toordinal() - first) : max(0, gone.last.toordinal() - first + 1)] = 0.0
    return found


def _best_kept(fill: Ints, kept: Floats, days: int) -> Floats:
    """What the best steep that can be had from each day on keeps; 0 where there is none."""
    found = np.zeros(days)
    np.maximum.at(found, fill, kept)
    return found


def _or(own: float | None, usual: Sourced) -> float:
    return usual.value if own is None else own


def _sizes(record: SeasonRecord) -> tuple[Size, ...]:
    rest_d = round(_or(record.work.rest_d, REST_D))
    return tuple(
        Size(count=one.count, leaf_kg=one.leaf_kg or LEAF_KG_PER_L.value * one.volume_l, rest_d=rest_d)
        for one in record.tubs
    )


def _hours(record: SeasonRecord) -> Hours:
    work = record.work
    return Hours(
        cut_h_per_kg=_or(work.cut_h_per_kg, CUT_H_PER_KG), fill_h=_or(work.fill_h, FILL_H),
        look_h=_or(work.look_h, LOOK_H), strain_h=_or(work.strain_h, STRAIN_H), wash_h=_or(work.wash_h, WASH_H),
        wait_d=round(WASH_WAIT_D.value),
    )  # fmt: skip


def _drying(record: SeasonRecord, days: int) -> Drying:
    drying, room = record.drying, None
    sizes = _sizes(record)
    per_kg = _or(drying.m2_per_leaf_kg, TRAY_M2_PER_KG)
    needed = tuple(1.0 if drying.tray_m2 is None else per_kg * size.leaf_kg for size in sizes)
    limit = drying.tubs if drying.tray_m2 is None else drying.tray_m2
    if limit is not None:
        room = np.full(days, float(limit))
        for one in record.drying_now:
            until = max(0, (one.until - record.now).days)
            room[:until] = np.maximum(0.0, room[:until] - (one.tubs if drying.tray_m2 is None else one.tray_m2))
    return Drying(
        wash_d=round(_or(record.work.wash_d, WASH_D)), dry_d=round(_or(drying.days, DRY_D)), needed=needed, room=room
    )


def _prices(plants: Sequence[Plant]) -> Prices:
    return Prices(
        late_frac=LATE_FRAC.value, tub_g=TUB_G.value,
        extra_g_per_h=EXTRA_G_PER_H.value, move_frac_per_d=MOVE_FRAC_PER_D.value,
        held_frac=tuple(
            float(1 - np.exp(-STORAGE_LOSS_PER_H[plant].centre * NIGHT_H.value)) for plant in plants
        ),
    )  # fmt: skip


def _wants(record: SeasonRecord) -> tuple[Want, ...]:
    rows = sorted(record.wants, key=lambda want: want.on)
    return tuple(Want(day=(want.on - record.now).days, blue_g=want.blue_g) for want in rows)


def _running_blue_g(record: SeasonRecord, number: int, steep: Steeping, *, rng: np.random.Generator) -> Floats:
    """Blue in the jar of a running tub on the best day that can be planned for it, (n,).

    By its strain call, less what washing and drying lose; that call speaks of the best moment of each member, a plan
    of one day for all. Without one: leaf of the season, share commonly got, in which all that is. How much a tub gives
    and how soon are drawn apart.
    """
    tub = record.running[number]
    if tub.best_g is not None:
        told = tub.best_g
        best = two_sided(rng.standard_normal(DRAWS), p5=told.p5_g, p50=told.p50_g, p95=told.p95_g)
        return np.asarray(best * KEPT.draw(rng, DRAWS) * steep.best_frac[0])
    of_year = northern_day(tub.filled, hemisphere=record.weather.hemisphere)
    mmol_per_kg = draw_mmol_per_kg(tub.plant, leaf=LeafState(), day_of_year=of_year, held_temp_c=20.0, rng=rng, n=DRAWS)
    return np.asarray(tub.leaf_kg * INDIGO_G_PER_MMOL_PRECURSOR * mmol_per_kg * GOT_FRAC.draw(rng, DRAWS))


def _running(
    record: SeasonRecord, steeps: Sequence[Steeping], blue_g: Sequence[Floats], workable: Bools
) -> tuple[Running, ...]:
    """Tubs that steep already, each with the working days that suit its straining.

    One that has steeped longer than is looked at is strained on the first working day; on the last day of a season that
    has no working day left.
    """
    volume_l, found = [size.volume_l for size in record.tubs], []
    for tub, steep, grams in zip(record.running, steeps, blue_g, strict=True):
        gone_d = min((record.now - tub.filled).days, MOST_D)
        able = strainings(steep.middle_frac[0], workable, fill=0, gone_d=gone_d)
        first = np.flatnonzero(workable)
        able = able or [(int(first[0]) if len(first) else len(workable) - 1, float(steep.middle_frac[0, MOST_D]))]
        found.append(
            Running(
                size=volume_l.index(tub.volume_l), leaf_kg=tub.leaf_kg, blue_g=float(grams.mean()),
                strain=np.array([day for day, _ in able], dtype=np.int64),
                busy_until=np.array([day for day, _ in able], dtype=np.int64),
                kept_frac=np.array([kept for _, kept in able], dtype=float),
            )
        )  # fmt: skip
    return tuple(found)


def _kept_days(record: SeasonRecord) -> dict[int, int]:
    """By bed: the day of its cut that was planned for the coming week."""
    found: dict[int, int] = {}
    names = [bed.id for bed in record.beds]
    for cut in sorted(record.former, key=lambda one: one.on, reverse=True):
        day = (cut.on - record.now).days
        if cut.bed in names and 0 <= day < COMING_WEEK_D:
            found[names.index(cut.bed)] = day
    return found
