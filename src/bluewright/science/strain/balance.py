"""The balance of liquor and blue at straining."""

from __future__ import annotations

import numpy as np

from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution
from bluewright.science.base.sourced import Floats
from bluewright.science.strain.priors import KEPT_L_PER_KG, RINSE_MIXING, SAP_L_PER_KG
from bluewright.science.strain.record import StrainAnswer, StrainRecord

DRAWS = 4000
JUG_SD_FRAC = 0.04
"""Standard deviation of a measured volume (common practice: marks on jugs and buckets are good to 3-5 %)."""


def balance(record: StrainRecord, *, rng: np.random.Generator) -> StrainAnswer:
    """Where the liquor and its blue are after straining, with what squeezing or a rinse would gain.

    Formula: total = water + sap * leaf; out = total - kept; share out = out / total.
    A rinse R over the kept liquor K carries away K * m * R / (K + R), m being how well it mixes.

    Raises InputError (from the record) for impossible volumes. Source: mass balance; the kept litres are
    judgements (`strain.priors`), replaced by the measured liquor where the record has it.
    """
    total_l = record.water_l + SAP_L_PER_KG.draw(rng, DRAWS) * record.leaf_kg
    z = rng.standard_normal(DRAWS)
    if record.liquor_out_l is None:
        kept_l = _kept_l(record, z, total_l)
    else:
        measured_l = record.liquor_out_l * (1 + JUG_SD_FRAC * rng.standard_normal(DRAWS))
        kept_l = np.clip(total_l - measured_l, 0.05 * record.leaf_kg, total_l)
    mixing = RINSE_MIXING.draw(rng, DRAWS)
    out_frac = 1 - kept_l / total_l
    rinse_gain = _rinse_gain_frac(record.rinse_l or record.leaf_kg, kept_l, total_l, mixing)
    drained_l = KEPT_L_PER_KG["drained"].from_z(z) * record.leaf_kg
    gains = {
        way: np.clip(drained_l - KEPT_L_PER_KG[way].from_z(z) * record.leaf_kg, 0, None) / total_l
        for way in ("hand", "press")
    }
    out_l = total_l - kept_l
    return StrainAnswer(
        id=record.id,
        liquor_out_l=band(out_l),
        kept_l=band(kept_l),
        blue_out_frac=band(out_frac + (rinse_gain if record.rinse_l else 0.0)),
        gain_by_hand_frac=band(gains["hand"]),
        gain_by_press_frac=band(gains["press"]),
        gain_by_rinse_frac=band(rinse_gain),
        dilution_frac=significant(float(np.median(1 - out_l * (1 + rinse_gain / out_frac) / (out_l + record.rinse_l))))
        if record.rinse_l
        else 0.0,
        basis="prior" if record.liquor_out_l is None else "readings",
        inputs=record,
        cautions=_cautions(record),
        sources=(SAP_L_PER_KG.source, "common-practice"),
    )


def _kept_l(record: StrainRecord, z: Floats, total_l: Floats) -> Floats:
    """Litres kept by the leaves; never more than nine tenths of what there is."""
    return np.minimum(KEPT_L_PER_KG[record.squeeze].from_z(z) * record.leaf_kg, 0.9 * total_l)


def _rinse_gain_frac(rinse_l: float, kept_l: Floats, total_l: Floats, mixing: Floats) -> Floats:
    return kept_l / total_l * mixing * rinse_l / (kept_l + rinse_l)


def _cautions(record: StrainRecord) -> tuple[Caution, ...]:
    heavy = Caution(
        code="lifting",
        text=f"Wet leaf is heavy: about {1.4 * record.leaf_kg:.0f} kg here. Lift it out in parts.",
        source="common-practice",
    )
    packed = Caution(
        code="outside-range",
        text="More than 0.5 kg of leaf in a litre of water is a packed tub: outside what these figures rest on.",
        source="common-practice",
    )
    found = [heavy] if record.leaf_kg > 12 else []
    return tuple(found + ([packed] if record.leaf_kg / record.water_l > 0.5 else []))
