"""A garden's wants, jars and way of working become the record of its plan."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date
from functools import lru_cache

import numpy as np

from bluewright.journal.bridge import outlooks
from bluewright.journal.bridge.learned import blue_of
from bluewright.journal.bridge.own_blue import own_jar
from bluewright.journal.bridge.stock import pure_left_g
from bluewright.journal.bridge.stored import word
from bluewright.journal.bridge.watering import climate_of
from bluewright.journal.models import Bed, Garden, Jar, PlanBasis, Want
from bluewright.journal.queries import jars, kept, plan
from bluewright.science.base.bands import Band, log_sd_of, significant
from bluewright.science.bed.growth_record import GrowthAnswer
from bluewright.science.media.dry_pigment import MOISTURE_FRAC
from bluewright.science.media.purity import PURITY
from bluewright.science.media.weather.record import Weather
from bluewright.science.plan.chain_record import (
    ClothPlanAnswer,
    ClothPlanRecord,
    ClothWant,
    JarAtHand,
    OwnFigures,
    PigmentWant,
    StandingBed,
    Vat,
)
from bluewright.science.plan.schedule_priors import MOST_CUTS
from bluewright.science.thread import plan_cloth

MOST_BEDS = 60
SECOND_YEAR_CUTS = 1
"""Woad that stood over winter is cut once, before its stems rise."""
LIKELY = 0.5
"""A bed whose next cut comes in this season with a smaller chance is not counted."""
MOST_FACTOR = 10.0
"""A forecast that is wider says nothing."""
LEAST_G = 0.001
"""A jar that holds less pure indigo counts as empty."""


def plan_record(garden: Garden, *, wants: Sequence[Want], basis: PlanBasis, today: date) -> ClothPlanRecord | None:
    """The record of a garden's open wants; None where nothing is wanted and no jar holds anything that is known."""
    open_ones = [want for want in wants if want.state == "open"][: plan.MOST_WANTS]
    at_hand, beds = jars_at_hand(garden), standing_beds(garden, plant=basis.plant, today=today)
    if not open_ones and not at_hand and not beds:
        return None
    return ClothPlanRecord(
        id=garden.name,
        plant=word(basis.plant),
        cloth=tuple(_cloth(want, today) for want in open_ones if want.what == "cloth"),
        pigment=tuple(_pigment(want, today) for want in open_ones if want.what == "pigment"),
        jars=at_hand,
        beds=beds,
        vat=None if basis.vat_l is None else Vat(vat_l=basis.vat_l, in_it_g=basis.in_it_g),
        vat_kind=word(basis.vat_kind),
        steep_kind=word(basis.steep_kind),
        own=_own(garden, plant=basis.plant, today=today),
        tub_l=basis.tub_l,
        bed_width_m=basis.width_m,
        wanted_chance=basis.chance,
        now=today,
        weather=None
        if garden.latitude_deg is None
        else Weather(latitude_deg=garden.latitude_deg, altitude_m=garden.altitude_m or 0.0, normals=climate_of(garden)),
    )


def _own(garden: Garden, *, plant: str, today: date) -> OwnFigures | None:
    """What the garden's memory believes of its blue; while it is not reckoned, or has no jar of the plant, the measured
    jars themselves."""
    blue = blue_of(garden, plant=plant, on=today)
    if blue is not None:
        return OwnFigures(blue=blue)
    own = own_blue_g_per_kg(garden, plant=plant)
    return OwnFigures(blue_g_per_kg=tuple(own)) if own else None


@lru_cache(maxsize=32)
def planned(record: ClothPlanRecord) -> ClothPlanAnswer:
    """What a plan takes. Raises InputError and ModelError as the science does."""
    return plan_cloth(record, rng=np.random.default_rng(record.seed))


def standing_beds(garden: Garden, *, plant: str, today: date) -> tuple[StandingBed, ...]:
    """Beds of a plant that will still give a cut this season, as far as their forecasts are reckoned by now."""
    known = outlooks.kept(garden, today=today).known
    beds = Bed.objects.filter(garden=garden, plant=plant, pk__in=known)
    found = (_standing(bed, known[bed.pk].growth) for bed in beds)
    return tuple(one for one in found if one is not None)[:MOST_BEDS]


