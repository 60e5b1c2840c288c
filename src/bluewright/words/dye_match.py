"""Dips and strength to a swatch, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from bluewright.science.dyeing.match_record import Choice, MatchAnswer, Step
from bluewright.words.colour import signs_said
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.numbers import figure, percent, ranged
from bluewright.words.said import Rows, Said

QUESTION: Final = marked(
    "How many dips at which strength come to this swatch, and will this vat match last year's piece?"
)
STEPS: Final[Mapping[Step, str]] = {
    "assay": marked("the vat's strength assayed"),
    "ladder": marked("a ladder of this cloth dyed in this vat"),
    "both": marked("both"),
}
SAME_G: Final = 0.01
"""Less pure indigo than this is not put in."""


def said(found: MatchAnswer) -> Said:
    """The answer to who wants that blue again."""
    parts: list[str | Rows] = [_first(found), *_first_help(found), _apart(found)]
    if found.now.active_g_per_l != found.active_g_per_l:
        parts.append(_now(found))
    if found.nearest_de00 > found.inputs.within_de00:
        parts.append(_far(found))
    return Said(parts=(*parts, _choices(found), _helps(found)), cautions=found.cautions)


def _first(found: MatchAnswer) -> str:
    told = {
        "dips": found.dips, "strength": figure(found.active_g_per_l), "chance": percent(found.hit_chance),
    }  # fmt: skip
    return (
        ngettext(
            "%(dips)d dip at %(strength)s g/L: the chance that it passes is %(chance)s.",
            "%(dips)d dips at %(strength)s g/L: the chance that it passes is %(chance)s.",
            found.dips,
        )
        % told
    )


def _apart(found: MatchAnswer) -> str:
    told = {"apart": ranged(found.de00, ""), "within": figure(found.inputs.within_de00)}
    return _("It is likely %(apart)s apart from it (CIEDE2000); it passes at %(within)s or less.") % told


def _first_help(found: MatchAnswer) -> Iterator[str]:
    """Where guesses are all there is: the first step that would raise the chance, before dips that hardly hit."""
    steps = [one for one in found.helps if one.step != "both"]
    if found.basis != "prior" or not steps:
        return
    best = max(steps, key=lambda one: one.hit_chance)
    told = {"now": percent(found.now.hit_chance), "then": percent(best.hit_chance)}
    if best.hit_chance <= found.now.hit_chance:
        return
    if best.step == "ladder":
        yield (
            _("What helps most first: a ladder of this cloth in this vat; the chance goes from %(now)s to %(then)s.")
            % told
        )
    else:
        yield (
            _("What helps most first: an assay of the vat's strength; the chance goes from %(now)s to %(then)s.") % told
        )


def _now(found: MatchAnswer) -> str:
    told = {
        "dips": found.now.dips, "strength": figure(found.now.active_g_per_l), "chance": percent(found.now.hit_chance)
    }  # fmt: skip
    return (
        ngettext(
            "With the vat as it is, at %(strength)s g/L, %(dips)d dip comes nearest: chance %(chance)s.",
            "With the vat as it is, at %(strength)s g/L, %(dips)d dips come nearest: chance %(chance)s.",
            found.now.dips,
        )
        % told
    )


def _far(found: MatchAnswer) -> str:
    told = {"nearest": figure(found.nearest_de00), "signs": signs_said(found.leans)}
    if not found.leans:
        return _("At its best, at any strength, this cloth and indigo are likely %(nearest)s apart from it.") % told
    return (
        _("At its best, at any strength, this cloth and indigo are likely %(nearest)s apart from it: %(signs)s.") % told
    )


def _choices(found: MatchAnswer) -> Rows:
    head = (_("strength, g/L"), _("dips"), _("apart"), _("chance"), _("put in first"))
    best = next(k for k, one in enumerate(found.choices) if one.active_g_per_l == found.active_g_per_l)
    return Rows(caption=_("The best at each strength"), head=head, rows=tuple(map(_row, found.choices)), advised=best)


def _row(one: Choice) -> tuple[str, ...]:
    return (
        figure(one.active_g_per_l), str(one.dips), ranged(one.de00, ""), percent(one.hit_chance), _put_in(one.pure_g)
    )  # fmt: skip


def _put_in(pure_g: float) -> str:
    if pure_g > SAME_G:
        return _("%(mass)s g of pure indigo") % {"mass": figure(pure_g)}
    if pure_g < -SAME_G:
        return _("nothing: use up %(mass)s g, or thin it") % {"mass": figure(-pure_g)}
    return _("nothing")


def _helps(found: MatchAnswer) -> Rows:
    rows = tuple((_(STEPS[one.step]), percent(one.hit_chance)) for one in found.helps)
    return Rows(
        caption=_("What raises the chance, with the vat as it is"), head=(_("once done"), _("chance")), rows=rows
    )
