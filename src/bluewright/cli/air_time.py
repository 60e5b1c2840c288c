"""`bluewright air time`: how long to air, how many pours, done yet."""

from __future__ import annotations

from typing import Final

from bluewright.cli.record_command import RecordCommand
from bluewright.cli.wording import cautions, figure, frac, ranged
from bluewright.science.air.answer import AirAnswer
from bluewright.science.air.finish import SURE_CHANCE, airing
from bluewright.science.air.record import AirRecord

DOING: Final = {"pour": "pouring", "whisk": "whisking", "bubble": "bubbling", "paddle": "paddling"}
READING: Final = {
    "dissolved_oxygen": "dissolved oxygen",
    "foam": "the foam",
    "liquor": "a drop on paper",
    "ph": "the pH",
}
SLOW: Final = {
    "air": "bringing the air in; livelier airing shortens it",
    "reaction": "the reaction; more alkali or warmth shortens it, more air hardly",
    "both": "bringing the air in and the reaction about equally",
}
ALKALI: Final = {
    "add_more": "The pH is too low: add alkali in small parts before going on.",
    "watch": "The pH is getting low: have alkali at hand.",
}


def say(found: AirAnswer) -> str:
    """The answer as a person at the tub reads it."""
    lines = [_advice(found), *([ALKALI[found.alkali_advice]] if found.alkali_advice in ALKALI else [])]
    if found.left_pours is not None and found.needed_pours is not None and found.advice != "stop":
        lines.append(f"In pours: {ranged(found.left_pours, 'more')}; {ranged(found.needed_pours, 'in all')}.")
    if found.basis == "readings":
        lines.append(
            f"Turned so far: {frac(found.done_frac)}; chance that it is done: {figure(100 * found.chance_done_frac)}%."
        )
    if found.advice != "stop":
        lines.append(f"What takes the time is {SLOW[found.held_back_by]}.")
    lines.append(f"Every ten minutes beyond the end may cost {frac(found.overrun_loss_frac)} of the blue (a guess).")
    if found.ammonia_loss_frac is not None:
        lines.append(f"Ammonia carried off by the end: {frac(found.ammonia_loss_frac)}.")
    if found.next_reading and found.advice != "stop":
        best = found.next_reading[0]
        lines.append(
            f"At the next look {READING[best.reading]} tells most: "
            f"a range narrower by about {figure(100 * best.narrows_frac)}%."
        )
    return "\n".join(lines + cautions(found.cautions))


def _advice(found: AirAnswer) -> str:
    left = ranged(found.left_min, "minutes more")
    doing = DOING[found.way]
    if found.advice == "stop":
        return _stop(found)
    if found.advice == "look_again":
        return f"Nearly there: {doing} for about {left}; look again after {figure(found.look_again_min)}."
    return f"Go on {doing}: about {left}; look again after {figure(found.look_again_min)} minutes."


def _stop(found: AirAnswer) -> str:
    if found.chance_done_frac >= SURE_CHANCE:
        return f"Stop {DOING[found.way]}: it is done, by a chance of {figure(100 * found.chance_done_frac)}%."
    gain, loss = (f"{figure(100 * share)}%" for share in (found.gain_in_10_min_frac, found.loss_in_10_min_frac))
    return f"Stop {DOING[found.way]}: ten more minutes would turn {gain} of the blue and cost {loss}."


COMMAND = RecordCommand(
    words="air time",
    question="How long must this liquor be aired, how many pours, is it done, and what does going on cost?",
    record=AirRecord,
    compute=airing,
    say=say,
    example="air-time",
)
run = COMMAND.run
