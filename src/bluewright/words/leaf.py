"""The most blue that a basket can give; the condition of leaf."""

from __future__ import annotations

from typing import Final

from bluewright.science.leaf.record import PotentialAnswer
from bluewright.science.media.at_the_cut import HEAVY_KG
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import amount, measured, of_leaf
from bluewright.words.numbers import figure, frac, percent, ranged
from bluewright.words.own_text import own_text
from bluewright.words.said import Said

QUESTION: Final = marked("How much blue can this basket give at most, and what do waiting and damage cost?")
CONDITIONS: Final = (
    (0.1, marked("a few holes or spots")), (0.3, marked("clearly damaged")), (0.6, marked("about half damaged")),
)  # fmt: skip
"""Up to which share of the leaf area each is said."""


def said(found: PotentialAnswer) -> Said:
    """The answer as a person with a basket reads it."""
    inputs = found.inputs
    short, _long, kg = of_leaf()
    told = {
        "potential": ranged(found.potential_g, "g"),
        "leaf": amount(inputs.leaf_kg, "mass_kg"),
        "per_mass": ranged(found.potential_g_per_kg, f"g/{short}", scale=kg),
        "realistic": ranged(found.realistic_g, "g"),
        "loss": frac(found.loss_per_h),
        "damage": frac(found.damage_cost_frac),
    }
    lines = [
        _("At most %(potential)s of pure indigo is in these %(leaf)s: %(per_mass)s.") % told,
        _("Commonly a fifth to three fifths of that ends in the jar: %(realistic)s.") % told,
        _("Each further hour of waiting loses %(loss)s of it.") % told,
    ]
    if inputs.leaf.damaged_frac:
        lines.append(_("The damage costs %(damage)s of it (a judgement; below 0: a gain).") % told)
    if found.leaf_for_wanted_kg is not None:
        wanted = {"indigo": f"{inputs.wanted_g:g} g", "leaf": measured(found.leaf_for_wanted_kg, "mass_kg")}
        lines.append(_("For %(indigo)s of pure indigo: %(leaf)s of such leaf.") % wanted)
    for got in found.published_yields:
        figures = {
            "low": figure(kg * got.low),
            "high": f"{figure(kg * got.high)} g/{short}",
            "note": own_text(got.note),
        }
        lines.append(_("Others got %(low)s to %(high)s: %(note)s.") % figures)
    return Said(parts=tuple(lines), cautions=found.cautions)


def tub_weight(water_l: float, leaf_kg: float) -> str:
    """That a filled tub is not to be lifted, with its mass, a kilogram for each litre; empty if it is light."""
    mass_kg = water_l + leaf_kg
    if mass_kg <= HEAVY_KG.value:
        return ""
    told = {"mass": amount(float(f"{mass_kg:.2g}"), "mass_kg")}
    return (
        _("Filled it weighs about %(mass)s: fill it where it stands, and bail or siphon it instead of lifting.") % told
    )


def condition(damaged_frac: float) -> str:
    """`sound`, or how much of the leaf area is damaged: `clearly damaged (20%)`."""
    if damaged_frac <= 0:
        return _("sound")
    words = next((words for most, words in CONDITIONS if damaged_frac <= most), marked("mostly damaged"))
    return f"{_(words)} ({percent(damaged_frac)})"
