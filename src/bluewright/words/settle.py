"""When to look, when to decant, and how much."""

from __future__ import annotations

from typing import Final

from bluewright.science.settle.interface_record import SettleAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import litres, measured
from bluewright.words.numbers import about, frac, hours, percent, rough
from bluewright.words.said import Said

QUESTION: Final = marked("When has the blue settled, when may I decant, and how many litres?")

RULE: Final = marked("the top third is clear and nothing changes in two hours")


def said(found: SettleAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    lines = (
        [_("Decant it."), _("By your own readings %(rule)s.") % {"rule": _(RULE)}] if found.rule_met else _when(found)
    )
    lines.append(
        _("The edge falls %(fall)s an hour and ends near %(end)s.")
        % {"fall": measured(found.fall_mm_per_h, "length_mm"), "end": measured(found.sediment_mm, "length_mm")}
    )
    if found.clear_l is not None:
        then = {"then": litres(found.clear_l)}
        if found.clear_now_l is None or litres(found.clear_now_l) == then["then"]:
            lines.append(_("Clear liquor to take off then: %(then)s.") % then)
        else:
            both = then | {"now": litres(found.clear_now_l)}
            lines.append(_("Clear liquor to take off then: %(then)s; now %(now)s.") % both)
    else:
        share = {"share": frac(found.clear_frac)}
        lines.append(_("Clear liquor to take off then: %(share)s of the depth.") % share)
    if found.basis == "prior":
        lines.append(_("That is a guess: two heights of the edge, an hour or more apart, tell much more."))
    return Said(parts=tuple(lines), cautions=found.cautions)


def _when(found: SettleAnswer) -> list[str]:
    after = found.decant_after_h
    lines = [_("Decant after %(hours)s of standing.") % {"hours": hours(after)}]
    if found.decant_from is not None and found.decant_by is not None:
        early, late = about(found.decant_from), about(found.decant_by)
    else:
        early, late = f"{rough(after.p5)} h", f"{rough(after.p95)} h"
    stood_h = found.inputs.now_h or 0.0
    lines.append(worth_looking(early=early, late=late, begun=stood_h >= after.p5, over=stood_h >= after.p95))
    if found.chance_ready_frac is not None:
        told = {"chance": percent(found.chance_ready_frac), "wait": hours(found.wait_h)}
        ready, wait = (
            _("Chance that it is ready now: %(chance)s."),
            _("Chance that it is ready now: %(chance)s; wait %(wait)s."),
        )
        lines.append((wait if found.wait_h.p50 > 0 else ready) % told)
    if found.rule_met is False:
        lines.append(_("When its edge was last read it was not ready yet."))
    lines.append(_("It is ready when %(rule)s.") % {"rule": _(RULE)})
    return lines


def worth_looking(*, early: str, late: str, begun: bool, over: bool) -> str:
    """Between which moments looking is worth while; of those that are past, no more than that they are."""
    if over:
        return _("Nearly surely ready since %(late)s: look now.") % {"late": late}
    if begun:
        return _("Worth looking now; nearly surely ready by %(late)s.") % {"late": late}
    return _("No use looking before %(early)s; nearly surely ready by %(late)s.") % {"early": early, "late": late}
