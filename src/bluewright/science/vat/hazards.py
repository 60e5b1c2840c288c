"""Cautions of a recipe, with this case's figures: what could hurt first, then where a number should not be trusted."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bluewright.science.base.bands import significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.vat.amounts import Amounts, heel_g
from bluewright.science.vat.dangers import DANGERS, DEDICATED
from bluewright.science.vat.kinds import KINDS, SetPoints, VatAlkali, family
from bluewright.science.vat.order import HAZARDS
from bluewright.science.vat.priors import OVERPOWER
from bluewright.science.vat.recipe_record import Hazard, Substance, VatRecipeRecord

WHY_NOT_HIGHER = {
    "wool": "alkali eats wool, the longer and warmer the worse",
    "silk": "alkali dulls and weakens silk",
    "cellulose": "leuco with two charges goes onto the fibre poorly: paler, deeper in",
}
"""What a pH above that of the fibre does."""
WHY_NOT_LOWER = "leuco without charge falls out and clouds the vat, and the reductant dies sooner"


def cautions(
    record: VatRecipeRecord, found: Amounts, *, alkali: VatAlkali, points: SetPoints, target_ph: float
) -> tuple[Caution, ...]:
    """All cautions of a recipe; those that could hurt stand first."""
    hurting = [DANGERS[hazard] for hazard in _met(record, alkali)]
    notes = (*_ph(record, points, target_ph), *_kind(record), *_jar(record, found), *_strength(record, found))
    return (*hurting, DEDICATED, *notes)


def _met(record: VatRecipeRecord, alkali: VatAlkali) -> list[Hazard]:
    """The hazards of what goes in and of how it is kept, each once."""
    kind = KINDS[record.kind]
    used: list[Substance] = ["powder", alkali, *([kind.reductant] if kind.reductant else [])]
    met = [hazard for what in used for hazard in HAZARDS[what]]
    if kind.reduce_c.value >= 45.0:
        met.append("hot_water")
    if record.kind == "ferment":
        met.append("foul_air")
    return sorted(set(met), key=list(DANGERS).index)


def _ph(record: VatRecipeRecord, points: SetPoints, target_ph: float) -> Iterator[Caution]:
    ph, group = points.ph, family(record.fibre)
    if target_ph > ph.high:
        why = WHY_NOT_HIGHER[group]
        yield caution(
            "ph-above-fibre",
            f"pH {target_ph:g} is above the usual {ph.low:g} to {ph.high:g} for this vat and fibre: {why}.",
        )
    if target_ph < ph.low:
        yield caution(
            "ph-below-fibre",
            f"pH {target_ph:g} is below the usual {ph.low:g} to {ph.high:g} for this vat and fibre: {WHY_NOT_LOWER}.",
        )


def _kind(record: VatRecipeRecord) -> Iterator[Caution]:
    group = family(record.fibre)
    if group != "cellulose" and record.kind in {"iron", "fructose"}:
        name = "wool" if group == "wool" else "silk"
        held = "stands near lime water, pH 12" if record.kind == "iron" else "reduces poorly at the pH that it bears"
        yield caution(
            "fibre-kind",
            f"A vat of {KINDS[record.kind].words} is not made for {name}: it {held}, and {WHY_NOT_HIGHER[group]}. A "
            "dithionite or a fermented vat serves better.",
        )
    if record.kind == "iron":
        yield caution(
            "dried-copperas",
            "Reckoned for green crystals with seven waters. Dried ferrous sulphate is 1.6 to 1.8 times as strong by "
            "weight.",
        )
    if record.excess_factor is not None and record.excess_factor < 1.0:
        yield caution(
            "reductant-short",
            f"Only {record.excess_factor:g} times the reductant that the indigo takes: the rest of the indigo stays "
            "blue and lies on the bottom.",
        )


def _jar(record: VatRecipeRecord, found: Amounts) -> Iterator[Caution]:
    pigment = record.pigment
    if pigment.purity is None:
        low, high = (float(value) for value in np.quantile(found.purity_frac, [0.05, 0.95]))
        yield caution(
            "purity-guessed",
            f"Nobody has measured this jar: the recipe takes {100 * low:.0f} to {100 * high:.0f}% of the powder for "
            "indigo. An assay, or a trial vat with a tenth of it, tells far more.",
            source="bluewright-yield",
        )
    if pigment.mass_g is not None and float(np.median(found.powder_g)) > pigment.mass_g:
        reached = (heel_g(record) + pigment.mass_g * float(np.median(found.purity_frac))) / record.volume_l
        litres = record.volume_l * pigment.mass_g / float(np.median(found.powder_g))
        yield caution(
            "jar-short",
            f"The jar holds {pigment.mass_g:g} g, less than the {significant(float(np.median(found.powder_g)), 3):g} "
            f"g that this takes. All of it in {record.volume_l:g} L gives about {significant(reached, 2):g} g/L; at "
            f"the wanted strength it makes about {significant(litres, 2):g} L.",
        )
    if record.heel is not None and float(np.median(found.powder_g)) == 0.0:
        yield caution("heel-enough", "The vat holds as much indigo as is wanted already: no powder is needed.")


def _strength(record: VatRecipeRecord, found: Amounts) -> Iterator[Caution]:
    strength = float(np.median(found.pure_g)) / record.volume_l
    if strength > OVERPOWER.value:
        yield caution(
            "stock-strength",
            f"{significant(strength, 2):g} g/L is a stock, to be thinned before cloth goes in: so strong a vat "
            "streaks and rubs off.",
        )
    if record.alkali == "slaked_lime" or KINDS[record.kind].alkalis[0] == "slaked_lime":
        yield caution(
            "lime-kinds",
            "Reckoned for slaked lime, fresh and dry. Old lime has turned to chalk; of quicklime three quarters do.",
        )
