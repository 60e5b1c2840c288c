"""From wanted cloth and pigment back to pigment, leaf, tubs, area and dates, with every factor's spread.

Formula: area = sum(needed - jars) / (blue of a kilogram * leaf of a square metre and cut * cuts), each factor drawn
from what is believed of it; where all are log-normal this is the closed product of log-normals. What matters most is
found by holding one unknown at a time at its middle.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby
from typing import Final, get_args

import numpy as np

from bluewright.science.base.bands import band, quantiles, significant
from bluewright.science.base.sourced import Floats
from bluewright.science.media.cloth import Depth, Fibre, dry_kg
from bluewright.science.media.weather.days import Bools
from bluewright.science.plan.chain_cautions import cautions
from bluewright.science.plan.chain_crop import Crop, Learned, crop_of, learned
from bluewright.science.plan.chain_dates import Ahead, ahead, days_back, in_time_cuts
from bluewright.science.plan.chain_factors import (
    UNKNOWNS,
    Scores,
    blue_g_per_kg,
    fixed_of_drawn,
    fixed_prior,
    in_jars_g,
    leaf_kg_per_m2,
    purity_frac,
    reduces,
    scores,
)
from bluewright.science.plan.chain_forward import all_give, beds_scores, gives, worth_kg
from bluewright.science.plan.chain_needs import Need, needs, own_of, vat_short_g
from bluewright.science.plan.chain_priors import CUTS, LEAF_KG_PER_L
from bluewright.science.plan.chain_record import (
    CanDye,
    ClothPlanAnswer,
    ClothPlanRecord,
    ClothWant,
    DaysBack,
    Matters,
    Taken,
)

DRAWS: Final = 4000
SOURCES: Final = (
    "angelini-2004",
    "bluewright-bed",
    "bluewright-cloth",
    "bluewright-leaf",
    "bluewright-yield",
    "fwi-woad",
)
SAID_FRAC: Final = 0.005
"""What makes less of the doubt is not told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What a plan stands on: the crop after own figures, the cuts in time for each day wanted, the batches."""

    crop: Crop
    known: Learned
    cuts: Mapping[date | None, Floats]
    """Cuts in time for a day, None for some time, at least 1, each of shape (n,)."""
    batches: int

    def blue_g_per_kg(self, at: Scores) -> Floats:
        """Pure indigo of a kilogram over the season's batches."""
        return blue_g_per_kg(self.crop, self.known, at, batches=self.batches)

    def leaf_kg_per_m2(self, at: Scores, *, by: date | None) -> Floats:
        """Leaf of a square metre over all its cuts in time for a day."""
        cuts = self.cuts[by]
        return leaf_kg_per_m2(self.crop, self.known, at, cuts=cuts) * cuts


