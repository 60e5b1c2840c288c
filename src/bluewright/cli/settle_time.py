"""`bluewright settle time`: when to look, when to decant, and how much."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.cli.wording import cautions, figure, litres, ranged
from bluewright.science.settle.interface import settle
from bluewright.science.settle.interface_record import SettleAnswer, SettleRecord


def say(found: SettleAnswer) -> str:
    """The answer as a person at the tub reads it."""
    after = found.decant_after_h
    lines = [f"Ready to decant after {ranged(after, 'h')} of standing: the top third clear and no change in two hours."]
    if found.decant_from is not None and found.decant_by is not None:
        early, late = (f"{time:%a %d %b %H:%M}" for time in (found.decant_from, found.decant_by))
        lines.append(f"No use looking before {early}; nearly surely ready by {late}.")
    else:
        lines.append(f"No use looking before {figure(after.p5)} h; nearly surely ready by {figure(after.p95)} h.")
    if found.chance_ready_frac is not None:
        lines.append(
            f"Chance that it is ready now: {figure(100 * found.chance_ready_frac)}%; wait {ranged(found.wait_h, 'h')}."
        )
    if found.rule_met is not None:
        lines.append(f"By your own readings the rule is {'met: decant' if found.rule_met else 'not met yet'}.")
    lines.append(
        f"The edge falls {ranged(found.fall_mm_per_h, 'mm')} an hour and ends near {ranged(found.sediment_mm, 'mm')}."
    )
    if found.clear_l is not None:
        now = "" if found.clear_now_l is None else f"; now {litres(found.clear_now_l)}"
        lines.append(f"Clear liquor to take off then: {litres(found.clear_l)}{now}.")
    else:
        lines.append(f"Clear liquor to take off then: {ranged(found.clear_frac, '%', scale=100)} of the depth.")
    if found.basis == "prior":
        lines.append("That is a guess: two heights of the edge, an hour or more apart, tell much more.")
    return "\n".join(lines + cautions(found.cautions))


COMMAND = RecordCommand(
    words="settle time",
    question="When has the blue settled, when may I decant, and how many litres?",
    record=SettleRecord,
    compute=settle,
    say=say,
    example="settle-time",
)
run = COMMAND.run
