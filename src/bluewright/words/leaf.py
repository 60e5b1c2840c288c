"""The most blue that a basket can give; the condition of leaf."""

from __future__ import annotations

from typing import Final

from bluewright.science.leaf.record import PotentialAnswer
from bluewright.words.measures import amount, measured, of_leaf
from bluewright.words.numbers import figure, frac, percent, ranged
from bluewright.words.own_text import own_text
from bluewright.words.said import Said

QUESTION: Final = "How much blue can this basket give at most, and what do waiting and damage cost?"
CONDITIONS: Final = ((0.1, "a few holes or spots"), (0.3, "clearly damaged"), (0.6, "about half damaged"))
"""Up to which share of the leaf area each is said."""


def said(found: PotentialAnswer) -> Said:
    """The answer as a person with a basket reads it."""
    inputs = found.inputs
    short, _long, kg = of_leaf()
    lines = [
        f"At most {ranged(found.potential_g, 'g')} of pure indigo is in these "
        f"{amount(inputs.leaf_kg, 'mass_kg')}: {ranged(found.potential_g_per_kg, f'g/{short}', scale=kg)}.",
        f"Commonly a fifth to three fifths of that ends in the jar: {ranged(found.realistic_g, 'g')}.",
        f"Each further hour of waiting loses {frac(found.loss_per_h)} of it.",
    ]
    if inputs.leaf.damaged_frac:
        lines.append(f"The damage costs {frac(found.damage_cost_frac)} of it (a judgement; below 0: a gain).")
    if found.leaf_for_wanted_kg is not None:
        leaf = measured(found.leaf_for_wanted_kg, "mass_kg")
        lines.append(f"For {inputs.wanted_g:g} g of pure indigo: {leaf} of such leaf.")
    for others in found.published_yields:
        span = f"{figure(kg * others.low)} to {figure(kg * others.high)} g/{short}"
        lines.append(f"Others got {span}: {own_text(others.note)}.")
    return Said(parts=tuple(lines), cautions=found.cautions)


def condition(damaged_frac: float) -> str:
    """`sound`, or how much of the leaf area is damaged: `clearly damaged (20%)`."""
    if damaged_frac <= 0:
        return "sound"
    words = next((words for most, words in CONDITIONS if damaged_frac <= most), "mostly damaged")
    return f"{words} ({percent(damaged_frac)})"
