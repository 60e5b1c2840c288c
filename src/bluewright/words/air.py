"""How long to air, how many pours, done yet."""

from __future__ import annotations

import math
from typing import Final

from bluewright.science.air.answer import AirAnswer
from bluewright.science.air.finish import SURE_CHANCE
from bluewright.science.base.bands import Band
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.numbers import figure, frac, minutes, percent, ranged, rough
from bluewright.words.said import Said

QUESTION: Final = marked("How long must this liquor be aired, how many pours, is it done, and what does going on cost?")

DOING: Final = {
    "pour": marked("pouring"), "whisk": marked("whisking"), "bubble": marked("bubbling"), "paddle": marked("paddling"),
}  # fmt: skip
READING: Final = {
    "dissolved_oxygen": marked("dissolved oxygen"),
    "foam": marked("the foam"),
    "liquor": marked("a drop on paper"),
    "ph": marked("the pH"),
    "dye_index": marked("a photo of a jar"),
}
WORTH_SAYING_FRAC: Final = 0.05
SLOW: Final = {
    "air": marked("What takes the time is bringing the air in; livelier airing shortens it."),
    "reaction": marked("What takes the time is the reaction; more alkali or warmth shortens it, more air hardly."),
    "both": marked("What takes the time is bringing the air in and the reaction about equally."),
}
ALKALI: Final = {
    "add_more": marked("The pH is too low: add alkali in small parts before going on."),
    "watch": marked("The pH is getting low: have alkali at hand."),
}


def said(found: AirAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    lines = [_advice(found), *([_(ALKALI[found.alkali_advice])] if found.alkali_advice in ALKALI else [])]
    if found.left_pours is not None and found.needed_pours is not None and found.advice != "stop":
        lines.append(_pours(found, found.left_pours, found.needed_pours))
    if found.basis == "readings" and not _surely_done(found):
        turned = {"share": frac(found.done_frac), "chance": percent(found.chance_done_frac)}
        lines.append(
            _("Turned so far: %(share)s.") % turned
            if found.advice == "stop"
            else _("Turned so far: %(share)s; chance that it is done: %(chance)s.") % turned
        )
    if found.advice != "stop":
        lines.append(_(SLOW[found.held_back_by]))
    cost = {"share": frac(found.overrun_loss_frac)}
    lines.append(_("Every ten minutes beyond the end may cost %(share)s of the blue (a guess).") % cost)
    if found.ammonia_loss_frac is not None and "ammonia-air" not in {c.code for c in found.cautions}:
        lines.append(_("Ammonia carried off by the end: %(share)s.") % {"share": frac(found.ammonia_loss_frac)})
    best = next(iter(found.next_reading), None)
    if best is not None and found.advice != "stop" and best.narrows_frac >= WORTH_SAYING_FRAC:
        lines.append(
            _("At the next look %(reading)s tells most: a range narrower by about %(share)s.")
            % {"reading": _(READING[best.reading]), "share": percent(best.narrows_frac)}
        )
    return Said(parts=tuple(lines), cautions=found.cautions)


def _pours(found: AirAnswer, left: Band, needed: Band) -> str:
    said = {"needed": ranged(needed, _("in all")), "left": ranged(left, _("more")), "most": rough(math.ceil(left.p95))}
    if not (found.inputs.done_min or found.inputs.done_pours):
        return _("In pours: %(needed)s.") % said
    if left.p50 >= 1:
        return _("In pours: %(left)s; %(needed)s.") % said
    return _("In pours: at most %(most)s more; %(needed)s.") % said


def _surely_done(found: AirAnswer) -> bool:
    return found.advice == "stop" and found.chance_done_frac >= SURE_CHANCE


def _advice(found: AirAnswer) -> str:
    said = {
        "doing": _(DOING[found.way]),
        "look": _("look again after %(minutes)s") % {"minutes": _minutes(found.look_again_min)},
        "most": _minutes(found.left_min.p95),
        "minutes": minutes(found.left_min),
    }
    if found.advice == "stop":
        return _stop(found)
    if found.left_min.p50 < 1:
        return _("Nearly there: at most about %(most)s more of %(doing)s; %(look)s.") % said
    if found.advice == "look_again":
        return _("Nearly there: %(doing)s for about %(minutes)s more; %(look)s.") % said
    if found.inputs.done_min or found.inputs.done_pours:
        return _("Go on %(doing)s: about %(minutes)s more; %(look)s.") % said
    return _("It takes about %(minutes)s of %(doing)s; %(look)s.") % said


def _minutes(value: float) -> str:
    """`1 minute`, `13 minutes`."""
    whole = max(1, math.ceil(value))
    return ngettext("%(n)s minute", "%(n)s minutes", whole) % {"n": rough(whole)}


def _stop(found: AirAnswer) -> str:
    doing = _(DOING[found.way])
    if _surely_done(found):
        told = {"doing": doing, "chance": percent(found.chance_done_frac)}
        return _("Stop %(doing)s: it is done (chance %(chance)s).") % told
    gain, loss = (f"{figure(100 * share)}%" for share in (found.gain_in_10_min_frac, found.loss_in_10_min_frac))
    return _("Stop %(doing)s: ten more minutes would turn %(gain)s of the blue and cost %(loss)s.") % {
        "doing": doing, "gain": gain, "loss": loss,
    }  # fmt: skip
