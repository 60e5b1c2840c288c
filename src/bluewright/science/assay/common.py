"""What all ways of assay share: the water in a sample, the step from weighed to dry, and what is asked of a result."""

from __future__ import annotations

from typing import Annotated, Final

import numpy as np
from pydantic import Field

from bluewright.science.assay.priors import CHECK_ABOVE_PCT
from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.dry_pigment import MOISTURE_FRAC

Moisture = Annotated[float, Field(ge=0, lt=0.95)]
Milligrams = Annotated[float, Field(ge=LEAST, le=1_000_000)]
Doubt = Annotated[float, Field(ge=0.0001, le=0.5)]
"""A relative standard deviation that is given."""
MOST_PCT: Final = 100.0


@answer
class Doubted:
    """One reason why the result may be off, with its size."""

    name: str
    """A short stable name (`weighing`, `absorptivity`)."""
    sd_frac: float
    """Standard deviation as a share of the result, cut at 1."""


def dry_frac(moisture_frac: float | None, *, rng: np.random.Generator, draws: int) -> Floats:
    """Dry matter of a sample as weighed, shape (draws,): air-dry pigment where nothing is said.

    A given moisture is good to a fifth of itself and at most 0.01.
    """
    if moisture_frac is None:
        return 1 - MOISTURE_FRAC.draw(rng, draws)
    if moisture_frac == 0:
        return np.ones(draws)
    sd = max(min(0.2 * moisture_frac, 0.01), 0.001)
    prior = Prior(
        kind="logitnormal", centre=moisture_frac, spread=min(sd / (moisture_frac * (1 - moisture_frac)), 2.0),
        unit="1", source="common-practice", grade="practice", note="given in the record",
    )  # fmt: skip
    return 1 - prior.draw(rng, draws)


def possible(indigo_pct: Band, *, where: str) -> None:
    """Raise InputError where even the low end of a share is more than all: a mass or volume was mistaken."""
    if indigo_pct.p5 > MOST_PCT:
        raise InputError(
            where=where,
            what=f"{indigo_pct.p50:.0f}% of the pigment would be indigo, which is more than all of it",
            right="check masses, volumes, dilution and their units",
        )


def check_method(indigo_pct: Band) -> list[Caution]:
    """The question that a purity beyond the best seen of plant indigo asks."""
    if indigo_pct.p50 <= CHECK_ABOVE_PCT.value:
        return []
    text = (
        f"{indigo_pct.p50:.0f}% is more than the best plant indigo found in a study (56%): check the method, the "
        "masses and the standard before you trust it."
    )
    return [caution("check-method", text, source=CHECK_ABOVE_PCT.source)]
