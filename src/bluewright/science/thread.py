"""The thread: a whole batch, from basket to jar. The only place that composes stages.

A stage never knows where its beliefs come from; here the leaf tells the steep what it holds and the tub's heat tells
it how warm it was and will be.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, log_sd_of, sd_of
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.bed import growth_priors
from bluewright.science.bed.densities import TARGETS_PER_M2
from bluewright.science.leaf.potential import draw_mmol_per_kg
from bluewright.science.leaf.record import PotentialAnswer
from bluewright.science.media.air_temp import northern_day
from bluewright.science.media.basket import SAP_L_PER_KG, LeafState, Plant
from bluewright.science.media.dry_pigment import MOISTURE_FRAC
from bluewright.science.media.precursor import GOT_FRAC
from bluewright.science.media.purity import PURITY, Known
from bluewright.science.media.stoichiometry import INDIGO_G_PER_MMOL_PRECURSOR
from bluewright.science.media.tub_heat import Seen, sample_paths
from bluewright.science.media.tub_temp import air_error_c, hourly, points
from bluewright.science.media.tub_temp_record import THERMOMETER_ERROR
from bluewright.science.pigment.yield_record import Potential, YieldRecord
from bluewright.science.plan import chain
from bluewright.science.plan.chain_crop import Crop, Growing
from bluewright.science.plan.chain_record import ClothPlanAnswer, ClothPlanRecord, Start
from bluewright.science.steep import call as strain
from bluewright.science.steep import ensemble
from bluewright.science.steep.answer import SteepAnswer
from bluewright.science.steep.ensemble import MEMBERS, Ensemble
from bluewright.science.steep.record import SteepRecord
from bluewright.science.strain.record import StrainAnswer

KEPT_AT: Final[dict[str, Prior]] = {
    "warm": Prior(
        kind="normal", centre=35.0, spread=4.0, unit="C", source="common-practice", grade="practice",
        note="a warm steep is kept at 25 to 45 C",
    ),
    "hot": Prior(
        kind="normal", centre=75.0, spread=6.0, unit="C", source="common-practice", grade="practice",
        note="a hot steep is kept above 60 C",
    ),
}  # fmt: skip
HELD_AT: Final = Sourced(
    value=18.0, unit="C", source="common-practice", low=10.0, high=28.0, grade="guess",
    note="the air in which picked leaf waited, when nothing is known",
)  # fmt: skip
CONTENT_DRAWS: Final = 4000


def begin_steep(
    record: SteepRecord, *, rng: np.random.Generator, members: int = MEMBERS, between: Callable[[], None] | None = None
) -> Ensemble:
    """The ensemble of a steep after every reading of its record; `between` its parts of some 0.1 s that is called."""

    def paths(hours: Floats, n: int) -> Floats:
        return tub_paths(record, hours, rng=rng, n=n)

    content = content_of(record, rng=rng)
    return strain.begin(record, content=content, temp_paths=paths, rng=rng, members=members, between=between)


def strain_call(record: SteepRecord, *, rng: np.random.Generator) -> SteepAnswer:
    """The strain call for a record, from scratch."""
    return strain.answer(begin_steep(record, rng=rng))


def next_strain_call(kept: Ensemble, record: SteepRecord, *, rng: np.random.Generator) -> tuple[Ensemble, SteepAnswer]:
    """The strain call for a record that has readings beyond those of a kept ensemble, and the new ensemble to keep.

    Only what was appended is taken in; if anything earlier was changed the ensemble starts afresh.
    """
    grown = ensemble.extend(kept, record, rng=rng) or begin_steep(record, rng=rng, members=len(kept.weights))
    return grown, strain.answer(grown)


def content_of(record: SteepRecord, *, rng: np.random.Generator) -> Prior:
    """What the leaf of a record is believed to hold, mmol for each kilogram put in: a log-normal."""
    drawn = draw_mmol_per_kg(
        record.plant,
        leaf=record.leaf,
        day_of_year=northern_day(record.started, hemisphere=record.hemisphere),
        held_temp_c=HELD_AT.value,
        rng=rng,
        n=CONTENT_DRAWS,
    )
    return Prior(
        kind="lognormal",
        centre=float(np.median(drawn)),
        spread=float(np.std(np.log(drawn))),
        unit="mmol/kg",
        source="rocha-2011",
        grade="fitted",
        note="the leaf stage's draws for this plant, age, season, damage and hours held",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class TubThread:
    """What the earlier answers of one tub say, and the share of it that is followed: its part in a batch or a jar."""

    potential: PotentialAnswer
    """What its leaf could give."""
    call: SteepAnswer
    """The last strain call before straining."""
    strained: StrainAnswer
    """Where its blue went at straining."""
    share_frac: float = 1.0
    """Share of its strained liquor that is followed, 0 to 1."""


def jar_record(jar: YieldRecord, *, tubs: Sequence[TubThread]) -> YieldRecord:
    """The jar's record with what the earlier answers of its thread say of leaf, steep and straining.

    A band becomes a middle and a spread: of a share, that of a normal with its ends; of the potential, the same of
    its logarithm. Tubs that were joined: potentials add up; shares and spreads are means weighted by potential, for the
    doubts of tubs of one garden are mostly the same doubt.
    Raises InputError without a tub.
    """
    if not tubs:
        raise InputError(where="tubs", what="no tub is given", right="give at least the tub that the liquor came from")
    middles_g = [tub.share_frac * tub.potential.potential_g.p50 for tub in tubs]
    weights = [middle_g / sum(middles_g) for middle_g in middles_g]
    log_sds = [log_sd_of(t.potential.potential_g) for t in tubs]
    return replace(
        jar,
        potential=Potential(median_g=sum(middles_g), log_sd=_mean(log_sds, weights)),
        steep=_known([tub.call.now_in_liquor_frac for tub in tubs], weights),
        blue_out=_known([tub.strained.blue_out_frac for tub in tubs], weights),
    )


def expected_indigo_g(tubs: Sequence[TubThread]) -> Band:
    """Pure indigo that a batch's liquor is believed to hold: what straining each tub gave, times what ran out.

    The bands of joined tubs add up end to end, as of one doubt.
    """
    parts = [(tub.call.recoverable_g.now, tub.strained.blue_out_frac.p50 * tub.share_frac) for tub in tubs]
    return Band(
        p5=sum(now_g.p5 * kept for now_g, kept in parts),
        p50=sum(now_g.p50 * kept for now_g, kept in parts),
        p95=sum(now_g.p95 * kept for now_g, kept in parts),
    )


def plan_cloth(record: ClothPlanRecord, *, rng: np.random.Generator) -> ClothPlanAnswer:
    """What is wanted back to leaf, area and days, by what the beds and the leaf are believed to give."""
    return chain.plan_cloth(record, crop=crop_of(record.plant, start=record.start, rng=rng), rng=rng)


def crop_of(plant: Plant, *, start: Start, rng: np.random.Generator) -> Crop:
    """A plant of no garden in particular: leaf of a ready cut, blue commonly got of it, and its warmth.

    What is not known of a garden's blue is what the whole doubt is more than the scatter from batch to batch, as in
    the forecast of a bed.
    """
    mmol_per_kg = draw_mmol_per_kg(
        plant, leaf=LeafState(), day_of_year=None, held_temp_c=HELD_AT.value, rng=rng, n=CONTENT_DRAWS
    )
    blue = np.log(INDIGO_G_PER_MMOL_PRECURSOR * mmol_per_kg * GOT_FRAC.draw(rng, CONTENT_DRAWS))
    full = growth_priors.FULL_KG_PER_M2[plant]
    return Crop(
        leaf_kg_per_m2=replace(full, centre=full.centre * growth_priors.READY_FRAC.value),
        leaf_season_sd=growth_priors.SEASON_SD.value,
        leaf_cut_sd=growth_priors.CUT_SD.centre,
        blue_g_per_kg=Prior(
            kind="lognormal", centre=math.exp(float(blue.mean())), unit="g/kg",
            source="bluewright-leaf", grade="fitted",
            spread=math.sqrt(max(float(blue.var()) - growth_priors.BLUE_CUT_SD.value**2, 0.0)),
            note="precursor of the season, times the share commonly got",
        ),
        blue_batch_sd=growth_priors.BLUE_CUT_SD.value,
        purity=PURITY["unknown"][plant],
        moisture=MOISTURE_FRAC,
        plants_per_m2=TARGETS_PER_M2[plant]["leaf"].value,
        growing=Growing(
            base_c=growth_priors.BASE_C[plant].value,
            first_degree_d=growth_priors.RIPE_FIRST_D[plant],
            first_factor=growth_priors.START_FACTOR[start].value,
            again_degree_d=growth_priors.RIPE_AGAIN_D[plant],
            ends=growth_priors.SEASON_ENDS[plant],
        ),
    )  # fmt: skip


def _known(shares: Sequence[Band], weights: Sequence[float]) -> Known:
    spread = _mean([sd_of(share) for share in shares], weights)
    return Known(mean_frac=_mean([share.p50 for share in shares], weights), sd_frac=max(0.001, spread))


def _mean(values: Sequence[float], weights: Sequence[float]) -> float:
    return sum(value * weight for value, weight in zip(values, weights, strict=True))


def tub_paths(record: SteepRecord, hours: Floats, *, rng: np.random.Generator, n: int) -> Floats:
    """`n` paths (n, t) of the tub's temperature at `hours` since the start, by all the record says of temperature."""
    start = record.started.astimezone(record.now.tzinfo)
    return sample_paths(
        hours,
        tub=record.tub,
        liquid_l=record.water_l + SAP_L_PER_KG.centre * record.leaf_kg,
        clock_h=start.hour + start.minute / 60,
        day_of_year=northern_day(start, hemisphere=record.hemisphere),
        tub_seen=_seen(record, "tub"),
        air_seen=_seen(record, "air"),
        hold_c=KEPT_AT.get(record.method),
        rng=rng,
        n=n,
    )


def _seen(record: SteepRecord, where: str) -> Seen:
    """Every temperature of one place, with the tub's own from the readings, as hours, degrees and errors."""
    found = []
    for row in record.temps:
        if row.where == where:
            ahead_h = (row.time - record.now) / timedelta(hours=1)
            error_c = THERMOMETER_ERROR.value
            if where == "air" or row.forecast:
                error_c = air_error_c(ahead_h, forecast=row.forecast)
            found.append(((row.time - record.started) / timedelta(hours=1), row.temp_c, error_c))
    if where == "air":
        return points(hourly(found))
    for reading in record.readings:
        if reading.temp_c is not None:
            after_h = (reading.time - record.started) / timedelta(hours=1)
            found.append((after_h, reading.temp_c, THERMOMETER_ERROR.value))
    return points(found)
