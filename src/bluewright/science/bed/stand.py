"""How thick is the stand, how sure is that, and what would thinning leave?

Counts in frames are negative binomial: a mean, and an exponent that says how clumped the plants stand. Both are
integrated over a grid under wide priors, so that few or empty frames give a wide range and no false certainty.
"""

from __future__ import annotations

import math
from collections import Counter
from typing import Final, Literal

import numpy as np

from bluewright.science.base.bands import NINETY_Z, band
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.published import figure_of
from bluewright.science.base.sourced import Floats
from bluewright.science.bed.densities import DENSITY, EVENNESS, FEW_FRAMES, SURE_CHANCE, TARGETS_PER_M2
from bluewright.science.bed.grid import drawn
from bluewright.science.bed.stand_record import Origin, StandAnswer, StandRecord
from bluewright.science.media import law

DRAWS: Final = 4000
HALF_PLANT: Final = 0.5
"""Added to the plants counted where none may have been: where the search begins, no part of the answer."""


def stand(record: StandRecord, *, rng: np.random.Generator) -> StandAnswer:
    """Plants on a square metre with their range, and a thinning advice.

    Formula: count in a frame of area a ~ negative binomial with mean m a and exponent k (variance m a + (m a)^2 / k).
    Sources: Bliss and Fisher 1953 (key bliss-fisher-1953) for the distribution; `densities` for targets and priors.
    """
    per_m2, evenness = posterior(record.counts, frame_m2=record.frame_m2, origin=record.origin, n=DRAWS, rng=rng)
    target = TARGETS_PER_M2[record.plant][record.purpose]
    bolting = _bolting(record, rng)
    leafy = per_m2 if bolting is None else per_m2 * (1 - bolting)
    standing = leafy if record.purpose == "leaf" else per_m2
    sparse, dense = float(np.mean(standing < target.low)), float(np.mean(standing > target.high))
    wanted = frames_needed(
        per_m2 * record.frame_m2, evenness=evenness, error_frac=record.wanted_error_frac, score_z=NINETY_Z
    )
    return StandAnswer(
        id=record.id,
        density_per_m2=band(per_m2),
        in_bed_plants=None if record.bed_m2 is None else band(record.bed_m2 * per_m2),
        leafy_per_m2=None if bolting is None else band(leafy),
        bolting_frac=None if bolting is None else band(bolting),
        clumping_factor=band(1 + per_m2 * record.frame_m2 / evenness),
        more_frames=band(np.ceil(np.maximum(0.0, wanted - len(record.counts)))),
        target=figure_of(target),
        sparse_chance=sparse,
        dense_chance=dense,
        advice=_advice(sparse, dense),
        keep_frac=band(np.minimum(1.0, target.value / np.maximum(standing, target.value / 1e6))),
        spacing_mm=round(1000 / math.sqrt(target.value)),
        basis="readings",
        inputs=record,
        cautions=_cautions(record),
        sources=tuple(sorted({"bliss-fisher-1953", "bluewright-bed", target.source, SURE_CHANCE.source})),
    )


def posterior(
    counts: tuple[int, ...], *, frame_m2: float, origin: Origin, n: int, rng: np.random.Generator
) -> tuple[Floats, Floats]:
    """`n` draws of plants on a square metre and of the exponent, each (n,), given counts in frames of one area."""
    total, frames, alike = sum(counts), len(counts), Counter(counts)
    prior = EVENNESS[origin]

    def _log_density(log_per_m2: Floats, log_evenness: Floats) -> Floats:
        mean, k = frame_m2 * np.exp(log_per_m2)[:, None], np.exp(log_evenness)[None, :]
        ways = np.array(
            [
                sum(many * math.lgamma(count + at) for count, many in alike.items()) - frames * math.lgamma(at)
                for at in k[0]
            ]
        )
        seen = total * (np.log(mean) - np.log(mean + k)) - frames * k * np.log1p(mean / k) + ways
        return np.asarray(
            seen
            - 0.5 * ((log_per_m2[:, None] - math.log(DENSITY.centre)) / DENSITY.spread) ** 2
            - 0.5 * ((log_evenness[None, :] - math.log(prior.centre)) / prior.spread) ** 2
        )

    near, far = math.log((total + HALF_PLANT) / (frames * frame_m2)), math.log(prior.centre)
    reach = 6 * prior.spread
    found = drawn(_log_density, box=((near - 12, near + 12), (far - reach, far + reach)), n=n, rng=rng)
    return np.exp(found[0]), np.exp(found[1])


def frames_needed(mean: Floats, *, evenness: Floats, error_frac: float, score_z: float) -> Floats:
    """Frames in all until the mean is known to `error_frac` of itself, any shape.

    Formula: n = (z / D)^2 (1/mean + 1/k), mean the count in a frame. Source: Karandinos 1976 (key karandinos-1976).
    """
    return np.asarray((score_z / error_frac) ** 2 * (1 / mean + 1 / evenness))


def _bolting(record: StandRecord, rng: np.random.Generator) -> Floats | None:
    """Share of the plants with a stem (Jeffreys' interval of a proportion)."""
    if record.bolting is None:
        return None
    return rng.beta(record.bolting + 0.5, sum(record.counts) - record.bolting + 0.5, DRAWS)


def _advice(sparse_chance: float, dense_chance: float) -> Literal["leave", "thin", "fill", "count_more"]:
    sure = SURE_CHANCE.value
    if dense_chance >= sure:
        return "thin"
    if sparse_chance >= sure:
        return "fill"
    return "leave" if max(sparse_chance, dense_chance) <= 0.5 else "count_more"


def _cautions(record: StandRecord) -> tuple[Caution, ...]:
    found = list(law.cautions(record.plant)) if record.origin == "self_sown" or record.purpose == "seed" else []
    if len(record.counts) < FEW_FRAMES.value:
        text = f"Few frames: lay {FEW_FRAMES.value:g} or more where chance puts them, not where the stand is good."
        found.append(caution("few-frames", text))
    if record.origin == "self_sown" and record.bolting is None and record.plant == "woad":
        text = (
            "Self-sown woad is of mixed ages: what came up last autumn flowers this spring and gives little blue. "
            "Count the flower stems too."
        )
        found.append(caution("mixed-ages", text))
    return tuple(found)
