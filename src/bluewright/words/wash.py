"""How many washes, how much water, and when to stop."""

from __future__ import annotations

from typing import Final

from bluewright.science.settle.wash_record import Count, WashAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.measures import amount, litres
from bluewright.words.numbers import figure, frac, with_range
from bluewright.words.said import Said

QUESTION: Final = marked("How many washes, how much water, what is left after each, and is it enough now?")


def said(found: WashAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    lines = []
    if found.rule_met:
        lines.append(_("Enough by the reading: %(rule)s.") % {"rule": found.rule})
    told = {
        "washes": counted(found.washes_left),
        "each": amount(found.inputs.refill_l, "volume_l"),
        "water": litres(found.water_l),
        "share": f"{figure(100 * found.target_frac)}%",
    }
    by_volume = _("By the volumes alone, washes still to do: %(washes)s of %(each)s each.")
    to_do = _("Washes still to do: %(washes)s of %(each)s each.")
    lines.append((by_volume if found.rule_met else to_do) % told)
    lines.append(_("That is %(water)s of water, down to %(share)s of what was dissolved.") % told)
    if found.rule_met is False:
        lines.append(_("Not enough yet: %(rule)s.") % {"rule": found.rule})
    if found.residue_now_frac.p5 < 1:
        lines.append(_("Left now: %(left)s.") % {"left": frac(found.residue_now_frac)})
    lines += [
        _("After wash %(wash)s: %(left)s.") % {"wash": step.wash, "left": frac(step.residue_frac)}
        for step in found.residues[:6]
    ]
    if len(found.splits) > 1:
        ways = ", ".join(
            ngettext("%(washes)s of %(each)s leaves %(left)s", "%(washes)s of %(each)s leave %(left)s", split.washes)
            % {
                "washes": split.washes,
                "each": amount(split.each_l, "volume_l"),
                "left": f"{figure(100 * split.residue_frac.p50)}%",
            }
            for split in found.splits
        )
        lines.append(_("Many small washes beat one large: of the same water, %(ways)s.") % {"ways": ways})
    return Said(parts=tuple(lines), cautions=found.cautions)


def counted(count: Count) -> str:
    """`4 (4 to 5)`, or the bare number where there is no doubt."""
    return f"{count.p50}" if count.p5 == count.p95 else with_range(f"{count.p50}", f"{count.p5}", f"{count.p95}")
