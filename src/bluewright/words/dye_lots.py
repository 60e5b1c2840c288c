"""Which jars to mix, in words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bluewright.science.dyeing.lots_record import LotsAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.numbers import by_scale, figure, percent, ranged
from bluewright.words.own_text import own_text
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("Which jars go together for this job, how much of each, and do they hold enough?")


def said(found: LotsAnswer) -> Said:
    """The answer to who stands before the shelf."""
    parts: list[str | Rows] = list(_mix(found))
    told = {"held": ranged(found.held_g, "g"), "need": figure(found.inputs.pure_g)}
    parts.append(_("All the jars hold %(held)s of pure indigo; the job needs %(need)s g.") % told)
    if found.missing_g > 0:
        parts.append(_("They lack %(missing)s g of pure indigo.") % {"missing": figure(found.missing_g)})
    if found.parts:
        parts.append(_table(found))
    return Said(parts=tuple(parts), cautions=found.cautions)


def _mix(found: LotsAnswer) -> Iterator[str]:
    if found.pure_g is None or found.purity_pct is None or found.spread_pct is None or found.short_chance is None:
        yield _("No mix of these jars gives what the job needs.")
        return
    told = {
        "jars": len(found.parts), "pure": ranged(found.pure_g, "g"), "purity": ranged(found.purity_pct, "%"),
        "short": percent(found.short_chance),
    }  # fmt: skip
    yield (
        ngettext(
            "%(jars)d jar gives %(pure)s of pure indigo.", "%(jars)d jars give %(pure)s of pure indigo.",
            len(found.parts),
        )
        % told
    )  # fmt: skip
    yield _("That is %(purity)s of the powder; the chance that it falls a tenth short is %(short)s.") % told
    spread = {"spread": figure(found.spread_pct), "single": figure(found.single_spread_pct or 0.0)}
    if found.single_spread_pct is None:
        yield _("Its indigo is known to %(spread)s%% of itself; no single jar holds enough.") % spread
    else:
        yield (
            _("Its indigo is known to %(spread)s%% of itself; that of the surest single jar to %(single)s%%.") % spread
        )


def _table(found: LotsAnswer) -> Rows:
    rows = tuple(
        (
            own_text(part.name), f"{by_scale(part.take_g)} g", f"{by_scale(part.pure_g)} g",
            f"{by_scale(part.left_g)} g",
        )
        for part in found.parts
    )  # fmt: skip
    return Rows(caption=_("To weigh out"), head=(_("jar"), _("take"), _("pure in it"), _("left in it")), rows=rows)
