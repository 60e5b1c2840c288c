"""Leaf against degree-days since the last cut, and what own cuts teach of it.

Leaf rises along a logistic curve to what the ground carries; a cut is ready at four fifths of that. Unknown are the
full leaf, the degree-days to the first cut and between cuts, how steep the curve is, how cuts scatter, and by what
each season is off. Own cuts tell by their mass, and by whether they were judged early, right or late.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from bluewright.science.base.posterior import sample
from bluewright.science.base.sourced import Floats
from bluewright.science.bed.growth_lengths import LengthsSeen
from bluewright.science.bed.growth_lengths import log_likelihood as of_lengths
from bluewright.science.bed.growth_priors import (
    CUT_SD,
    FULL_KG_PER_M2,
    FULL_LENGTH_MM,
    JUDGED_SD,
    LENGTH_POWER,
    READY_FRAC,
    RIGHT_WIDTH,
    RIPE_AGAIN_D,
    RIPE_FIRST_D,
    RIPE_SD,
    RISE_D,
    SEASON_SD,
    START_FACTOR,
)
from bluewright.science.bed.growth_record import Start, State
from bluewright.science.media.basket import Plant

SHARED: Final = 5
"""Scores that all seasons share; each season adds its own."""
LEAST_CHANCE: Final = 1e-12
"""Of a judgement, and a share of leaf: it keeps logarithms finite."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSeen:
    """A cut as the model sees it."""

    season: int
    """Which season, the present one 0."""
    start: Start | None
    """How the season began, for its first cut; None for a later one."""
    gone_degree_d: float
    """Degree-days since the last cut or the beginning."""
    gone_sd: float
    """Their standard deviation: the weather may not have been read."""
    leaf_kg_per_m2: float | None
    state: State | None
    regrowth: int | None = None
    """Which of the regrowths with marked plants it ended; None where none were marked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """Draws of what is unknown, each of shape (n,)."""

    full_kg_per_m2: Floats
    """Leaf that would stand at last, in an ordinary season."""
    first_degree_d: Floats
    """Degree-days from sowing to ready."""
    again_degree_d: Floats
    """Degree-days from a cut to ready."""
    rise_degree_d: Floats
    """Width of the curve."""
    cut_sd: Floats
    """Log-sd of the mass from cut to cut."""
    season_factor: Floats
    """By which the present season is off."""
    own_factor: Floats | None = None
    """By which the present regrowth ripens earlier or later than usual; None where no plant of it was measured."""

    def ripe_degree_d(self, start: Start | None) -> Floats:
        """Degree-days to ready: of a first cut by how the season began, of a later one from the cut before."""
        return self.again_degree_d if start is None else START_FACTOR[start].value * self.first_degree_d

    def ripe_now_degree_d(self, start: Start | None, *, rng: np.random.Generator) -> Floats:
        """The same of the present regrowth: as marked plants tell it, else earlier or later by chance."""
        usual = self.ripe_degree_d(start)
        own = self.own_factor
        return np.asarray(usual * (np.exp(RIPE_SD.value * rng.standard_normal(len(usual))) if own is None else own))


def learn(
    plant: Plant, cuts: Sequence[CutSeen], *, lengths: Sequence[LengthsSeen] = (), n: int, rng: np.random.Generator
) -> Growth:
    """`n` draws of what is believed after `cuts` and `lengths` of marked plants, none of which is needed.

    Raises ModelError if nothing within the priors explains them.
    """
    seasons = 1 + max((cut.season for cut in cuts), default=0)
    size = SHARED + seasons
    telling = [cut for cut in cuts if cut.leaf_kg_per_m2 is not None or cut.state is not None]
    if not telling and not lengths:
        return unpacked(plant, rng.standard_normal((n, size)))
    marked = Marked(at=size, regrowths=tuple(one.regrowth for one in lengths))
    found = sample(
        lambda z: _log_likelihood(plant, telling, z, marked=marked) + _of_marked(plant, lengths, z, marked=marked),
        size=marked.size, rng=rng, draws=n,
    )  # fmt: skip
    grown = unpacked(plant, found.z)
    return replace(grown, own_factor=marked.factor(found.z, 0)) if 0 in marked.regrowths else grown


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """Where the scores of marked plants stand behind the others: length, power, and one for each regrowth measured."""

    at: int
    regrowths: tuple[int, ...]

    @property
    def size(self) -> int:
        """How many scores there are in all."""
        return self.at + (2 + len(self.regrowths) if self.regrowths else 0)

    def factor(self, z: Floats, regrowth: int) -> Floats:
        """By which a regrowth ripens earlier or later than usual, shape (n,)."""
        return np.asarray(np.exp(RIPE_SD.value * z[:, self.at + 2 + self.regrowths.index(regrowth)]))


def unpacked(plant: Plant, z: Floats, *, season: int = 0) -> Growth:
    """Scores of shape (n, size) as physical values; size is 5 and one for each season, the present one first."""
    return Growth(
        full_kg_per_m2=FULL_KG_PER_M2[plant].from_z(z[:, 0]),
        first_degree_d=RIPE_FIRST_D[plant].from_z(z[:, 1]),
        again_degree_d=RIPE_AGAIN_D[plant].from_z(z[:, 2]),
        rise_degree_d=RISE_D.from_z(z[:, 3]),
        cut_sd=CUT_SD.from_z(z[:, 4]),
        season_factor=np.exp(SEASON_SD.value * z[:, SHARED + season]),
    )


def leaf_frac(gone_degree_d: Floats, *, ripe_degree_d: Floats, rise_degree_d: Floats) -> Floats:
    """Share of full leaf after `gone_degree_d`, shapes broadcast: 0.8 at `ripe_degree_d`.

    Formula: 1 / (1 + exp(-(D - D80)/s) / 4), the logistic curve through four fifths at D80.
    """
    odds = READY_FRAC.value / (1 - READY_FRAC.value)
    return np.asarray(1 / (1 + np.exp(-np.clip((gone_degree_d - ripe_degree_d) / rise_degree_d, -500, 500)) / odds))


def _log_likelihood(plant: Plant, cuts: Sequence[CutSeen], z: Floats, *, marked: Marked) -> Floats:
    """Log-likelihood of the cuts at scores of shape (n, size): shape (n,).

    The regrowth of a cut ripens earlier or later than usual: of marked plants by a score of its own, else by chance.
    """
    total = np.zeros(len(z))
    for cut in cuts:
        growth = unpacked(plant, z, season=cut.season)
        ripe, ripe_sd = growth.ripe_degree_d(cut.start), RIPE_SD.value
        if cut.regrowth is not None:
            ripe, ripe_sd = ripe * marked.factor(z, cut.regrowth), 0.0
        if cut.leaf_kg_per_m2 is not None:
            total += _of_mass(cut, cut.leaf_kg_per_m2, growth, ripe, ripe_sd=ripe_sd)
        if cut.state is not None:
            total += _of_state(cut, cut.state, ripe, ripe_sd=ripe_sd)
    return total


def _of_marked(plant: Plant, lengths: Sequence[LengthsSeen], z: Floats, *, marked: Marked) -> Floats:
    """Log-likelihood of the marked plants of this season at scores of shape (n, size): shape (n,)."""
    total = np.zeros(len(z))
    for seen in lengths:
        growth = unpacked(plant, z)
        ripe = growth.ripe_degree_d(seen.start) * marked.factor(z, seen.regrowth)
        rise = growth.rise_degree_d[:, None]
        share = leaf_frac(seen.gone_degree_d, ripe_degree_d=ripe[:, None], rise_degree_d=rise)
        total += of_lengths(
            seen, log_share_frac=np.log(np.maximum(share, LEAST_CHANCE)), slope=(1 - share) / rise,
            log_full_mm=np.log(FULL_LENGTH_MM[plant].from_z(z[:, marked.at])),
            power_factor=LENGTH_POWER.from_z(z[:, marked.at + 1]),
        )  # fmt: skip
    return total


def _of_mass(cut: CutSeen, leaf_kg_per_m2: float, growth: Growth, ripe_degree_d: Floats, *, ripe_sd: float) -> Floats:
    """Log density of the mass: lognormal about the curve, wider where warmth was not read or curves are steep."""
    share = leaf_frac(np.array(cut.gone_degree_d), ripe_degree_d=ripe_degree_d, rise_degree_d=growth.rise_degree_d)
    middle = np.log(growth.full_kg_per_m2 * growth.season_factor * np.maximum(share, 1e-12))
    shift_degree_d = np.hypot(cut.gone_sd, ripe_sd * ripe_degree_d)
    sd = np.hypot(growth.cut_sd, (1 - share) / growth.rise_degree_d * shift_degree_d)
    return np.asarray(-0.5 * ((math.log(leaf_kg_per_m2) - middle) / sd) ** 2 - np.log(sd))


def _of_state(cut: CutSeen, state: State, ripe_degree_d: Floats, *, ripe_sd: float) -> Floats:
    """Log chance of the judgement: `right` about ready, `early` before that, `late` after it."""
    gone = max(cut.gone_degree_d, 1.0)
    sd = math.hypot(ripe_sd, JUDGED_SD.value, cut.gone_sd / gone)
    off = np.log(gone / ripe_degree_d)
    early, late = _chance((-RIGHT_WIDTH.value - off) / sd), _chance((off - RIGHT_WIDTH.value) / sd)
    chances = {"early": early, "late": late, "right": 1 - early - late}
    return np.asarray(np.log(np.maximum(chances[state], LEAST_CHANCE)))


def _chance(z: Floats) -> Floats:
    """Chance that a standard normal lies below `z`, to 0.01, by the logistic curve (Bowling and others 2009)."""
    return np.asarray(1 / (1 + np.exp(-np.clip(1.702 * z, -500, 500))))