def plan_cloth(record: ClothPlanRecord, *, crop: Crop, rng: np.random.Generator) -> ClothPlanAnswer:
    """What the wants take, with the area for the chance asked for, what matters most, and the days back.

    Sources: the factors' own (`media.cloth`, `chain_priors`, and of the crop `bed` and `media.precursor`).
    """
    crop = crop_of(crop, own_of(record))
    at, known, soon = (
        scores(DRAWS, rng=rng, beds=beds_scores(record)),
        learned(crop, own_of(record)),
        ahead(record, crop.growing, rng=rng),
    )
    parts = needs(record, known, at)
    counted = {by: _cuts(record, soon, at, by=by, rng=rng) for by in (*dict.fromkeys(part.by for part in parts), None)}
    ground = _ground(record, parts, crop, known, counted, at)
    cuts = ground.cuts
    got, days, sown = _reached(record, parts, ground, at, soon, rng=rng)
    enough, area = area_m2(record, parts, ground, at) == 0, area_m2(record, sown, ground, at)
    fills = _leaf_kg(parts, ground, at) / _fill_kg(record)
    blue, pure_frac = ground.blue_g_per_kg(at), _pure_frac(record, ground, at)
    sure_m2 = significant(float(quantiles(area, [record.wanted_chance])[0]))
    width = record.bed_width_m
    return ClothPlanAnswer(
        id=record.id,
        wants=tuple(_taken(part, record, ground, at, beds_kg=kg) for part, kg in zip(parts, got, strict=True)),
        total=_taken(_together(parts), record, ground, at, beds_kg=sum(got, np.zeros(DRAWS)), area=area),
        jars_enough_chance=_chance(sum((part.to_make_g for part in parts), np.zeros(DRAWS)) == 0),
        enough_chance=_chance(enough),
        area_for_chance_m2=sure_m2,
        area_enough_chance=None if record.area_m2 is None else _chance(area <= record.area_m2),
        bed_m=None if width is None else band(area / width),
        bed_for_chance_m=None if width is None else significant(sure_m2 / width),
        plants_for_chance=int(np.ceil(sure_m2 * crop.plants_per_m2)),
        tub_fills=None if record.tub_l is None else band(fills),
        tub_fills_for_chance=None if record.tub_l is None else _whole(fills, record.wanted_chance),
        cuts=band(cuts[None]),
        in_time_chance=_chance(np.all([counted[part.by] >= 1 for part in parts] or [cuts[None] >= 1], axis=0)),
        blue_g_per_kg=band(blue),
        leaf_kg_per_m2=band(leaf_kg_per_m2(crop, known, at, cuts=cuts[None])),
        own_blue_frac=significant(known.blue.own_frac),
        own_leaf_frac=significant(known.leaf.own_frac),
        beds=gives(record, crop, at, blue_g_per_kg=blue, pure_frac=pure_frac),
        all_beds=all_give(record, crop, at, blue_g_per_kg=blue, pure_frac=pure_frac),
        matters=matters(record, ground, at, now_m2=area, sown=sown),
        can_dye=_can_dye(record, known, at),
        days=days,
        basis="garden" if record.own is not None or any(jar.assayed for jar in record.jars) else "prior",
        inputs=record,
        cautions=cautions(record, crop, own_frac=known.blue.own_frac, enough=_sure(enough, record), sows=sure_m2 > 0),
        sources=SOURCES,
    )


def _ground(
    record: ClothPlanRecord, parts: Sequence[Need], crop: Crop, known: Learned,
    counted: Mapping[date | None, Floats], at: Scores,
) -> Ground:  # fmt: skip
    cuts = {by: np.maximum(each, 1.0) for by, each in counted.items()}
    ground = Ground(crop=crop, known=known, cuts=cuts, batches=1)
    return replace(ground, batches=_batches(record, parts, ground, at))


def area_m2(record: ClothPlanRecord, parts: Sequence[Need], ground: Ground, at: Scores) -> Floats:
    """Area for what is still to be made, shape (n,).

    Wants come in order of their days: the leaf of all up to a day must have grown in the cuts in time for it, and the
    area is the largest that any of these days asks for, beside the leaf that beds give by then.
    """
    made, area, blue = np.zeros(DRAWS), np.zeros(DRAWS), ground.blue_g_per_kg(at)
    for by, of_day in groupby(parts, key=lambda part: part.by):
        made = made + sum(part.to_make_g for part in of_day)
        short_kg = np.maximum(made / blue - worth_kg(record, ground.crop, at, by=by), 0.0)
        area = np.maximum(area, short_kg / ground.leaf_kg_per_m2(at, by=by))
    return area


def from_beds_kg(record: ClothPlanRecord, parts: Sequence[Need], ground: Ground, at: Scores) -> list[Floats]:
    """Leaf that each want gets of beds that stand, each (n,): what they give in time for it, less earlier wants'."""
    used, blue, found = np.zeros(DRAWS), ground.blue_g_per_kg(at), []
    for part in parts:
        there = worth_kg(record, ground.crop, at, by=part.by)
        found.append(np.minimum(part.to_make_g / blue, np.maximum(there - used, 0.0)))
        used = used + found[-1]
    return found


