"""A trial that is laid down, in words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bluewright.science.learn.design_record import Layout, TrialPlanAnswer
from bluewright.words.compare import EQUAL, OUTCOMES, ratio_said
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.measures import amount
from bluewright.words.numbers import figure, percent, sentence
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("How is a trial laid out fairly, and what can it show before any work is done?")
LAYOUTS: Final[dict[Layout, str]] = {
    "split_picking": marked("Each picking is mixed, parted by weight, and lots say which part gets which way."),
    "sorted_picking": marked("Each picking is sorted into its kinds; lots say which kind goes into which tub."),
    "by_day": marked("One tub a day, its way by lot: the weakest layout."),
}


def said(found: TrialPlanAnswer) -> Said:
    """The layout for who is going to stand at the tubs."""
    parts: list[str | Rows] = [*beforehand(found).parts]
    parts.append(_lots(found))
    parts.append(_("Seal of these lots: %(seal)s. Note it before the first tub.") % {"seal": found.seal})
    equal = "; ".join(_(EQUAL[one]) for one in found.keep_equal)
    parts.append(_("Keep equal within a picking: %(what)s.") % {"what": equal})
    return Said(parts=tuple(parts), cautions=found.cautions)


def beforehand(found: TrialPlanAnswer) -> Said:
    """What it can show and how it is laid out, without the lots."""
    parts: list[str | Rows] = [*_first(found), _(LAYOUTS[found.layout])]
    parts.append(_("Measured is: %(what)s.") % {"what": _(OUTCOMES[found.inputs.outcome])})
    if found.leaf_needed_kg is not None:
        parts.append(_("Leaf for all tubs: %(leaf)s.") % {"leaf": amount(found.leaf_needed_kg, "mass_kg")})
    if found.basis == "readings" and found.inputs.earlier is not None:
        told = {"pairs": found.inputs.earlier.pairs, "spread": f"{found.inputs.earlier.pair_sd:.2g}"}
        parts.append(_("How unlike tubs are: from %(pairs)s pairs of your own (spread %(spread)s).") % told)
    else:
        parts.append(_("How unlike tubs of one picking are is a guess, until pairs of your own say so."))
    parts.append(_table(found))
    return Said(parts=tuple(parts), cautions=found.cautions)


def _first(found: TrialPlanAnswer) -> Iterator[str]:
    told = {"n": found.blocks, "worth": percent(found.inputs.worth_finding_frac), "chance": percent(found.found_chance)}
    if found.layout == "by_day":
        yield (
            ngettext(
                "%(n)d tub of each way: a difference of %(worth)s would show clearly with chance %(chance)s.",
                "%(n)d tubs of each way: a difference of %(worth)s would show clearly with chance %(chance)s.",
                found.blocks,
            )
            % told
        )
    elif len(found.inputs.ways) == 2:
        yield (
            ngettext(
                "%(n)d pair: a difference of %(worth)s would show clearly with chance %(chance)s.",
                "%(n)d pairs: a difference of %(worth)s would show clearly with chance %(chance)s.",
                found.blocks,
            )
            % told
        )
    else:
        yield (
            ngettext(
                "%(n)d set of tubs: a difference of %(worth)s would show clearly with chance %(chance)s.",
                "%(n)d sets of tubs: a difference of %(worth)s would show clearly with chance %(chance)s.",
                found.blocks,
            )
            % told
        )
    if found.blocks_for_chance is None:
        yield _("Even a hundred would not do for four chances in five.")
    elif found.blocks_for_chance > found.blocks:
        yield _("For four chances in five it takes %(n)d.") % {"n": found.blocks_for_chance}


def _table(found: TrialPlanAnswer) -> Rows:
    rows = tuple(
        (
            str(row.blocks), percent(row.found_chance),
            "–" if row.either_way_factor is None else _either_way(row.either_way_factor),
            "–" if row.least_factor is None else ratio_said(row.least_factor),
        )
        for row in found.table
    )  # fmt: skip
    return Rows(
        caption=_("What more or fewer can show"),
        head=(_("pairs or sets"), _("shows clearly"), _("known to"), _("found 4 times in 5")), rows=rows,
        advised=[row.blocks for row in found.table].index(found.blocks),
    )  # fmt: skip


def _either_way(factor: float) -> str:
    """`± 22%`; where that is more than the half of it, so many times either way."""
    return f"± {percent(factor - 1)}" if factor < 1.5 else f"×÷ {figure(factor)}"


def _lots(found: TrialPlanAnswer) -> Rows:
    rows = tuple((str(one.number), str(one.day), one.block, str(one.tub), one.way) for one in found.settings)
    return Rows(
        caption=_("The lots: cover the last column until the tub is full"),
        head=(_("envelope"), _("picking day"), _("picking"), _("tub"), sentence(_("way"))), rows=rows,
    )  # fmt: skip
