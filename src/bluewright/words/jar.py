"""What the jar holds and where the rest probably went."""

from __future__ import annotations

from typing import Final

from bluewright.science.pigment.priors import Step
from bluewright.science.pigment.yield_record import NextReading, YieldAnswer
from bluewright.words.measures import of_leaf
from bluewright.words.numbers import frac, percent, ranged
from bluewright.words.said import Rows, Said

QUESTION: Final = "What does this jar hold, how much of the leaf's blue is that, and where did the rest go?"

NAMES: Final[dict[Step, str]] = {
    "steep": "steeping",
    "strain": "straining",
    "conversion": "alkali and air",
    "wash": "settling and washing",
    "dry": "drying and moving",
}

NEXT: Final[dict[NextReading, str]] = {
    "purity": "a measured purity",
    "potential": "a better figure for what the leaf could give",
    "steep": "the share steeped out, from the strain call",
    "strain": "the share that ran out at straining, from the strain balance",
    "conversion": "the pH when it was aired, and whether the air was finished",
    "wash": "how blue the decanted liquor was",
}

WORTH_SAYING: Final = 0.02


def said(found: YieldAnswer) -> Said:
    """The answer as a person with a jar reads it."""
    _short, mass, kg = of_leaf()
    parts: list[str | Rows] = [
        f"{ranged(found.crude_g, 'g')} of dry pigment at {frac(found.purity_frac)} indigo: "
        f"{ranged(found.pure_g, 'g')} of pure blue.",
        f"From each {mass} of leaf: {ranged(found.crude_g_per_kg, 'g', scale=kg)} pigment, "
        f"{ranged(found.pure_g_per_kg, 'g', scale=kg)} pure blue.",
        f"The leaf could have given {ranged(found.potential_g, 'g')}; "
        f"the jar holds {frac(found.of_potential_frac)} of it.",
        _where(found),
        _most(found),
        f"Chance that the leaf itself was poor: {percent(found.chance_poor_leaf_frac)}.",
    ]
    if found.next_reading is not None:
        parts.append(f"What would tell most: {NEXT[found.next_reading]}.")
    return Said(parts=tuple(parts), cautions=found.cautions)


def _where(found: YieldAnswer) -> Rows:
    """What each step kept and lost."""
    guess = {"prior": " (a guess)", "readings": ""}
    return Rows(
        caption="Where the rest probably went",
        head=("step", "kept", "pure blue lost"),
        rows=tuple(
            (NAMES[step.step], frac(step.kept_frac), f"{ranged(step.lost_g, 'g')}{guess[step.basis]}")
            for step in found.steps
        ),
    )


def _most(found: YieldAnswer) -> str:
    """Where most was lost, with its chance; then the other steps that may be it."""
    chances = {step.step: step.lost_most_frac for step in found.steps}
    others = sorted((step for step in chances if step != found.worst), key=lambda step: -chances[step])
    rest = ", ".join(f"{NAMES[step]} {percent(chances[step])}" for step in others if chances[step] >= WORTH_SAYING)
    said = f"Most was probably lost in {NAMES[found.worst]} (chance {percent(chances[found.worst])}"
    return f"{said}; {rest})." if rest else f"{said})."
