"""What a ladder of dips taught, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.dyeing.ladder_record import Fitted, LadderAnswer, Unknown
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.numbers import figure, frac, percent, ranged, with_range
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("What do these swatches of 1, 2, 4, 8 dips teach, and which further one would teach most?")
UNKNOWNS: Final[Mapping[Unknown, str]] = {
    "first_dip_pct": marked("indigo on the fibre by the first dip"),
    "strip_frac": marked("taken off again by each dip"),
    "loose_frac": marked("loose, of what a dip brings"),
    "through_frac": marked("dyed through: blue in all, of that where light goes"),
    "yield": marked("depth K/S of 1 g on a kilogram"),
    "surface_frac": marked("light from the bare surface"),
    "turn_nm": marked("redder (below 0) or greener (above 0) than usual"),
    "blue_frac": marked("yellow and brown in the blue"),
}
SHARES: Final = frozenset({"strip_frac", "loose_frac", "through_frac", "surface_frac", "blue_frac"})


def said(found: LadderAnswer) -> Said:
    """The answer to who dyed a ladder, or plans one."""
    parts: list[str | Rows] = [*_first(found), _next(found)]
    told = {"share": ranged(found.per_dip_pct, "%")}
    parts.append(_("The first dip puts %(share)s of pure indigo on the fibre, by dry mass.") % told)
    if found.rungs:
        parts.append(_swatches(found))
    parts += [_table(found), _plan(found)]
    return Said(parts=tuple(parts), cautions=found.cautions)


def _first(found: LadderAnswer) -> tuple[str, str]:
    told = {"before": figure(found.before_half_range_l_star), "dips": found.inputs.most_dips}
    first = _("L* is known to ±%(now)s.") % {"now": figure(found.half_range_l_star)}
    if not found.inputs.rungs:
        return first, _("That is of cloth with up to %(dips)d dips, without a swatch of yours.") % told
    return first, (
        ngettext(
            "That is of cloth with up to %(dips)d dips; before this swatch it was ±%(before)s.",
            "That is of cloth with up to %(dips)d dips; before these swatches it was ±%(before)s.",
            len(found.inputs.rungs),
        )
        % told
    )


def _next(found: LadderAnswer) -> str:
    best = found.next_rungs[0]
    told = {"dips": best.dips, "now": figure(best.half_range_l_star)}
    return (
        ngettext(
            "A swatch with %(dips)d dip would teach most: L* then to ±%(now)s.",
            "A swatch with %(dips)d dips would teach most: L* then to ±%(now)s.",
            best.dips,
        )
        % told
    )


def _swatches(found: LadderAnswer) -> Rows:
    """Of colour and depth only what was measured of some swatch has a column."""
    coloured = any(rung.off_de00 is not None for rung in found.rungs)
    deep = any(rung.off_factor is not None for rung in found.rungs)
    head = [_("dips"), _("L* of such cloth")]
    head += [_("colour off (CIEDE2000)")] if coloured else []
    head += [_("depth, times")] if deep else []
    return Rows(
        caption=_("Your swatches beside what is now believed"), head=tuple(head),
        rows=tuple(_swatch(rung, coloured=coloured, deep=deep) for rung in found.rungs),
    )  # fmt: skip


def _swatch(rung: Fitted, *, coloured: bool, deep: bool) -> tuple[str, ...]:
    cells = [
        str(rung.dips),
        with_range(*(f"{value:.0f}" for value in (rung.l_star.p50, rung.l_star.p5, rung.l_star.p95))),
    ]
    cells += ["" if rung.off_de00 is None else figure(rung.off_de00)] if coloured else []
    cells += ["" if rung.off_factor is None else figure(rung.off_factor)] if deep else []
    return tuple(cells)


def _table(found: LadderAnswer) -> Rows:
    rows = tuple(
        (_(UNKNOWNS[one.name]), _value(one.name, one.before), _value(one.name, one.after), percent(one.learned_frac))
        for one in found.told
    )
    head = (_("what"), _("believed before"), _("now"), _("learned"))
    return Rows(caption=_("What was learned"), head=head, rows=rows)


def _value(name: Unknown, value: Band) -> str:
    if name in SHARES:
        return frac(value)
    return ranged(value, {"first_dip_pct": "%", "turn_nm": "nm"}.get(name, ""))


def _plan(found: LadderAnswer) -> Rows:
    rows = tuple((str(one.dips), figure(one.bits), f"±{figure(one.half_range_l_star)}") for one in found.next_rungs)
    head = (_("dips"), _("teaches, bits"), _("L* then to"))
    return Rows(caption=_("Further swatches, each counting on those above it"), head=head, rows=rows)
