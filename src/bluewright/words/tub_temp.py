"""How warm the tub was, is and will be."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.bands import BandAtTime
from bluewright.science.media.tub_temp_record import TubTempAnswer
from bluewright.words.measures import amount, degree, in_own_units, measured
from bluewright.words.numbers import figure, moment, ranged
from bluewright.words.said import Rows, Said

QUESTION: Final = "How warm was the tub, is it, and will it be, hour by hour?"

BASIS = {
    "prior": "the season alone",
    "air": "the air that was read or forecast",
    "readings": "your readings of the tub, and what is known of the air",
}
HOURS_APART: Final = 12
MOST_ROWS: Final = 12
WORTH_SAYING_C: Final = 0.5


def said(found: TubTempAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    inputs = found.inputs
    name, step = degree()
    now, mean, lowest, highest = (
        measured(one, "temp_c") for one in (found.now_c, found.mean_c, found.lowest_c, found.highest_c)
    )
    degree_h = ranged(found.degree_h, f"{name} h", scale=step)
    lines = [
        f"The tub is at {now} now, by {BASIS[found.basis]}.",
        f"Mean to {moment(inputs.until)}: {mean}; lowest {lowest}, highest {highest}.",
        f"Degree-hours above {amount(inputs.base_c, 'temp_c')}: {degree_h}.",
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
            f"One more reading now would narrow the range of the rest from "
            f"{figure(step * more.mean_width_without_c)} {name} across to "
            f"{figure(step * more.mean_width_with_c)} {name}."
        )
    elif more is not None:
        lines.append("One more reading now would tell little; read again when the air has changed.")
    half_days = found.curve[HOURS_APART::HOURS_APART][:MOST_ROWS]
    rows = tuple((moment(p.time), _whole(p)) for p in half_days)
    table = [Rows(caption="Every half day", head=("when", "tub"), rows=rows)] if rows else []
    return Said(parts=(*lines, *table), cautions=found.cautions)


def _whole(point: BandAtTime) -> str:
    """`17 C (16 to 18)`, in whole degrees."""
    (low, mid, high), unit = in_own_units((point.p5, point.p50, point.p95), "temp_c")
    return f"{mid:.0f} {unit} ({low:.0f} to {high:.0f})"
