"""`bluewright tub temp`: how warm the tub was, is and will be."""

from __future__ import annotations

from typing import Final

from bluewright.cli.record_command import RecordCommand
from bluewright.science.media.tub_temp import tub_temp
from bluewright.science.media.tub_temp_record import TubTempAnswer, TubTempRecord
from bluewright.words.numbers import cautions, figure, moment, ranged

BASIS = {
    "prior": "the season alone",
    "air": "the air that was read or forecast",
    "readings": "your readings of the tub, and what is known of the air",
}
HOURS_APART: Final = 12
WORTH_SAYING_C: Final = 0.5


def say(found: TubTempAnswer) -> str:
    """The answer as a person at the tub reads it."""
    inputs = found.inputs
    lines = [
        f"The tub is at {ranged(found.now_c, 'C')} now, by {BASIS[found.basis]}.",
        f"Mean to {moment(inputs.until)}: {ranged(found.mean_c, 'C')}; lowest {ranged(found.lowest_c, 'C')}, "
        f"highest {ranged(found.highest_c, 'C')}.",
        f"Degree-hours above {inputs.base_c:g} C: {ranged(found.degree_h, 'C h')}.",
    ]
    if found.tau_h is None:
        lines.append("A heater holds it, so the air does not matter.")
    else:
        alone = ranged(found.tau_before_h, "h")
        learned = f"; by its size and walls alone it would be {alone}" if alone != ranged(found.tau_h, "h") else ""
        lines.append(f"It makes up two thirds of a change of the air in {ranged(found.tau_h, 'h')}{learned}.")
    more = found.one_more_reading
    if more is not None and more.mean_width_without_c - more.mean_width_with_c >= WORTH_SAYING_C:
        lines.append(
            f"One more reading now would narrow the range of the rest from {figure(more.mean_width_without_c)} C "
            f"across to {figure(more.mean_width_with_c)} C."
        )
    elif more is not None:
        lines.append("One more reading now would tell little; read again when the air has changed.")
    hours = [
        f"{point.time:%a %H:%M} {point.p50:.0f} C ({point.p5:.0f} to {point.p95:.0f})"
        for point in found.curve[HOURS_APART::HOURS_APART]
    ]
    return "\n".join(
        lines + ["Every half day: " + "; ".join(hours[:12]) + "."] * bool(hours) + cautions(found.cautions)
    )


COMMAND = RecordCommand(
    words="tub temp",
    question="How warm was the tub, is it, and will it be, hour by hour?",
    record=TubTempRecord,
    compute=tub_temp,
    say=say,
    example="tub-temp",
)
run = COMMAND.run
