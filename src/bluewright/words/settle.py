"""When to look, when to decant, and how much."""

from __future__ import annotations

from typing import Final

from bluewright.science.settle.interface_record import SettleAnswer
from bluewright.words.measures import litres, measured
from bluewright.words.numbers import about, frac, hours, percent, rough
from bluewright.words.said import Said

QUESTION: Final = "When has the blue settled, when may I decant, and how many litres?"

RULE: Final = "the top third is clear and nothing changes in two hours"


def said(found: SettleAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    lines = [f"Decant: by your own readings {RULE}."] if found.rule_met else _when(found)
    lines.append(
        f"The edge falls {measured(found.fall_mm_per_h, 'length_mm')} an hour and ends near "
        f"{measured(found.sediment_mm, 'length_mm')}."
    )
    if found.clear_l is not None:
        now = "" if found.clear_now_l is None else f"; now {litres(found.clear_now_l)}"
        lines.append(f"Clear liquor to take off then: {litres(found.clear_l)}{now}.")
    else:
        lines.append(f"Clear liquor to take off then: {frac(found.clear_frac)} of the depth.")
    if found.basis == "prior":
        lines.append("That is a guess: two heights of the edge, an hour or more apart, tell much more.")
    return Said(parts=tuple(lines), cautions=found.cautions)


def _when(found: SettleAnswer) -> list[str]:
    after = found.decant_after_h
    lines = [f"Ready to decant after {hours(after)} of standing, when {RULE}."]
    if found.decant_from is not None and found.decant_by is not None:
        early, late = about(found.decant_from), about(found.decant_by)
    else:
        early, late = f"{rough(after.p5)} h", f"{rough(after.p95)} h"
    lines.append(f"No use looking before {early}; nearly surely ready by {late}.")
    if found.chance_ready_frac is not None:
        wait = f"; wait {hours(found.wait_h)}" if found.wait_h.p50 > 0 else ""
        lines.append(f"Chance that it is ready now: {percent(found.chance_ready_frac)}{wait}.")
    if found.rule_met is False:
        lines.append("By your own readings it is not ready yet.")
    return lines
