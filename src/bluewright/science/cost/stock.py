"""What is left in the jars and the cupboard, and whether what is weighed agrees with what is booked."""

from __future__ import annotations

import math
from datetime import date
from typing import Final

import numpy as np

from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution, those_that_hold
from bluewright.science.base.sourced import Floats
from bluewright.science.cost.amounts import amount
from bluewright.science.cost.blue import pure_frac, purity, scores
from bluewright.science.cost.priors import (
    ALKALI_SD,
    DRIED_SD,
    DRIFT_SD,
    LOST_PER_MONTH,
    MONTH_D,
    USE_SD,
    WATER_OF_WASHING_SODA_FRAC,
)
from bluewright.science.cost.stock_record import (
    AlkaliInStock,
    AlkaliLeft,
    JarInStock,
    JarLeft,
    StockAnswer,
    StockRecord,
)
from bluewright.science.media.alkali_kind import FAMILY, Kind

DRAWS: Final = 4000
UNUSUAL_CHANCE: Final = 0.05
WEAK_FACTOR: Final = 0.9
"""Below this an alkali is worth a jar titration before the batch."""


def stock(record: StockRecord, *, rng: np.random.Generator) -> StockAnswer:
    """What every jar and pack holds, in sum too.

    Formula: left = put in - taken, or as weighed; pure = left (1 - moisture) purity, one purity score for all jars;
    alkali: strength = exp(-k months), lasts = left * strength / what a batch takes.
    """
    purity_z, moisture_z = scores(rng, DRAWS)
    left = {jar.name: jar_left_g(jar, rng=rng, n=DRAWS) for jar in record.jars}
    pure = {jar.name: left[jar.name] * pure_frac(jar, purity_z=purity_z, moisture_z=moisture_z) for jar in record.jars}
    jars = sorted((_jar(jar, left[jar.name], pure[jar.name], purity_z, rng) for jar in record.jars), key=_oldest)
    alkalis = sorted((_alkali(one, record.now, rng) for one in record.alkalis), key=_scarcest)
    return StockAnswer(
        id=record.id,
        left_g=band(np.sum(list(left.values()), axis=0)) if left else None,
        pure_g=band(np.sum(list(pure.values()), axis=0)) if pure else None,
        jars=tuple(jars),
        unexplained_jars=tuple(
            jar.name for jar in jars if jar.explained_chance is not None and jar.explained_chance < UNUSUAL_CHANCE
        ),
        alkalis=tuple(alkalis),
        basis="readings" if any(jar.purity or jar.weighed_g is not None for jar in record.jars) else "prior",
        inputs=record,
        cautions=_cautions(record, alkalis),
        sources=("bluewright-cost", "bluewright-yield", "trade-indigo-spec"),
    )


def booked_g(jar: JarInStock) -> float:
    """What is left by the book: put in less taken, never below nothing."""
    return max(jar.put_in_g - jar.taken_g, 0.0)


def booked_sd_g(jar: JarInStock) -> float:
    """How far the book may be off: one weighing at filling and one at each taking."""
    return jar.scale_sd_g * math.sqrt(1 + jar.takings)


def weighed_sd_g(jar: JarInStock) -> float:
    """How far a new weighing may lie from the mass at filling: the scale, and what damp came or went."""
    drift = (DRIED_SD if jar.dried_again else DRIFT_SD).value
    return math.hypot(jar.scale_sd_g, drift * booked_g(jar))


def explained_chance(difference_g: float, *, sd_g: float) -> float:
    """How often scale and damp alone bring a difference as large, of either sign: erfc(|d| / (sd sqrt 2))."""
    return math.erfc(abs(difference_g) / (sd_g * math.sqrt(2)))


def jar_left_g(jar: JarInStock, *, rng: np.random.Generator, n: int) -> Floats:
    """Pigment left: as weighed again, if it was, else by the book; nothing is below 0."""
    middle, sd = booked_g(jar), booked_sd_g(jar)
    if jar.weighed_g is not None:
        middle, sd = jar.weighed_g, weighed_sd_g(jar)
    if middle <= 0:
        return np.zeros(n)
    return np.asarray(middle * np.exp(min(sd / middle, 0.5) * rng.standard_normal(n)))


def strength_factor(kind: Kind, *, lost_per_month: Floats, open_months: float) -> Floats:
    """Strength beside a new pack's, after so many months open.

    exp(-k t); of washing soda the share 1 - exp(-k t) of the crystals has lost nine of its ten waters: what is left
    weighs less and is stronger, 1 / (1 - 0.567 (1 - exp(-k t))).
    """
    stays = np.exp(-lost_per_month * open_months)
    if kind == "washing_soda":
        return np.asarray(1 / (1 - WATER_OF_WASHING_SODA_FRAC.value * (1 - stays)))
    return np.asarray(stays)