def _reached(
    record: ClothPlanRecord, parts: Sequence[Need], ground: Ground, at: Scores, soon: Ahead | None, *,
    rng: np.random.Generator,
) -> tuple[list[Floats], tuple[DaysBack, ...], list[Need]]:  # fmt: skip
    """Leaf that each want gets of beds that stand, the days back, and the needs that what is sown now still reaches."""
    got = from_beds_kg(record, parts, ground, at)
    days = days_back(record, parts, soon, served=_served(record, parts, ground, at, got), rng=rng)
    return got, days, still_sown(parts, days)


def _served(
    record: ClothPlanRecord, parts: Sequence[Need], ground: Ground, at: Scores, got: Sequence[Floats]
) -> list[bool]:
    """Which wants jars and beds that stand are enough for."""
    blue = ground.blue_g_per_kg(at)
    return [_sure(kg >= part.to_make_g / blue * (1 - 1e-9), record) for part, kg in zip(parts, got, strict=True)]


def still_sown(parts: Sequence[Need], days: Sequence[DaysBack]) -> list[Need]:
    """The needs that what is sown now can still reach: all but wants of which every day for sowing is over, and the vat
    with the first cloth."""
    late = {(one.name, one.by) for one in days if one.sow and (one.slack_d is None or one.slack_d < 0)}
    open_days = {part.by for part in parts if part.kind == "cloth" and (part.name, part.by) not in late}
    return [
        part
        for part in parts
        if (part.kind == "vat" and part.by in open_days) or (part.kind != "vat" and (part.name, part.by) not in late)
    ]


def matters(
    record: ClothPlanRecord, ground: Ground, at: Scores, *, now_m2: Floats, sown: Sequence[Need]
) -> tuple[Matters, ...]:
    """Each unknown held at its middle: the share of the area's doubt that goes, and how much narrower its range gets.

    Doubt is the variance of the area's logarithm; where jars may be enough in some draws, that of the area itself.
    """
    logs = bool(np.all(now_m2 > 0))
    whole, wide = _variance(now_m2, logs=logs), _width(now_m2)
    if wide == 0:
        return ()
    found = []
    for what in UNKNOWNS:
        held = at.held(what)
        fixed = ground if what != "cuts" else replace(ground, cuts=_middling(ground.cuts))
        held_needs = needs(record, ground.known, held)
        then = area_m2(record, [part for part in held_needs if _among(part, sown)], fixed, held)
        share = 1 - _variance(then, logs=logs and bool(np.all(then > 0))) / whole
        if share >= SAID_FRAC:
            narrower = significant(1 - _width(then) / wide)
            found.append(Matters(what=what, share_frac=significant(share), narrower_frac=narrower))
    return tuple(sorted(found, key=lambda one: -one.share_frac))


def _among(part: Need, sown: Sequence[Need]) -> bool:
    return any((part.kind, part.name, part.by) == (one.kind, one.name, one.by) for one in sown)


def _variance(area: Floats, *, logs: bool) -> float:
    return float(np.var(np.log(area) if logs else area))


def _width(area: Floats) -> float:
    low, high = quantiles(area, [0.05, 0.95])
    return float(high - low)


def _middling(cuts: Mapping[date | None, Floats]) -> dict[date | None, Floats]:
    return {by: np.full_like(each, np.median(each)) for by, each in cuts.items()}


def _cuts(
    record: ClothPlanRecord, soon: Ahead | None, at: Scores, *, by: date | None, rng: np.random.Generator
) -> Floats:
    """Cuts in time for a day, shape (n,): as typed, as the weather allows, or as is usual."""
    own = own_of(record).cuts
    if own is not None:
        return np.full(DRAWS, float(own))
    if soon is not None:
        return np.resize(in_time_cuts(record, soon, by=by, rng=rng), DRAWS)
    usual = CUTS[record.plant]
    steps = np.arange(usual.low, usual.high + 1)
    chance = 1 / (1 + np.exp(-1.702 * at.z["cuts"]))
    return np.asarray(steps[np.minimum((chance * len(steps)).astype(int), len(steps) - 1)])


