"""What goes into a vat, how much of each, in which order, and how it is held."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.published import figure_of
from bluewright.science.base.sourced import Floats
from bluewright.science.media.alkalis import KINDS as ALKALIS
from bluewright.science.media.cloth import REDUCES_FRAC, WORKING_G_PER_L
from bluewright.science.vat import amounts as reckoned
from bluewright.science.vat.amounts import INDIGO_G_PER_MOL, alkali_of, amounts, excess_of, heel_g, powder_frac
from bluewright.science.vat.hazards import cautions
from bluewright.science.vat.kinds import KINDS, set_points
from bluewright.science.vat.order import order
from bluewright.science.vat.priors import FEED_G_PER_G
from bluewright.science.vat.recipe_record import Rung, VatRecipeAnswer, VatRecipeRecord

DRAWS: Final = reckoned.DRAWS


def recipe(record: VatRecipeRecord, *, rng: np.random.Generator) -> VatRecipeAnswer:
    """The recipe of a vat.

    Formula: powder = (pure wanted - heel) / (purity (1 - moisture)); reductant = excess x (moles that reduce the
    indigo) + moles that the oxygen takes; alkali = what closes the balance of charge at the wanted pH. Raises
    InputError from the record, and ModelError where the alkali cannot bring so strong a vat to the pH.
    Sources: arithmetic on formulae; recipes of Mairet and of Knecht, Rawson and Loewenthal for excess and order.
    """
    kind, points = KINDS[record.kind], set_points(record.kind, record.fibre)
    target_ph = points.ph.value if record.target_ph is None else record.target_ph
    alkali = alkali_of(record, target_ph=target_ph)
    found = amounts(record, alkali=alkali, target_ph=target_ph, rng=rng)
    ready_h = kind.ready_h.draw(rng, DRAWS)
    pure_mol = found.pure_g / INDIGO_G_PER_MOL
    jar = record.pigment.mass_g
    return VatRecipeAnswer(
        id=record.id,
        powder_g=_band(found.powder_g),
        pure_g=_band(found.pure_g),
        pure_g_per_l=_band(found.pure_g / record.volume_l),
        active_g_per_l=_band(found.pure_g * found.reduces_frac / record.volume_l),
        for_cloth_g=None if found.for_cloth_g is None else _band(found.for_cloth_g),
        steps=order(record, found, alkali=alkali, points=points, ready_h=_band(ready_h)),
        excess_factor=excess_of(record),
        reductant_mol_per_mol=None if kind.reductant is None else _band(found.reductant_mol / pure_mol),
        alkali_mol_per_mol=_band(found.alkali_mol * ALKALIS[alkali].charge / pure_mol),
        oxygen_mg=_band(found.oxygen_mg),
        oxygen_share_frac=None if kind.reductant is None else _band(found.oxygen_share_frac),
        jar_enough_chance=None if jar is None else significant(float(np.mean(found.powder_g <= jar)), 3),
        jar_g_per_l=None if jar is None else _band((jar * found.purity_frac + heel_g(record)) / record.volume_l),
        set_ph=figure_of(points.ph),
        target_ph=target_ph,
        set_c=figure_of(points.dye_c),
        reduce_c=figure_of(kind.reduce_c),
        dip_min=figure_of(points.dip_min),
        ready_after_h=_band(ready_h),
        ladder=ladder(),
        basis="prior" if record.pigment.purity is None else "readings",
        inputs=record,
        cautions=cautions(record, found, alkali=alkali, points=points, target_ph=target_ph),
        sources=_sources(record),
    )


def ladder() -> tuple[Rung, ...]:
    """At which strength each depth is usually dyed: the middle two thirds of what sources say."""
    rungs = WORKING_G_PER_L
    return tuple(
        Rung(
            depth=depth,
            low_g_per_l=significant(prior.centre * float(np.exp(-prior.spread)), 2),
            high_g_per_l=significant(prior.centre * float(np.exp(prior.spread)), 2),
        )
        for depth, prior in rungs.items()
    )


def _band(values: Floats) -> Band:
    return band(values, digits=3)


def _sources(record: VatRecipeRecord) -> tuple[str, ...]:
    kind, points = KINDS[record.kind], set_points(record.kind, record.fibre)
    purity, moisture = powder_frac(record)
    used = {
        points.ph.source, points.dye_c.source, kind.reduce_c.source, kind.ready_h.source, purity.source,
        moisture.source, "iupac-atomic-weights-2021", "benson-krause-1984", "davies-1962", "blackburn-2009",
        "bluewright-vat", REDUCES_FRAC.source,
    }  # fmt: skip
    if kind.excess is not None:
        used.add(kind.excess.source)
    if record.kind == "ferment":
        used.add(FEED_G_PER_G.source)
    return (*sorted(used - {"common-practice"}), "common-practice")
