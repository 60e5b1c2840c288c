"""`bluewright dry curve`: how dry the paste is, how long it still takes, and what will be left."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.cli.wording import cautions, frac, ranged
from bluewright.science.settle.drying import dry
from bluewright.science.settle.drying_record import DryAnswer, DryRecord


def say(found: DryAnswer) -> str:
    """The answer as a person at the scale reads it."""
    lines = [f"Air-dry it will weigh {ranged(found.end_g, 'g')}; without any water {ranged(found.dry_g, 'g')}."]
    lines.append(f"Water in it now: {frac(found.moisture_now_frac)}.")
    if found.rule_met:
        lines.append("Dry: a day takes less than a hundredth of it.")
    else:
        lines.append(f"Dry (a day takes less than a hundredth) in {ranged(found.left_h, 'h')} from the last weighing.")
    if found.basis == "prior":
        lines.append("That is a guess from the air and the layer: three weighings some hours apart tell much more.")
    return "\n".join(lines + cautions(found.cautions))


COMMAND = RecordCommand(
    words="dry curve",
    question="How dry is the paste, when is it dry, and how much pigment will be left?",
    record=DryRecord,
    compute=dry,
    say=say,
    example="dry-curve",
)
run = COMMAND.run
