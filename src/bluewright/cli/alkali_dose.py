"""`bluewright alkali dose`: how much alkali, in which parts, and what it does."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.cli.wording import cautions, figure, ranged
from bluewright.science.alkali.dose import dose
from bluewright.science.alkali.kinds import KINDS
from bluewright.science.alkali.record import DoseAnswer, LiquorRecord
from bluewright.science.base.bands import Band


def say(found: DoseAnswer) -> str:
    """The answer as a person at the tub reads it."""
    inputs, amount = found.inputs, found.dose
    unit = "mL" if amount.unit == "ml" else "g"
    of_what = f"of {KINDS[inputs.alkali.kind].words}"
    more = " more" if inputs.added_so_far else ""
    if amount.p50 == 0.0:
        lines = [f"Add no more: the liquor stands at pH {_ph(found.ph_after)} already."]
    else:
        span = (
            f"{figure(amount.p50)} {unit}{more} {of_what} (likely {figure(amount.p5)} to {figure(amount.p95)} {unit})"
        )
        lines = [
            f"To bring {inputs.liquor_l:.3g} L to pH {inputs.target_ph:g}: {span}.",
            _first(found, unit),
            f"With all of it: pH {_ph(found.ph_after)}. If twice as much went in by mistake: "
            f"{_ph(found.ph_if_doubled)}.",
        ]
    lines += [f"Chalk that may fall with the blue: {ranged(found.calcite_g, 'g')}."] if found.calcite_g.p95 else []
    if found.ammonia_room_ppm is not None:
        lines.append(f"Ammonia in the air of the room: {ranged(found.ammonia_room_ppm, 'ppm')}.")
    lines += [f"Know its limits: {limit.text}" for limit in found.limits]
    return "\n".join(lines + cautions(found.cautions))


def _first(found: DoseAnswer, unit: str) -> str:
    if found.first_part == found.dose.p50:
        return "Add it, stir for two minutes, and read the pH once more."
    return (
        f"First add {figure(found.first_part)} {unit}, stir for two minutes, read the pH, and ask again with that "
        "reading (added_so_far)."
    )


def _ph(band: Band) -> str:
    return f"{band.p50:.1f} ({band.p5:.1f} to {band.p95:.1f})"


COMMAND = RecordCommand(
    words="alkali dose",
    question="How much alkali brings this liquor to the wanted pH, in which parts, and what else does it do?",
    record=LiquorRecord,
    compute=dose,
    say=say,
    example="alkali-dose",
)
run = COMMAND.run
