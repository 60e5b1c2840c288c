"""The unknowns of a dyer's vat and cloth as standard-normal scores, and what a ladder has taught of them.

A score of 0 is the middle of what is believed, 1 is one spread above. What was learned is kept as the mean and the
covariance of the scores: their distribution after a ladder is close to normal, and it travels as plain numbers.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Final

import numpy as np
from pydantic import Field

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import record
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.dyeing.priors import (
    AFFINITY_L_PER_KG,
    KEPT_FRAC,
    LATER_POWER,
    LOOSE_FRAC,
    OXIDISED_FRAC,
    PH_WEIGHT,
    PICKUP_L_PER_KG,
    PORE_M2_PER_S,
    POWER,
    STRIP_FRAC,
    AfterDip,
    Run,
)
from bluewright.science.dyeing.shade_priors import BLUE_PART, SURFACE_FRAC, TURN_NM, YIELD_PER_G_PER_KG
from bluewright.science.media.cloth import Fibre

UNKNOWNS: Final = (
    "affinity", "exponent", "pore", "strip", "pickup", "kept", "loose", "oxidised", "ph_weight",
    "yield", "surface", "turn", "blue", "later",
)  # fmt: skip
SIZE: Final = len(UNKNOWNS)
Score = Annotated[float, Field(ge=-40, le=40)]


@record
class Learned:
    """What a ladder of dips taught of a fibre: to be handed on to a forecast as it is."""

    fibre: Fibre
    """The fibre of the ladder: nothing of it holds for another."""
    unknowns: Annotated[tuple[Annotated[str, Field(max_length=20)], ...], Field(min_length=SIZE, max_length=SIZE)]
    """Names of the unknowns, in the order of the numbers."""
    mean_z: Annotated[tuple[Score, ...], Field(min_length=SIZE, max_length=SIZE)]
    """Where each now stands, in spreads from the middle of what was believed at first."""
    covariance_z: Annotated[tuple[tuple[Score, ...], ...], Field(min_length=SIZE, max_length=SIZE)]
    """How uncertain they still are, and how they hang together."""
    swatches: Annotated[int, Field(ge=1, le=10_000)]
    """How many swatches it has learned from."""

    def __post_init__(self) -> None:
        if self.unknowns != UNKNOWNS:
            raise InputError(
                where="unknowns", what="they are not those of this version", right="fit the ladder again and hand it on"
            )
        cover = np.array([row for row in self.covariance_z if len(row) == SIZE])
        if cover.shape != (SIZE, SIZE) or not np.allclose(cover, cover.T, atol=1e-6):
            raise InputError(where="covariance_z", what="it is not square and even", right="hand it on unchanged")
        if np.min(np.linalg.eigvalsh(cover)) < -1e-6:
            raise InputError(where="covariance_z", what="no spreads give it", right="hand it on unchanged")


@dataclass(frozen=True, slots=True, kw_only=True)
class Believed:
    """Values of the unknowns, each of shape (n,)."""

    affinity_l_per_kg: Floats
    exponent: Floats
    pore_m2_per_s: Floats
    strip_frac: Floats
    pickup_l_per_kg: Floats
    kept_frac: Floats
    loose_frac: Floats
    oxidised_frac: Floats
    ph_weight: Floats
    yield_kg_per_g: Floats
    surface_frac: Floats
    turn_nm: Floats
    blue_frac: Floats
    later_power: Floats
    """By which power of its number a dip takes less than the first would in its place."""


def priors(*, fibre: Fibre, after_dip: AfterDip, run: Run) -> Mapping[str, Prior]:
    """What is believed of each unknown at first, for one way of dyeing."""
    return {
        "affinity": AFFINITY_L_PER_KG[fibre], "exponent": POWER[fibre], "pore": PORE_M2_PER_S, "strip": STRIP_FRAC[run],
        "pickup": PICKUP_L_PER_KG[after_dip], "kept": KEPT_FRAC[after_dip], "loose": LOOSE_FRAC,
        "oxidised": OXIDISED_FRAC, "ph_weight": PH_WEIGHT, "yield": YIELD_PER_G_PER_KG, "surface": SURFACE_FRAC,
        "turn": TURN_NM, "blue": BLUE_PART, "later": LATER_POWER,
    }  # fmt: skip


def believed(z: Floats, *, fibre: Fibre, after_dip: AfterDip, run: Run) -> Believed:
    """The unknowns at scores of shape (n, 14)."""
    each = priors(fibre=fibre, after_dip=after_dip, run=run)
    found = {name: each[name].from_z(z[:, place]) for place, name in enumerate(UNKNOWNS)}
    return Believed(
        affinity_l_per_kg=found["affinity"], exponent=np.maximum(found["exponent"], LEAST_EXPONENT),
        pore_m2_per_s=found["pore"], strip_frac=found["strip"], pickup_l_per_kg=found["pickup"],
        kept_frac=found["kept"], loose_frac=found["loose"], oxidised_frac=found["oxidised"],
        ph_weight=found["ph_weight"], yield_kg_per_g=found["yield"], surface_frac=found["surface"],
        turn_nm=found["turn"], blue_frac=found["blue"], later_power=found["later"],
    )  # fmt: skip


LEAST_EXPONENT: Final = 0.2
"""An exponent below this has no meaning; drawn ones lie four and more spreads above."""


def draw_z(learned: Learned | None, *, n: int, fibre: Fibre, rng: np.random.Generator) -> Floats:
    """Scores of shape (n, 14): as believed at first, or as learned. Raises InputError for another fibre's ladder."""
    check_fibre(learned, fibre)
    return scores_of(learned, rng.standard_normal((n, SIZE)))


def check_fibre(learned: Learned | None, fibre: Fibre) -> None:
    """Raises InputError for what was learned on another fibre."""
    if learned is not None and learned.fibre != fibre:
        raise InputError(
            where="learned.fibre", what=f"it was learned on {learned.fibre}, and this is {fibre}",
            right="leave it out, or dye a ladder on this fibre",
        )  # fmt: skip


def scores_of(learned: Learned | None, z: Floats) -> Floats:
    """Scores as believed or learned from independent standard-normal ones; columns beyond the unknowns stay."""
    if learned is None:
        return z
    values, vectors = np.linalg.eigh(np.array(learned.covariance_z))
    root = vectors * np.sqrt(np.maximum(values, 0.0))
    return np.column_stack([np.array(learned.mean_z) + z[:, :SIZE] @ root.T, z[:, SIZE:]])


def learned_from(z: Floats, *, fibre: Fibre, swatches: int) -> Learned:
    """Equally weighted draws of the scores as plain numbers."""
    cover = np.cov(z, rowvar=False)
    return Learned(
        fibre=fibre, unknowns=UNKNOWNS, swatches=swatches,
        mean_z=tuple(round(float(one), 4) for one in np.mean(z, axis=0)),
        covariance_z=tuple(tuple(round(float(one), 6) for one in row) for row in cover),
    )  # fmt: skip
