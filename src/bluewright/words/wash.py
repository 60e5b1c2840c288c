"""How many washes, how much water, and when to stop."""

from __future__ import annotations

from typing import Final

from bluewright.science.settle.wash_record import Count, WashAnswer
from bluewright.words.measures import amount, litres
from bluewright.words.numbers import figure, frac
from bluewright.words.said import Said

QUESTION: Final = "How many washes, how much water, what is left after each, and is it enough now?"


def said(found: WashAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    lines = []
    if found.rule_met:
        lines.append(f"Enough by the reading: {found.rule}.")
    start = "By the volumes alone, washes" if found.rule_met else "Washes"
    each = amount(found.inputs.refill_l, "volume_l")
    lines.append(
        f"{start} still to do: {counted(found.washes_left)} of {each} each, {litres(found.water_l)} of water, "
        f"down to {figure(100 * found.target_frac)}% of what was dissolved."
    )
    if found.rule_met is False:
        lines.append(f"Not enough yet: {found.rule}.")
    if found.residue_now_frac.p5 < 1:
        lines.append(f"Left now: {frac(found.residue_now_frac)}.")
    lines += [f"After wash {step.wash}: {frac(step.residue_frac)}." for step in found.residues[:6]]
    if len(found.splits) > 1:
        ways = ", ".join(
            f"{split.washes} of {amount(split.each_l, 'volume_l')} "
            f"{'leaves' if split.washes == 1 else 'leave'} {figure(100 * split.residue_frac.p50)}%"
            for split in found.splits
        )
        lines.append(f"Many small washes beat one large: of the same water, {ways}.")
    return Said(parts=tuple(lines), cautions=found.cautions)


def counted(count: Count) -> str:
    """`4 (4 to 5)`, or the bare number where there is no doubt."""
    return f"{count.p50}" if count.p5 == count.p95 else f"{count.p50} ({count.p5} to {count.p95})"
