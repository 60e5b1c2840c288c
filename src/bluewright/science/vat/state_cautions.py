"""Cautions of a standing vat: what could hurt at it first, then where the answer should not be trusted."""

from __future__ import annotations

from collections.abc import Iterator

from bluewright.science.base.bands import significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.media.cloth import PROTEIN
from bluewright.science.vat.advice import PERHAPS, Chosen, Outlook
from bluewright.science.vat.dangers import DANGERS, SPENT
from bluewright.science.vat.kinds import KINDS
from bluewright.science.vat.recipe_record import Hazard
from bluewright.science.vat.setting import Setting

HOT_C = 50.0
"""Above it thiourea dioxide breaks up with gas (bulletin of an insurer)."""


def cautions(made: Setting, chosen: Chosen, view: Outlook) -> tuple[Caution, ...]:
    """All cautions for this vat; those that could hurt stand first."""
    record = made.record
    met: set[Hazard] = {hazard for part in chosen.parts for hazard in part.hazards}
    if KINDS[record.kind].sulphur:
        met.add("sulphur_gas")
    if record.kind == "ferment":
        met.add("foul_air")
    if view.temp_c >= 45.0 or chosen.advice == "warm":
        met.add("hot_water")
    if record.kind == "thiourea_dioxide" and view.temp_c > HOT_C:
        met.add("thiourea_heat")
    hurting = [DANGERS[hazard] for hazard in sorted(met, key=list(DANGERS).index)]
    if chosen.advice in {"retire", "add_indigo"}:
        hurting.append(SPENT)
    return (*hurting, *_notes(made, chosen, view))


def _notes(made: Setting, chosen: Chosen, view: Outlook) -> Iterator[Caution]:
    record, ph = made.record, made.points.ph
    if not record.readings:
        yield caution(
            "vat-unseen",
            "Nobody has looked yet: the colour of the liquor, a strip and a pH tell more than the reckoning.",
        )
    if view.low_ph_chance >= PERHAPS.value and not any(one.ph is not None for one in record.readings):
        yield caution(
            "ph-unread", "Nobody has read the pH, and it has probably fallen: read it before anything goes in."
        )
    if view.high_ph_chance >= PERHAPS.value:
        what = "wool and silk suffer from it" if record.fibre in PROTEIN else "cloth dyes paler and deeper in"
        how = "Add no alkali; let it stand, or thin it with warm water"
        yield caution(
            "ph-above-fibre",
            f"The pH is probably above the usual {ph.low:g} to {ph.high:g} for this fibre: {what}. {how}.",
        )
    highest = KINDS[record.kind].reduce_c.high
    if view.temp_c > highest:
        yield caution(
            "too-hot",
            f"{significant(view.temp_c, 2):g} C is above the {highest:g} C of such a vat: its reductant dies sooner.",
        )
    if any(one.potential_mv is not None for one in record.readings):
        yield caution(
            "mv-weak",
            "Millivolts are weak evidence here: old hands found them the least reliable of all signs. They never "
            "decide alone.",
        )
    if chosen.advice == "dye":
        yield caution(
            "strip-first",
            f"A test strip first, for a minute, then a minute of air: {significant(100 * view.ready_chance, 2):g} in "
            "a hundred such vats would be ready.",
        )
