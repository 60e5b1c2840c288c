"""The balance of liquor and blue at straining."""

from __future__ import annotations

import numpy as np

from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution, those_that_hold
from bluewright.science.base.sourced import Floats
from bluewright.science.media.basket import SAP_L_PER_KG
from bluewright.science.strain.priors import (
    JUG_SD,
    KEPT_L_PER_KG,
    LEAST_KEPT_L_PER_KG,
    LIFTED_KG,
    MOST_KEPT_FRAC,
    PACKED_KG_PER_L,
    RINSE_MIXING,
    WET_LEAF_FACTOR,
    Squeeze,
)
from bluewright.science.strain.record import StrainAnswer, StrainRecord

DRAWS = 4000


def balance(record: StrainRecord, *, rng: np.random.Generator) -> StrainAnswer:
    """Where the liquor and its blue are after straining, with what squeezing or a rinse would gain.

    Formula: total = water + sap * leaf; out = total - kept; share out = out / total.
    A rinse R over the kept liquor K carries away K * m * R / (K + R), m being how well it mixes.

    Raises InputError (from the record) for impossible volumes. Source: mass balance; the kept litres are
    judgements (`strain.priors`), replaced by the measured liquor where the record has it.
    """
    total_l = record.water_l + SAP_L_PER_KG.draw(rng, DRAWS) * record.leaf_kg
    z = rng.standard_normal(DRAWS)
    most_out_l = total_l - LEAST_KEPT_L_PER_KG.value * record.leaf_kg
    if record.liquor_out_l is None:
        out_l = total_l - _kept_l(record.squeeze, record.leaf_kg, z=z, total_l=total_l)
    else:
        out_l = np.minimum(record.liquor_out_l * np.exp(JUG_SD.value * rng.standard_normal(DRAWS)), most_out_l)
    kept_l, out_frac = total_l - out_l, out_l / total_l
    rinse_gain = _rinse_gain_frac(
        record.rinse_l or record.leaf_kg, kept_l, total_l, mixing=RINSE_MIXING.draw(rng, DRAWS)
    )
    drained, hand, press = (
        _kept_l(way, record.leaf_kg, z=z, total_l=total_l) for way in ("drained", "hand", "press")
    )  # fmt: skip
    return StrainAnswer(
        id=record.id,
        liquor_out_l=band(out_l),
        kept_l=band(kept_l),
        blue_out_frac=band(out_frac + (rinse_gain if record.rinse_l else 0.0)),
        gain_by_hand_frac=band((drained - hand) / total_l),
        gain_by_press_frac=band((drained - press) / total_l),
        gain_by_rinse_frac=band(rinse_gain),
        dilution_frac=significant(float(np.median(1 - out_l * (1 + rinse_gain / out_frac) / (out_l + record.rinse_l))))
        if record.rinse_l
        else 0.0,
        basis="prior" if record.liquor_out_l is None else "readings",
        inputs=record,
        cautions=_cautions(record, most_out_l=float(np.median(most_out_l))),
        sources=(SAP_L_PER_KG.source, "common-practice"),
    )


def _kept_l(way: Squeeze, leaf_kg: float, *, z: Floats, total_l: Floats) -> Floats:
    """Litres kept by leaves strained in this way; in a tub with hardly any water a tenth still runs out."""
    return np.minimum(KEPT_L_PER_KG[way].from_z(z) * leaf_kg, MOST_KEPT_FRAC.value * total_l)


def _rinse_gain_frac(rinse_l: float, kept_l: Floats, total_l: Floats, *, mixing: Floats) -> Floats:
    return kept_l / total_l * mixing * rinse_l / (kept_l + rinse_l)


def _cautions(record: StrainRecord, *, most_out_l: float) -> tuple[Caution, ...]:
    said = {
        (
            "lifting",
            f"Wet leaf is heavy: about {WET_LEAF_FACTOR.value * record.leaf_kg:.0f} kg here. Lift it out in parts.",
        ): record.leaf_kg > LIFTED_KG.value,
        (
            "outside-range",
            f"More than {PACKED_KG_PER_L.value:g} kg of leaf in a litre of water is a packed tub: outside what these "
            "figures rest on.",
        ): record.leaf_kg > PACKED_KG_PER_L.value * record.water_l,
        (
            "too-much-liquor",
            f"{record.liquor_out_l or 0:g} L is all that was put in: leaves never give back so much. Was rain or a "
            "rinse counted, or less leaf put in?",
        ): (record.liquor_out_l or 0.0) > most_out_l,
    }
    return those_that_hold(said)
