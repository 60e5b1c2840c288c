"""The priors of one jar: each step's share moved by what was seen there, and the purity by how it was made."""

from __future__ import annotations

from typing import Literal

import numpy as np

from bluewright.science.base.sourced import Prior
from bluewright.science.media.alkali_kind import FAMILY
from bluewright.science.media.purity import PURITY, Make, known_share
from bluewright.science.pigment.priors import (
    CONVERSION,
    CONVERSION_BY_PH,
    CONVERSION_SPREAD,
    DRY,
    HEAT_FROM,
    HEAT_LOSS_PER_10_C,
    POTENTIAL_G_PER_KG,
    STEEP,
    STRAIN,
    UNAIRED,
    WASH,
    WASH_BY_SIGN,
    Step,
)
from bluewright.science.pigment.yield_record import Conversion, YieldRecord


def potential_g(record: YieldRecord) -> Prior:
    """What the basket could give, in grams: as the record says, or by plant."""
    if record.potential is not None:
        return Prior(
            kind="lognormal", centre=record.potential.median_g, spread=record.potential.log_sd, unit="g",
            source="bluewright-leaf", grade="guess", note="given in the record",
        )  # fmt: skip
    known = POTENTIAL_G_PER_KG[record.plant]
    return Prior(
        kind="lognormal", centre=known.centre * record.leaf_kg, spread=known.spread, unit="g", source=known.source,
        grade=known.grade, note=known.note,
    )  # fmt: skip


def kept(record: YieldRecord) -> dict[Step, Prior]:
    """The share kept at each step."""
    return {
        "steep": STEEP[record.plant] if record.steep is None else known_share(record.steep),
        "strain": STRAIN if record.blue_out is None else known_share(record.blue_out),
        "conversion": CONVERSION if record.conversion is None else conversion(record.conversion),
        "wash": WASH if record.blue_in_decant is None else WASH_BY_SIGN[record.blue_in_decant],
        "dry": DRY,
    }


def seen(record: YieldRecord) -> dict[Step, Literal["prior", "readings"]]:
    """Whether something seen at a step moved its prior."""
    evidence = {
        "steep": record.steep,
        "strain": record.blue_out,
        "conversion": record.conversion,
        "wash": record.blue_in_decant,
        "dry": None,
    }
    return {step: "prior" if evidence[step] is None else "readings" for step in kept(record)}


def conversion(seen_then: Conversion) -> Prior:
    """Share of the indoxyl that became indigo, by pH, heat and whether the airing was finished.

    Without a pH the plain prior's middle stands. Heat takes 0.03 for each 10 C above 40 C; an airing broken off
    keeps 0.7 of it, with twice the doubt.
    """
    centre, spread = CONVERSION.centre, CONVERSION.spread
    if seen_then.ph is not None:
        table_ph, shares = zip(*((ph, share.value) for ph, share in CONVERSION_BY_PH), strict=True)
        centre, spread = float(np.interp(seen_then.ph, table_ph, shares)), CONVERSION_SPREAD
    centre -= HEAT_LOSS_PER_10_C.value * max(seen_then.temp_c - HEAT_FROM.value, 0.0) / 10.0
    if seen_then.air_done is False:
        centre, spread = centre * UNAIRED.value, 2 * spread
    return Prior(
        kind="logitnormal", centre=centre, spread=spread, unit="1", source=CONVERSION.source, grade="guess",
    )  # fmt: skip


def purity(record: YieldRecord) -> Prior:
    """Indigo in the dry pigment before any measurement of it."""
    return PURITY[make(record)][record.plant]


def make(record: YieldRecord) -> Make:
    """How the pigment was made, as far as its purity goes."""
    family = FAMILY[record.alkali]
    if record.acid_washed:
        return "acid_washed"
    if family == "lime":
        return "limed"
    return "unknown" if family == "unknown" else "unlimed"
