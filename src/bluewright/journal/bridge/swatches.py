"""Between swatches and the science of colour."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.journal.models import Swatch
from bluewright.science.colour.compare import compare, spread_of, tell
from bluewright.science.colour.compare_record import Colour, CompareAnswer, CompareRecord, ToldColour
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.priors import Taken
from bluewright.science.colour.reflectance import reflectance
from bluewright.science.colour.reflectance_record import ReflectanceAnswer, ReflectanceRecord, Reflected

ALIKE: Final[dict[str, Taken]] = {"card": "same_card", "instrument": "instrument"}
"""What two colours share that were both measured so; others share nothing."""
SEED: Final = 1


def lab(row: Swatch) -> tuple[float, float, float]:
    """L*, a*, b* (D65, 2 degree) of a swatch."""
    return row.l_star, row.a_star, row.b_star


def lab_sd(row: Swatch) -> tuple[float, float, float]:
    """The standard deviation of each: the swatch's own, or what is usual for how it was measured."""
    l_sd, a_sd, b_sd = (float(sd) for sd in spread_of(colour(row), ALIKE.get(row.how, "apart")))
    return l_sd, a_sd, b_sd


def colour(row: Swatch) -> Colour:
    """A swatch as the science reads it."""
    own = (row.l_sd, row.a_sd, row.b_sd)
    known = own if None not in own else None
    return Colour(name=row.name, lab=lab(row), lab_sd=known)  # type: ignore[arg-type]


def told(row: Swatch) -> ToldColour:
    """One swatch in words and numbers."""
    return tell(colour(row), taken=ALIKE.get(row.how, "apart"), rng=np.random.default_rng(SEED))


def compared(standard: Swatch, sample: Swatch) -> CompareAnswer:
    """How one swatch differs from another, by what the ways in which they were measured share."""
    taken = ALIKE.get(standard.how, "apart") if standard.how == sample.how else "apart"
    record = CompareRecord(colours=(colour(standard), colour(sample)), taken=taken, seed=SEED)
    return compare(record, rng=np.random.default_rng(SEED))


def nearest(row: Swatch, others: list[Swatch], *, most: int = 3) -> list[tuple[Swatch, float]]:
    """The other swatches that are most like one, each with its CIEDE2000, the nearest first."""
    if not others:
        return []
    far = ciede2000(np.array([lab(other) for other in others]), np.array(lab(row)))
    ranked = np.argsort(far, kind="stable")[:most]
    return [(others[place], float(far[place])) for place in ranked]


def of_spectrum(points: tuple[Reflected, ...]) -> ReflectanceAnswer:
    """Colour and depth of a spectrum that was pasted in. Raises InputError where it is none."""
    return reflectance(ReflectanceRecord(points=points, seed=SEED), rng=np.random.default_rng(SEED))
