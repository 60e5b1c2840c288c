"""Records of dyeing for the tests: an invented scarf."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from bluewright.science.base.records import read
from bluewright.science.colour.compare import spread_of
from bluewright.science.colour.compare_record import Colour
from bluewright.science.dyeing.dips import course
from bluewright.science.dyeing.forecast import strength_of, way_of
from bluewright.science.dyeing.ladder_record import LadderRecord
from bluewright.science.dyeing.priors import REPEAT_SD, WASHED_FRAC
from bluewright.science.dyeing.scores import SIZE, Believed, believed
from bluewright.science.dyeing.shade import shade
from bluewright.science.dyeing.shade_record import ShadeAnswer, ShadeRecord
from bluewright.science.dyeing.spectrum import lab_of_seen, usual_ground

SCARF: dict[str, Any] = {
    "cloth": {"fibre": "cotton", "mass_kg": 0.25},
    "vat": {"bath_l": 15, "active_g_per_l": 1.2},
    "dips": 6,
}


def scarf(**parts: Any) -> ShadeRecord:
    """The scarf with other parts: `vat={...}` is laid over what it has."""
    told = {name: {**SCARF.get(name, {}), **part} if isinstance(part, dict) else part for name, part in parts.items()}
    return read(ShadeRecord, SCARF | told)


def shaded(seed: int = 1, **parts: Any) -> ShadeAnswer:
    return shade(scarf(**parts), rng=np.random.default_rng(seed))


LADDER: dict[str, Any] = {
    "cloth": {"fibre": "cotton", "mass_kg": 0.08},
    "vat": {"bath_l": 15, "active_g_per_l": 1.2, "active_sd_frac": 0.1},
}


def ladder_of(rungs: list[dict[str, Any]], **parts: Any) -> LadderRecord:
    return read(LadderRecord, LADDER | parts | {"rungs": rungs})


@dataclass(frozen=True)
class Truth:
    """A vat and cloth drawn from what is believed of them: what every piece of so many dips is like."""

    held: Believed
    seen: np.ndarray

    def lab(self, dips: int, scatter: float = 0.0) -> np.ndarray:
        """Its colour, unmeasured; `scatter` in natural logarithms of depth."""
        seen = self.seen[:, dips - 1 : dips] * np.exp(scatter)
        return lab_of_seen(seen, self.held, ground=usual_ground("cotton"))[0, 0]


def truth(rng: np.random.Generator, *, dips: int = 12) -> Truth:
    """One world: the unknowns, and the strength within what is told of it."""
    record = ladder_of([])
    z = rng.standard_normal((1, SIZE + 1))
    held = believed(z[:, :SIZE], fibre="cotton", after_dip="squeezed", run="well_run")
    way = way_of(record.cloth, record.vat, record.way)
    dipped = course(strength_of(record.vat, z[:, SIZE]), held, way=way, dips=dips)
    return Truth(held=held, seen=dipped.outside_g_per_kg - WASHED_FRAC["soaped"].centre * dipped.loose_g_per_kg)


def swatches(world: Truth, rng: np.random.Generator, dips: tuple[int, ...] = (1, 2, 4, 8)) -> list[dict[str, Any]]:
    """A ladder as it would be measured: each piece with its own scatter, each colour with the error of the card."""
    sd = spread_of(Colour(lab=(50.0, 0.0, 0.0)), "same_card")
    return [
        {
            "dips": one,
            "lab": [
                float(v) for v in world.lab(one, REPEAT_SD.value * rng.standard_normal()) + sd * rng.standard_normal(3)
            ],
        }
        for one in dips
    ]