def _standing(bed: Bed, growth: GrowthAnswer | None) -> StandingBed | None:
    """A bed with the forecast of its growth; None where it gives no more, or its area is not known."""
    if growth is None or growth.leaf_kg is None or growth.in_season_chance < LIKELY:
        return None
    second_year = growth.inputs.start == "overwintered"
    left = SECOND_YEAR_CUTS - len(growth.inputs.cuts) if second_year else cuts_left(len(growth.inputs.cuts))
    cuts = min(round(growth.further_cuts.p50), left)
    if cuts < 1:
        return None
    log_sd = log_sd_of(growth.leaf_kg)
    return StandingBed(
        name=bed.name, leaf_kg=growth.leaf_kg.p50, cuts=cuts, least_cuts=min(int(growth.further_cuts.p5), cuts),
        spread_factor=min(significant(math.exp(log_sd), 3), MOST_FACTOR), next_on=growth.ready_on.middle,
        second_year=second_year,
    )  # fmt: skip


def cuts_left(done: int) -> int:
    """Cuts that a bed may still have this season: what is usual less those done; one that gave all those may give one
    more, since it shows that the usual number does not hold for it."""
    return max(round(MOST_CUTS.value) - done, 1)


def own_blue_g_per_kg(garden: Garden, *, plant: str) -> list[float]:
    """Pure indigo got of a kilogram of leaf, by each jar of a plant whose indigo was measured.

    Measured purity, dry mass and leaf alone: no prior is in it, since the plan joins it to one.
    """
    found = [own_jar(jar) for jar in jars.whole(garden, plan.measured_jars(garden), looks=False, work=False)]
    return [significant(one.g_per_kg) for one in found if one is not None and one.measured and one.plant == plant]


def jars_at_hand(garden: Garden) -> tuple[JarAtHand, ...]:
    """Jars that hold something; of one whose indigo nobody knows, what pigment usually holds, widely."""
    return tuple(one for one in map(_at_hand, kept.held_jars(garden)) if one.pure_g >= LEAST_G)


def not_measured(garden: Garden) -> list[str]:
    """Names of jars that hold something of which nobody knows how much is indigo."""
    return [jar.name for jar in kept.held_jars(garden) if pure_left_g(jar) is None]


def _at_hand(jar: Jar) -> JarAtHand:
    pure = pure_left_g(jar)
    if pure is None:
        usual = PURITY["unknown"]["woad"]
        pure_g = max(jars.left_g(jar), LEAST_G) * (1 - MOISTURE_FRAC.centre) * usual.centre
        return JarAtHand(name=jar.name, pure_g=pure_g, sd_frac=significant(usual.spread * (1 - usual.centre), 2))
    return JarAtHand(
        name=jar.name, pure_g=max(pure.p50, LEAST_G / 2), sd_frac=significant(_sd(pure), 2),
        assayed=is_assayed(jar),
    )  # fmt: skip


def is_assayed(jar: Jar) -> bool:
    """Whether what is said of a jar rests on an assay of one's own."""
    return any(True for _ in jar.assays.all())


def _sd(band: Band) -> float:
    """The relative standard deviation of a log-normal with this band, at most 1."""
    log_sd = log_sd_of(band) if band.p5 > 0 else 1.0
    return min(math.sqrt(math.expm1(log_sd**2)), 1.0)


def due(want: Want, today: date) -> date | None:
    """The day on which it must be ready; what is overdue is due today."""
    return None if want.by_day is None else max(want.by_day, today)


def _cloth(want: Want, today: date) -> ClothWant:
    return ClothWant(
        name=want.name, fibre=word(want.fibre), mass_kg=want.mass_g / 1000, basis=word(want.basis),
        depth=None if want.fixed_frac else word(want.depth), fixed_frac=want.fixed_frac, by=due(want, today),
    )  # fmt: skip


def _pigment(want: Want, today: date) -> PigmentWant:
    return PigmentWant(name=want.name, mass_g=want.mass_g, purity_frac=want.purity_frac, by=due(want, today))
