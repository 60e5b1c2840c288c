"""A tub of the invented season whose truth is known: its looks, and the blue that was in it when it was strained."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any, Final

import numpy as np

from bluewright.science import thread
from bluewright.science.base.sourced import Floats
from bluewright.science.media.stoichiometry import INDIGO_G_PER_MMOL_PRECURSOR
from bluewright.science.memory.shares import shares_of
from bluewright.science.steep import simulate
from bluewright.science.steep.ensemble import noticed
from bluewright.science.steep.record import Reading, SteepRecord

LOOK_CHANCE: Final = 0.85
"""Chance that a look takes in each sign."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TubTruth:
    """What was seen, and what nobody could see."""

    looks: tuple[Reading, ...]
    in_liquor_g: float
    """Blue that could still be made of the tub's liquor when it was strained, before any loss."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GardenTruth:
    """The garden behind the tubs: what it keeps to from batch to batch, so that there is something to learn."""

    rng: np.random.Generator
    usual: dict[tuple[str, str], float] = field(default_factory=dict)
    """By plant and name of a score, drawn when it is first asked for."""

    def batch_z(self, names: tuple[str, ...], *, plant: str) -> Floats:
        """Scores (1, d) of one batch: the garden's own, and what is the batch's alone, in their believed shares."""
        found = []
        for name in names:
            own = self.usual.setdefault((plant, name), float(self.rng.standard_normal()))
            alone_frac = shares_of(name)["batch"]
            scatter = float(self.rng.standard_normal())
            found.append(math.sqrt(1 - alone_frac) * own + math.sqrt(alone_frac) * scatter)
        return np.array([found])


def tub_truth(
    record: SteepRecord,
    looks_h: tuple[float, ...],
    *,
    strain_h: float | None,
    garden: GardenTruth,
    rng: np.random.Generator,
) -> TubTruth:
    """One tub of `garden` by the priors of its record, looked at `looks_h` hours after its start."""
    marks = sorted({*looks_h, *([strain_h] if strain_h is not None else [])})
    base = simulate.blank(
        record,
        marks,
        content=thread.content_of(record, rng=rng),
        temp_paths=lambda hours, n: thread.tub_paths(record, hours, rng=rng, n=n),
    )
    truth_z = garden.batch_z(base.names, plant=record.plant)
    case = simulate.draw(base, rng=rng, look_chance=LOOK_CHANCE, truth_z=truth_z)
    seen = dict(zip(marks, case.setting.record.readings, strict=True))
    row = base.row(seen[strain_h].time) if strain_h is not None else -1
    recoverable = float(case.course.recoverable_mmol_per_l[row, 0])
    return TubTruth(
        looks=tuple(seen[hour] for hour in looks_h),
        in_liquor_g=recoverable * base.liquor_l * INDIGO_G_PER_MMOL_PRECURSOR,
    )


def noted(look: Reading) -> dict[str, Any]:
    """A look as a person writes it down: signs, the temperature to half a degree, the pH to a tenth."""
    found: dict[str, Any] = {str(name): level for name, level in noticed(look).items()}
    if look.temp_c is not None:
        temp_c = round(2 * look.temp_c) / 2
        found |= {"temp_c": temp_c, "temp_typed": f"{temp_c:g} C"}
    if look.ph is not None:
        found["ph"] = round(min(max(look.ph, 0.0), 14.0), 1)
    return found
