"""From a weighed jar back to the leaf: grams, share of the potential, and where the rest probably went."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.bands import NINETY_Z, Band, band, significant
from bluewright.science.base.cautions import Caution, those_that_hold
from bluewright.science.base.posterior import sample
from bluewright.science.base.sourced import Floats
from bluewright.science.media.dry_pigment import moisture
from bluewright.science.pigment import beliefs
from bluewright.science.pigment.priors import STEPS
from bluewright.science.pigment.yield_record import NextReading, StepLoss, YieldAnswer, YieldRecord

DRAWS = 4000
SIZE: Final = len(STEPS) + 3
"""Scores: the five shares kept, purity, moisture, weighing. The potential follows from them and the jar."""
POOR_LEAF = 2 / 3
UNUSUAL = 0.01
"""Chance of a jar as light or as heavy as this one, below which a caution asks to check the masses."""
PURE_Z = 2.326
"""The score that one jar in a hundred of its make passes: a purity beyond it is asked about."""
MOST_G_PER_KG = 60.0
"""Dry pigment from a kilogram of leaf beyond which it is mostly something else (lime 2 g/L at 10 L/kg is 20)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Jar:
    """Draws of a jar and its way from the leaf: shape (n,), shares (n, 5) in the order of `STEPS`."""

    kept_frac: Floats
    purity_frac: Floats
    crude_g: Floats
    """Dry mass."""
    pure_g: Floats
    potential_g: Floats


def jar(record: YieldRecord, z: Floats) -> Jar:
    """The jar at scores of shape (n, 8), with the potential that follows from it.

    Formula: crude = mass (1 - moisture); pure = crude * purity; potential = pure / (product of the shares kept).
    """
    kept = np.stack([prior.from_z(z[:, i]) for i, prior in enumerate(beliefs.kept(record).values())], axis=1)
    purity = beliefs.purity(record).from_z(z[:, 5])
    damp = moisture(record.moisture_frac).from_z(z[:, 6])
    weighed_g = record.pigment_g * np.exp(min(record.scale_sd_g / record.pigment_g, 0.5) * z[:, 7])
    crude_g = weighed_g * (1 - damp)
    pure_g = crude_g * purity
    return Jar(
        kept_frac=kept,
        purity_frac=purity,
        crude_g=crude_g,
        pure_g=pure_g,
        potential_g=pure_g / np.prod(kept, axis=1),
    )


def log_likelihood(record: YieldRecord, z: Floats) -> Floats:
    """How well the scores (n, 8) agree with the prior of the potential and a measured purity; shape (n,).

    The jar's mass is one equation between potential, shares and purity; solved for the potential, whose prior is
    the widest, it leaves that prior's density at the solution as the weight.
    """
    prior = beliefs.potential_g(record)
    with np.errstate(divide="ignore", over="ignore"):  # a share rounded to nought or one: then it is impossible
        made = jar(record, z)
        value = -0.5 * (np.log(made.potential_g / prior.centre) / prior.spread) ** 2
    if record.purity is not None:
        value = value - 0.5 * ((made.purity_frac - record.purity.mean_frac) / record.purity.sd_frac) ** 2
    return np.asarray(value)


def believed(record: YieldRecord, *, rng: np.random.Generator, draws: int = DRAWS) -> tuple[Jar, float]:
    """`draws` of the jar and its way, conditioned on all that was seen, and their effective sample size.

    Raises ModelError if nothing explains the jar.
    """
    posterior = sample(lambda z: log_likelihood(record, z), size=SIZE, rng=rng, draws=draws)
    return jar(record, posterior.z), posterior.ess


def jar_yield(record: YieldRecord, *, rng: np.random.Generator) -> YieldAnswer:
    """What the jar holds, its share of the potential, and the loss at each step.

    Bayes: shares, purity and potential from their priors, conditioned on the weighed jar (`log_likelihood`).
    Raises InputError (from the record) and ModelError if nothing explains the jar.
    """
    made, ess = believed(record, rng=rng)
    steps = _steps(record, made)
    prior = beliefs.potential_g(record)
    before = prior.draw(rng, DRAWS)
    next_reading, next_gain = _next_reading(record, made)
    tail_frac = float(np.mean(_expected_crude_g(record, before, rng) <= np.median(made.crude_g)))
    measured = record.purity is not None or "readings" in beliefs.seen(record).values()
    return YieldAnswer(
        id=record.id,
        crude_g=band(made.crude_g),
        pure_g=band(made.pure_g),
        purity_frac=band(made.purity_frac),
        crude_g_per_kg=band(made.crude_g / record.leaf_kg),
        pure_g_per_kg=band(made.pure_g / record.leaf_kg),
        potential_prior_g=band(before),
        potential_g=band(made.potential_g),
        potential_typical_g=_typical(made.potential_g),
        pure_typical_g=_typical(made.pure_g),
        of_potential_frac=band(np.prod(made.kept_frac, axis=1)),
        steps=steps,
        worst=max(steps, key=lambda s: s.lost_most_frac).step,
        chance_poor_leaf_frac=significant(float(np.mean(made.potential_g < POOR_LEAF * prior.centre))),
        next_reading=next_reading,
        next_gain_frac=significant(next_gain, 2),
        ess=round(ess, 1),
        basis="readings" if measured else "prior",
        inputs=record,
        cautions=_cautions(record, band(made.crude_g / record.leaf_kg), tail_frac),
        sources=tuple(sorted({prior.source, beliefs.purity(record).source, "bluewright-yield", "trade-indigo-spec"})),
    )


