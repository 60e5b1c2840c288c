"""How long to air, how many pours, done yet."""

from __future__ import annotations

import math
from typing import Final

from bluewright.science.air.answer import AirAnswer
from bluewright.science.air.finish import SURE_CHANCE
from bluewright.science.base.bands import Band
from bluewright.words.numbers import figure, frac, minutes, percent, ranged, rough
from bluewright.words.said import Said

QUESTION: Final = "How long must this liquor be aired, how many pours, is it done, and what does going on cost?"

DOING: Final = {"pour": "pouring", "whisk": "whisking", "bubble": "bubbling", "paddle": "paddling"}
READING: Final = {
    "dissolved_oxygen": "dissolved oxygen",
    "foam": "the foam",
    "liquor": "a drop on paper",
    "ph": "the pH",
}
WORTH_SAYING_FRAC: Final = 0.05
SLOW: Final = {
    "air": "bringing the air in; livelier airing shortens it",
    "reaction": "the reaction; more alkali or warmth shortens it, more air hardly",
    "both": "bringing the air in and the reaction about equally",
}
ALKALI: Final = {
    "add_more": "The pH is too low: add alkali in small parts before going on.",
    "watch": "The pH is getting low: have alkali at hand.",
}


def said(found: AirAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    lines = [_advice(found), *([ALKALI[found.alkali_advice]] if found.alkali_advice in ALKALI else [])]
    if found.left_pours is not None and found.needed_pours is not None and found.advice != "stop":
        lines.append(_pours(found, found.left_pours, found.needed_pours))
    if found.basis == "readings" and not _surely_done(found):
        done = f"; chance that it is done: {percent(found.chance_done_frac)}" if found.advice != "stop" else ""
        lines.append(f"Turned so far: {frac(found.done_frac)}{done}.")
    if found.advice != "stop":
        lines.append(f"What takes the time is {SLOW[found.held_back_by]}.")
    lines.append(f"Every ten minutes beyond the end may cost {frac(found.overrun_loss_frac)} of the blue (a guess).")
    if found.ammonia_loss_frac is not None and "ammonia-air" not in {c.code for c in found.cautions}:
        lines.append(f"Ammonia carried off by the end: {frac(found.ammonia_loss_frac)}.")
    best = next(iter(found.next_reading), None)
    if best is not None and found.advice != "stop" and best.narrows_frac >= WORTH_SAYING_FRAC:
        lines.append(
            f"At the next look {READING[best.reading]} tells most: "
            f"a range narrower by about {percent(best.narrows_frac)}."
        )
    return Said(parts=tuple(lines), cautions=found.cautions)


def _pours(found: AirAnswer, left: Band, needed: Band) -> str:
    more = ""
    if found.inputs.done_min or found.inputs.done_pours:
        more = f"{ranged(left, 'more')}; " if left.p50 >= 1 else f"at most {rough(math.ceil(left.p95))} more; "
    return f"In pours: {more}{ranged(needed, 'in all')}."


def _surely_done(found: AirAnswer) -> bool:
    return found.advice == "stop" and found.chance_done_frac >= SURE_CHANCE


def _advice(found: AirAnswer) -> str:
    doing = DOING[found.way]
    look = f"look again after {_count(found.look_again_min, 'minute')}"
    if found.advice == "stop":
        return _stop(found)
    if found.left_min.p50 < 1:
        return f"Nearly there: at most about {_count(found.left_min.p95, 'minute')} more of {doing}; {look}."
    if found.advice == "look_again":
        return f"Nearly there: {doing} for about {minutes(found.left_min)} more; {look}."
    if found.inputs.done_min or found.inputs.done_pours:
        return f"Go on {doing}: about {minutes(found.left_min)} more; {look}."
    return f"It takes about {minutes(found.left_min)} of {doing}; {look}."


def _count(value: float, thing: str) -> str:
    """`1 minute`, `13 minutes`."""
    whole = max(1, math.ceil(value))
    return f"{rough(whole)} {thing}{'' if whole == 1 else 's'}"


def _stop(found: AirAnswer) -> str:
    if _surely_done(found):
        return f"Stop {DOING[found.way]}: it is done (chance {percent(found.chance_done_frac)})."
    gain, loss = (f"{figure(100 * share)}%" for share in (found.gain_in_10_min_frac, found.loss_in_10_min_frac))
    return f"Stop {DOING[found.way]}: ten more minutes would turn {gain} of the blue and cost {loss}."
