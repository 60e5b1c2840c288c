"""The factors of the chain as draws: each from the score of one unknown, so that any can be held at its middle.

A score is drawn once and shared by every want: what is not known of one is mostly not known of all. Scatter from batch
to batch and from cut to cut is drawn for each and averaged: it shrinks with their number, what the garden is off does
not.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final, cast, get_args

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.cloth import FIXED_FRAC, FIXED_OF_DRAWN_FRAC, FIXED_TYPED_SD, REDUCES_FRAC, Depth, Fibre
from bluewright.science.plan.chain_crop import Crop, Learned
from bluewright.science.plan.chain_priors import OWN_SHARE_SD
from bluewright.science.plan.chain_record import ClothWant, JarAtHand, OwnFigures, Unknown

MOST_BATCHES: Final = 30
"""Of more batches the mean hardly scatters any more."""
MOST_CUTS: Final = 8
"""No plant is cut more often in a season."""
UNKNOWNS: Final = cast("tuple[Unknown, ...]", get_args(Unknown))
DEPTHS: Final = cast("tuple[Depth, ...]", get_args(Depth))


@dataclass(frozen=True, slots=True, kw_only=True)
class Scores:
    """Standard-normal scores of every unknown, shape (n,); of batches and cuts one for each, (n, 30) and (n, 8)."""

    z: Mapping[Unknown, Floats]
    purity_z: Floats
    """What one's pigment holds: it bears on its mass only, and not on the area."""
    batches_z: Floats
    cuts_z: Floats
    beds_z: Floats
    """Of the cuts of each bed that stands, shape (n, beds)."""
    settled: frozenset[Unknown] = frozenset()
    """Scatters that are held at their middle."""

    def held(self, what: Unknown) -> Scores:
        """The same with one unknown held at its middle."""
        if what in {"blue_batch", "leaf_cut"}:
            return replace(self, settled=self.settled | {what})
        return replace(self, z={**self.z, what: np.zeros_like(self.z[what])})


def scores(n: int, *, rng: np.random.Generator, beds: int = 0) -> Scores:
    """`n` draws of every score."""
    whole = [what for what in UNKNOWNS if what not in {"blue_batch", "leaf_cut"}]
    return Scores(
        z=dict(zip(whole, rng.standard_normal((len(whole), n)), strict=True)),
        purity_z=rng.standard_normal(n),
        batches_z=rng.standard_normal((n, MOST_BATCHES)),
        cuts_z=rng.standard_normal((n, MOST_CUTS)),
        beds_z=rng.standard_normal((n, beds)),
    )


def fixed_prior(want: ClothWant) -> Prior:
    """Pure indigo to be fixed, as a share of the dry fibre: by its depth, or as typed."""
    if want.depth is not None:
        return FIXED_FRAC[want.fibre][want.depth]
    return Prior(
        kind="lognormal", centre=cast(float, want.fixed_frac), spread=FIXED_TYPED_SD.value, unit="1",
        source=FIXED_TYPED_SD.source, grade="guess", note="typed",
    )  # fmt: skip


def depth_of(want: ClothWant) -> Depth:
    """Its depth; of a typed share the depth whose middle is nearest."""
    if want.depth is not None:
        return want.depth
    typed = math.log(cast(float, want.fixed_frac))
    return min(DEPTHS, key=lambda depth: abs(math.log(FIXED_FRAC[want.fibre][depth].centre) - typed))


def own_share(value: float | None, usual: Prior) -> Prior:
    """A share as typed, with the doubt of what one types; else the usual one."""
    if value is None:
        return usual
    return replace(usual, kind="logitnormal", centre=value, spread=OWN_SHARE_SD.value, note="typed")


def fixed_of_drawn(fibre: Fibre, own: OwnFigures, at: Scores) -> Floats:
    """Share fixed of what the cloth takes from the vat, shape (n,)."""
    return own_share(own.fixed_of_drawn_frac, FIXED_OF_DRAWN_FRAC[fibre]).from_z(at.z["drawn"])


def reduces(own: OwnFigures, at: Scores) -> Floats:
    """Share of the indigo in the vat that reduces, shape (n,)."""
    return own_share(own.reduces_frac, REDUCES_FRAC).from_z(at.z["reduces"])


def assay_log(known: Learned, at: Scores) -> Floats:
    """What all assays read too high, in logarithms, shape (n,)."""
    return known.blue.assay_mean_log + known.blue.assay_sd * at.z["assay"]


def in_jars_g(jars: tuple[JarAtHand, ...], known: Learned, at: Scores) -> Floats:
    """Pure indigo in all jars, shape (n,): one doubt for all, and the assays' own where they were assayed."""
    total = np.zeros(len(at.z["jars"]))
    error = assay_log(known, at)
    for jar in jars:
        log = math.log1p(jar.sd_frac**2) ** 0.5 * at.z["jars"] - (error if jar.assayed else 0.0)
        total = total + jar.pure_g * np.exp(log)
    return total


def blue_g_per_kg(crop: Crop, known: Learned, at: Scores, *, batches: int) -> Floats:
    """Pure indigo of a kilogram over `batches` batches, shape (n,)."""
    blue = known.blue
    garden = blue.mean_log + blue.garden_sd * at.z["blue"]
    garden = garden + blue.slope * (assay_log(known, at) - blue.assay_mean_log)
    few = min(max(batches, 1), MOST_BATCHES)
    count = np.full(len(garden), few)
    scatter = _mean_of(at.batches_z[:, :few], sd=crop.blue_batch_sd, count=count, settled="blue_batch" in at.settled)
    return np.asarray(np.exp(garden) * scatter)


def purity_frac(own: OwnFigures, crop: Crop, known: Learned, at: Scores) -> Floats:
    """Pure indigo in the dry pigment, shape (n,); of one's own assays, less by what they read too high."""
    found = own_share(own.purity_frac, crop.purity)
    if own.purity_frac is None:
        return found.from_z(at.purity_z)
    return found.from_z(at.purity_z - assay_log(known, at) / (1 - found.centre) / found.spread)


def leaf_kg_per_m2(crop: Crop, known: Learned, at: Scores, *, cuts: Floats) -> Floats:
    """Fresh leaf of a square metre at a cut, the mean of `cuts` cuts (shape (n,)), shape (n,)."""
    garden = known.leaf.mean_log + known.leaf.garden_sd * at.z["leaf"] + crop.leaf_season_sd * at.z["leaf_season"]
    count = np.round(cuts).astype(int)
    scatter = _mean_of(at.cuts_z, sd=crop.leaf_cut_sd, count=count, settled="leaf_cut" in at.settled)
    return np.asarray(np.exp(garden) * scatter)


def _mean_of(z: Floats, *, sd: float, count: NDArray[np.int_], settled: bool) -> Floats:
    """The mean of `count` (n,) log-normals of median 1, shape (n,); settled: its middle for each draw."""
    most = z.shape[1]
    running = np.cumsum(np.exp(sd * z), axis=1) / np.arange(1, most + 1)
    found = running[np.arange(len(count)), np.clip(count, 1, most) - 1]
    return np.full_like(found, np.median(found)) if settled else found
