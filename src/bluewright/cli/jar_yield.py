"""`bluewright jar yield`: what the jar holds and where the rest probably went."""

from __future__ import annotations

from typing import Final

from bluewright.cli.record_command import RecordCommand
from bluewright.science.pigment.jar_yield import jar_yield
from bluewright.science.pigment.priors import Step
from bluewright.science.pigment.yield_record import NextReading, YieldAnswer, YieldRecord
from bluewright.words.numbers import cautions, frac, percent, ranged

NAMES: Final[dict[Step, str]] = {
    "steep": "steeping",
    "strain": "straining",
    "conversion": "alkali and air",
    "wash": "settling and washing",
    "dry": "drying and moving",
}

NEXT: Final[dict[NextReading, str]] = {
    "purity": "a measured purity",
    "potential": "a better figure for the leaf's potential (bluewright leaf potential)",
    "steep": "the share steeped out (bluewright steep call)",
    "strain": "the share that ran out at straining (bluewright strain balance)",
    "conversion": "the pH when it was aired, and whether the air was finished",
    "wash": "how blue the decanted liquor was",
}

WORTH_SAYING: Final = 0.02


def say(found: YieldAnswer) -> str:
    """The answer as a person with a jar reads it."""
    lines = [
        f"{ranged(found.crude_g, 'g')} of dry pigment at {frac(found.purity_frac)} indigo: "
        f"{ranged(found.pure_g, 'g')} of pure blue.",
        f"From each kilogram of leaf: {ranged(found.crude_g_per_kg, 'g')} pigment, "
        f"{ranged(found.pure_g_per_kg, 'g')} pure blue.",
        f"The leaf could have given {ranged(found.potential_g, 'g')}; "
        f"the jar holds {frac(found.of_potential_frac)} of it.",
        "",
        "Where the rest probably went:",
        *(
            f"  {NAMES[step.step]}: kept {frac(step.kept_frac)}, lost {ranged(step.lost_g, 'g')}"
            + ("" if step.basis == "readings" else " (a guess)")
            for step in found.steps
        ),
        "",
        _most(found),
        f"Chance that the leaf itself was poor: {percent(found.chance_poor_leaf_frac)}.",
    ]
    if found.next_reading is not None:
        lines.append(f"What would tell most: {NEXT[found.next_reading]}.")
    return "\n".join(lines + cautions(found.cautions))


def _most(found: YieldAnswer) -> str:
    """Where most was lost, with its chance; then the other steps that may be it."""
    chances = {step.step: step.lost_most_frac for step in found.steps}
    others = sorted((step for step in chances if step != found.worst), key=lambda step: -chances[step])
    rest = ", ".join(f"{NAMES[step]} {percent(chances[step])}" for step in others if chances[step] >= WORTH_SAYING)
    said = f"Most was probably lost in {NAMES[found.worst]} (chance {percent(chances[found.worst])}"
    return f"{said}; {rest})." if rest else f"{said})."


COMMAND = RecordCommand(
    words="jar yield",
    question="What does this jar hold, how much of the leaf's blue is that, and where did the rest go?",
    record=YieldRecord,
    compute=jar_yield,
    say=say,
    example="jar-yield",
)
run = COMMAND.run