def _leaf_kg(parts: Sequence[Need], ground: Ground, at: Scores) -> Floats:
    return np.asarray(sum((part.to_make_g for part in parts), np.zeros(DRAWS)) / ground.blue_g_per_kg(at))


def _fill_kg(record: ClothPlanRecord) -> float:
    """Leaf of one filling of a tub; a kilogram where no tub is told."""
    per_l = record.leaf_kg_per_l or LEAF_KG_PER_L.value
    return 1.0 if record.tub_l is None else record.tub_l * per_l


def _batches(record: ClothPlanRecord, parts: Sequence[Need], ground: Ground, at: Scores) -> int:
    """Batches over which scatter averages: the fillings in the middle case, or one for each cut."""
    if record.tub_l is None:
        return int(np.median(ground.cuts[None]))
    leaf = _leaf_kg(parts, ground, at)
    return max(1, round(float(np.median(leaf)) / _fill_kg(record)))


def _together(parts: Sequence[Need]) -> Need:
    def total(name: str) -> Floats:
        return np.asarray(sum((getattr(part, name) for part in parts), np.zeros(DRAWS)))

    return Need(
        want=None, by=None, on_cloth_g=total("on_cloth_g"), drawn_g=total("drawn_g"),
        needed_g=total("needed_g"), from_jars_g=total("from_jars_g"), to_make_g=total("to_make_g"),
    )  # fmt: skip


def _pure_frac(record: ClothPlanRecord, ground: Ground, at: Scores) -> Floats:
    """Pure indigo in air-dry pigment."""
    return purity_frac(own_of(record), ground.crop, ground.known, at) * (1 - ground.crop.moisture.centre)


def _taken(
    part: Need, record: ClothPlanRecord, ground: Ground, at: Scores, *, beds_kg: Floats, area: Floats | None = None
) -> Taken:
    """What one want takes for itself alone; with the area of all, what all of them take."""
    pure_frac = _pure_frac(record, ground, at)
    leaf = part.to_make_g / ground.blue_g_per_kg(at)
    return Taken(
        name=part.name,
        kind=part.kind if area is None else "all",
        by=part.by,
        on_cloth_g=band(part.on_cloth_g),
        drawn_g=band(part.drawn_g),
        needed_g=band(part.needed_g),
        from_jars_g=band(part.from_jars_g),
        to_make_g=band(part.to_make_g),
        pigment_g=band(part.to_make_g / pure_frac),
        leaf_kg=band(leaf),
        from_beds_kg=band(beds_kg),
        area_m2=band((leaf - beds_kg) / ground.leaf_kg_per_m2(at, by=part.by) if area is None else area),
    )


def _can_dye(record: ClothPlanRecord, known: Learned, at: Scores) -> tuple[CanDye, ...]:
    """Cloth = left of the jars once the vat stands * reduces * fixed of drawn / fixed on a gram of dry fibre."""
    if not record.jars:
        return ()
    own, jars = own_of(record), in_jars_g(record.jars, known, at)
    fibres: tuple[Fibre, ...] = tuple(dict.fromkeys(want.fibre for want in record.cloth)) or ("wool", "cotton")
    found = []
    for fibre in fibres:
        for depth in get_args(Depth):
            want = ClothWant(fibre=fibre, mass_kg=1.0, depth=depth)
            left = np.maximum(jars - vat_short_g(record, at, [want]), 0.0)
            fixed = left * reduces(own, at) * fixed_of_drawn(fibre, own, at)
            grams = 1000.0 * dry_kg(1.0, fibre=fibre) * fixed_prior(want).from_z(at.z["fixed"])
            found.append(CanDye(fibre=fibre, depth=depth, cloth_kg=band(fixed / grams)))
    return tuple(found)


def _sure(happened: Bools, record: ClothPlanRecord) -> bool:
    return bool(np.mean(happened) >= record.wanted_chance)


def _whole(counted: Floats, chance: float) -> int:
    """A whole number that is enough with a chance."""
    return int(np.ceil(quantiles(counted, [chance])[0]))


def _chance(happened: Bools) -> float:
    return significant(float(np.mean(happened)))