def lasts_batches(left_amount: Floats, *, strength_factor: Floats, takes_amount: Floats) -> Floats:
    """How many batches a rest serves."""
    return left_amount * strength_factor / takes_amount


def _jar(jar: JarInStock, left: Floats, pure: Floats, purity_z: Floats, rng: np.random.Generator) -> JarLeft:
    difference = None if jar.weighed_g is None else jar.weighed_g - booked_g(jar)
    sd = math.hypot(booked_sd_g(jar), weighed_sd_g(jar))
    return JarLeft(
        name=jar.name, filled=jar.filled, booked_g=significant(booked_g(jar), 6), left_g=band(left),
        pure_g=band(pure), purity_frac=band(purity(jar).from_z(purity_z)),
        difference_g=None if difference is None else significant(difference, 6),
        usual_difference_g=None if difference is None else band(sd * rng.standard_normal(DRAWS)),
        explained_chance=None if difference is None else significant(explained_chance(difference, sd_g=sd)),
    )  # fmt: skip


def _alkali(one: AlkaliInStock, now: date, rng: np.random.Generator) -> AlkaliLeft:
    used = one.used_amount * np.exp(ALKALI_SD.value * rng.standard_normal(DRAWS))
    empty = one.used_amount >= one.pack_amount
    left = np.zeros(DRAWS) if empty else np.maximum(one.pack_amount - used, 0.0)
    months = None if one.opened is None else (now - one.opened).days / MONTH_D.value
    lost = LOST_PER_MONTH[one.kind].draw(rng, DRAWS)
    strength = np.ones(DRAWS) if months is None else strength_factor(one.kind, lost_per_month=lost, open_months=months)
    served = None
    if one.batch_takes_amount is not None:
        sd = USE_SD.value * math.sqrt(1 / max(one.batches_seen, 1))
        takes = one.batch_takes_amount * np.exp(sd * rng.standard_normal(DRAWS))
        served = band(lasts_batches(left, strength_factor=_of_what_is_left(one.kind, strength), takes_amount=takes))
    return AlkaliLeft(
        name=one.name, kind=one.kind, left_amount=amount(left, unit=one.measure), strength_factor=band(strength),
        open_months=None if months is None else significant(months, 3), lasts_batches=served,
    )  # fmt: skip


def _of_what_is_left(kind: Kind, strength: Floats) -> Floats:
    """Alkali in the rest beside that of a new pack: washing soda that dried holds as much soda as before."""
    return np.ones_like(strength) if kind == "washing_soda" else strength


def _oldest(jar: JarLeft) -> tuple[bool, date]:
    return jar.booked_g <= 0, jar.filled


def _scarcest(one: AlkaliLeft) -> float:
    return math.inf if one.lasts_batches is None else one.lasts_batches.p50


def _cautions(record: StockRecord, alkalis: list[AlkaliLeft]) -> tuple[Caution, ...]:
    weak = [one.name for one in alkalis if one.strength_factor.p5 < WEAK_FACTOR]
    dried = [one.name for one in alkalis if one.kind == "washing_soda" and one.strength_factor.p95 > 1 / WEAK_FACTOR]
    damp = any(jar.weighed_g is not None and not jar.dried_again for jar in record.jars)
    limed = any(jar.make == "limed" and jar.purity is None for jar in record.jars)
    hot = any(FAMILY[one.kind] in {"ammonia", "lye", "lime"} for one in record.alkalis)
    said = {
        (
            "alkali-weak",
            f"{', '.join(weak[:3])}: it has stood open for long and may be weaker than its label. Go by a jar "
            "titration and by pH, not by the amount of last time.",
        ): bool(weak),
        (
            "alkali-stronger",
            f"{', '.join(dried[:3])}: crystals that have gone white have lost water; the same mass raises the pH more. "
            "Begin with less.",
        ): bool(dried),
        (
            "damp-weighing",
            "A jar that was not dried again may weigh 3 to 10 percent more or less by the damp of the air alone.",
        ): damp,
        (
            "lime-weight",
            "Unwashed lime is most of the weight of limed pigment: its grams of pure blue are a wide guess until it is "
            "acid-washed or measured.",
        ): limed,
        (
            "alkali-storage",
            "Keep alkali closed, dry, labelled and away from children, animals, food and acids, in the pack it came "
            "in; open ammonia outdoors. The label and its safety sheet go first.",
        ): hot,
    }  # fmt: skip
    return those_that_hold(said, source="bluewright-cost")