def _steps(record: YieldRecord, made: Jar) -> tuple[StepLoss, ...]:
    """Each step's share, loss and what is left, from draws that multiply out one by one."""
    through_g = made.potential_g[:, None] * np.cumprod(made.kept_frac, axis=1)
    before_g = np.column_stack([made.potential_g, through_g[:, :-1]])
    lost_g = before_g - through_g
    worst = np.argmax(lost_g, axis=1)
    seen = beliefs.seen(record)
    return tuple(
        StepLoss(
            step=step,
            kept_frac=band(made.kept_frac[:, i]),
            typical_frac=_typical(made.kept_frac[:, i]),
            lost_g=band(lost_g[:, i]),
            left_g=band(through_g[:, i]),
            lost_most_frac=significant(float(np.mean(worst == i))),
            basis=seen[step],
        )
        for i, step in enumerate(STEPS)
    )


def _next_reading(record: YieldRecord, made: Jar) -> tuple[NextReading | None, float]:
    """The thing not yet seen whose logarithm goes most with that of the share of the potential: squared correlation."""
    open_things: dict[NextReading, Floats] = {}
    if record.purity is None:
        open_things["purity"] = made.purity_frac
    if record.potential is None:
        open_things["potential"] = made.potential_g
    for i, (step, basis) in enumerate(beliefs.seen(record).items()):
        if basis == "prior" and step != "dry":
            open_things[step] = made.kept_frac[:, i]
    share = np.log(np.prod(made.kept_frac, axis=1))
    gains = {name: float(np.corrcoef(np.log(values), share)[0, 1] ** 2) for name, values in open_things.items()}
    best = max(gains, key=lambda name: gains[name], default=None)
    return best, gains[best] if best is not None else 0.0


def _typical(samples: Floats) -> float:
    """Geometric mean: that of a product is the product of those of its factors."""
    return significant(float(np.exp(np.mean(np.log(samples)))), 6)


def _expected_crude_g(record: YieldRecord, potential_g: Floats, rng: np.random.Generator) -> Floats:
    """Dry pigment as expected before the jar was weighed (with the measured purity, if there is one)."""
    n = len(potential_g)
    through = np.prod([prior.draw(rng, n) for prior in beliefs.kept(record).values()], axis=0)
    purity = beliefs.purity(record).draw(rng, n)
    if record.purity is not None:
        purity = np.clip(record.purity.mean_frac + record.purity.sd_frac * rng.standard_normal(n), 0.005, 0.995)
    return np.asarray(potential_g * through / purity)


def _cautions(record: YieldRecord, crude_g_per_kg: Band, tail_frac: float) -> tuple[Caution, ...]:
    limed = beliefs.make(record) == "limed" and record.purity is None
    usual = beliefs.purity(record).from_z(np.array([-NINETY_Z, NINETY_Z, PURE_Z]))
    measured = record.purity.mean_frac if record.purity is not None else 0.0
    said = {
        (
            "unusual-pure",
            f"{100 * measured:.0f}% indigo is more than such pigment commonly has ({100 * usual[0]:.0f} to "
            f"{100 * usual[1]:.0f}%): was it measured, on this pigment, dry?",
        ): measured > usual[2],
        (
            "unusual-heavy",
            "Far more pigment than this leaf should give: is it dry, is there lime or soil in it, were all the leaves "
            "weighed? The shares lean on that.",
        ): tail_frac > 1 - UNUSUAL,
        (
            "unusual-light",
            "Far less pigment than this leaf should give: was all of it scraped out and weighed, or did blue go off "
            "with the decanted liquor?",
        ): tail_frac < UNUSUAL,
        (
            "lime-weight",
            "Unwashed lime is most of the weight of limed pigment: the grams of pure blue are a wide guess until it is "
            "acid-washed or measured.",
        ): limed,
        (
            "outside-range",
            f"{crude_g_per_kg.p50:.0f} g from a kilogram of leaf is beyond any yield that these figures rest on.",
        ): crude_g_per_kg.p50 > MOST_G_PER_KG,
        (
            "coarse-scale",
            f"The scale is only good to {record.scale_sd_g:g} g beside {record.pigment_g:g} g: weigh on a finer one.",
        ): record.scale_sd_g > 0.1 * record.pigment_g,
        (
            "ph-outside",
            "Shares of indigo by pH are only judged from 5.5 to 13; outside, the nearest is used.",
        ): record.conversion is not None and record.conversion.ph is not None and not 5.5 <= record.conversion.ph <= 13,
    }
    return those_that_hold(said)
