"""When a bed's next cut is ready, and what it will give."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.bed.growth_record import GrowthAnswer
from bluewright.science.media.basket import Plant
from bluewright.science.media.weather.record import DayBand
from bluewright.words.fields import in_own_unit
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.measures import amount, measured, of_leaf
from bluewright.words.numbers import percent, ranged, weekday, with_range
from bluewright.words.said import Said

QUESTION: Final = marked("When is this bed's next cut ready, and how much leaf and blue will it give?")
TAKE: Final[dict[Plant, str]] = {
    "woad": marked(
        "Take the full-grown outer leaves, about %(usual)s of a plant and never more than %(most)s; "
        "leave the crown and %(height)s above it."
    ),
    "japanese_indigo": marked(
        "Cut the tops, about %(usual)s of the leaf and never more than %(most)s; "
        "leave %(height)s of stem with two living nodes or more."
    ),
    "indigofera": marked(
        "Cut the leafy branches, about %(usual)s of the leaf and never more than %(most)s; leave %(height)s of stubble."
    ),
}


OVER_CHANCE: Final = 0.1
"""With a smaller chance of another cut the season is told as over."""


def said(found: GrowthAnswer) -> Said:
    """The answer as a person at a bed reads it."""
    over = found.in_season_chance < OVER_CHANCE
    lines = [_over(found)] if over else [_when(found), _leaf(found), _blue(found), _season(found)]
    taking = {
        "usual": percent(found.taking.usual_frac.value), "most": percent(found.taking.most_frac.value),
        "height": amount(found.taking.stubble_mm.value, "length_mm"),
    }  # fmt: skip
    lines += [] if over else [_(TAKE[found.inputs.plant]) % taking]
    if found.bolts_on is not None and found.bolting_chance is not None:
        told = {"chance": percent(found.bolting_chance), "stems": days_said(found.bolts_on)}
        lines.append(
            _("Chance that it has had cold enough to flower: %(chance)s; stems then rise on %(stems)s.") % told
        )
    if found.pods_black_on is not None:
        lines.append(_("Pods blacken on %(pods)s: cut the stems before.") % {"pods": days_said(found.pods_black_on)})
    if found.frost_on is not None:
        lines.append(_("First night that ends it: %(night)s.") % {"night": days_said(found.frost_on)})
    lines.append(_learned(found))
    return Said(parts=tuple(line for line in lines if line), cautions=found.cautions)


def days_said(found: DayBand) -> str:
    """`Thu 13 Aug (Tue 4 Aug to Wed 26 Aug)`; what lies beyond the days looked at is said as later."""
    low, mid, high = (
        weekday(one) if one is not None else _("later") for one in (found.early, found.middle, found.late)
    )
    return with_range(mid, low, high)


def _over(found: GrowthAnswer) -> str:
    chance = {"chance": percent(found.in_season_chance)}
    return _("No further cut is likely before this season ends (chance %(chance)s).") % chance


def _when(found: GrowthAnswer) -> str:
    told = {
        "ready": days_said(found.ready_on), "past": days_said(found.past_on), "chance": percent(found.ready_now_chance)
    }  # fmt: skip
    if found.ready_on.middle is None:
        return _("The next cut is hardly ready within seven months.")
    if found.ready_now_chance >= 0.5:
        return _("The next cut is ready now (chance %(chance)s), since %(ready)s; past it from %(past)s.") % told
    return _("The next cut is ready on %(ready)s; past it from %(past)s.") % told


def _leaf(found: GrowthAnswer) -> str:
    told = {"leaf": per_area(found.leaf_kg_per_m2, "leaf_kg_per_m2")}
    if found.leaf_kg is None:
        return _("Leaf then: %(leaf)s.") % told
    return _("Leaf then: %(leaf)s, %(bed)s from the bed.") % (told | {"bed": measured(found.leaf_kg, "mass_kg")})


def _blue(found: GrowthAnswer) -> str:
    short, _long, kg = of_leaf()
    told = {
        "blue": per_area(found.blue_g_per_m2, "blue_g_per_m2"),
        "per_mass": ranged(found.blue_g_per_kg, f"g/{short}", scale=kg),
    }
    if found.blue_g is None:
        return _("Pure blue from it: %(blue)s (%(per_mass)s).") % told
    return _("Pure blue from it: %(bed)s from the bed, %(blue)s; %(per_mass)s.") % (
        told | {"bed": ranged(found.blue_g, "g")}
    )


def _season(found: GrowthAnswer) -> str:
    cuts = round(found.further_cuts.p50)
    if cuts < 1:
        chance = {"chance": percent(found.in_season_chance)}
        return _("This season probably ends before that (chance that it does not: %(chance)s).") % chance
    told = {"cuts": cuts, "low": round(found.further_cuts.p5), "high": round(found.further_cuts.p95)}
    return (
        ngettext(
            "This season may still give %(cuts)s cut (%(low)s to %(high)s).",
            "This season may still give %(cuts)s cuts (%(low)s to %(high)s).",
            cuts,
        )
        % told
    )


def _learned(found: GrowthAnswer) -> str:
    looks = found.lengths_learned
    if not looks:
        return _from_cuts(found)
    marked = ngettext(
        "Marked plants were measured on %(looks)s day.", "Marked plants were measured on %(looks)s days.", looks
    ) % {"looks": looks}
    return f"{marked} {_from_cuts(found)}" if found.cuts_learned else marked


def _from_cuts(found: GrowthAnswer) -> str:
    if not found.cuts_learned:
        return _("It rests on what is published of other gardens: note each cut, and it learns yours.")
    return ngettext(
        "It has learned from %(cuts)s cut of yours.", "It has learned from %(cuts)s cuts of yours.", found.cuts_learned
    ) % {"cuts": found.cuts_learned}


def per_area(band: Band, field: str) -> str:
    """A band for a square metre, or for a square foot."""
    values, unit = in_own_unit((band.p5, band.p50, band.p95), field)
    return ranged(Band(p5=values[0], p50=values[1], p95=values[2]), unit)
