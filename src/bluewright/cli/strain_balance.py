"""`bluewright strain balance`: where the liquor and the blue are after straining."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.strain.balance import balance
from bluewright.science.strain.record import StrainAnswer, StrainRecord
from bluewright.words.numbers import cautions, frac, litres


def say(found: StrainAnswer) -> str:
    """The answer as a person at the tub reads it."""
    inputs = found.inputs
    lines = [
        f"Liquor out: {litres(found.liquor_out_l)}; kept by the leaves: {litres(found.kept_l)}.",
        f"Share of the blue in the liquor: {frac(found.blue_out_frac)}.",
        f"Wringing by hand instead of draining gains {frac(found.gain_by_hand_frac)} of all the blue; "
        f"a press {frac(found.gain_by_press_frac)}.",
    ]
    rinse_l = inputs.rinse_l or inputs.leaf_kg
    verb = "gains" if inputs.rinse_l else "would gain"
    lines.append(f"A rinse of {rinse_l:.3g} L {verb} {frac(found.gain_by_rinse_frac)}.")
    return "\n".join(lines + cautions(found.cautions))


COMMAND = RecordCommand(
    words="strain balance",
    question="How much liquor and blue run out, how much stays in the leaves, and is squeezing or a rinse worth it?",
    record=StrainRecord,
    compute=balance,
    say=say,
    example="strain-balance",
)
run = COMMAND.run
