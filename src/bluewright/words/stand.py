"""How thick a stand grows, and whether to thin it."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.bed.stand_record import StandAnswer
from bluewright.words.fields import in_own_unit
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.measures import amount
from bluewright.words.numbers import figure, frac, percent, ranged
from bluewright.words.said import Said

QUESTION: Final = marked("How thick does this stand grow, how sure is that, and is it to be thinned?")
ADVICE: Final = {
    "leave": marked("leave it as it is: it is about as thick as it should be"),
    "thin": marked("thin it: it is thicker than it need be"),
    "fill": marked("fill the gaps, or sow more: it is thinner than it might be"),
    "count_more": marked("count more frames before you thin or sow"),
}


def said(found: StandAnswer) -> Said:
    """The answer as a person with a frame reads it."""
    told = {"advice": _(ADVICE[found.advice]), "density": per_area(found.density_per_m2)}
    lines = [_("About %(density)s: %(advice)s.") % told]
    if found.in_bed_plants is not None:
        lines.append(_("In the whole bed: %(plants)s.") % {"plants": ranged(found.in_bed_plants, _("plants"))})
    if found.bolting_frac is not None and found.leafy_per_m2 is not None:
        stems = {"share": frac(found.bolting_frac), "leafy": per_area(found.leafy_per_m2)}
        lines.append(_("With a flower stem: %(share)s. Without: %(leafy)s.") % stems)
    low, _mid, high = (_per_area(value)[0] for value in (found.target.low, found.target.value, found.target.high))
    aim = {"low": low, "high": high, "unit": _per_area(1.0)[1], "sparse": percent(found.sparse_chance)}
    aim |= {"dense": percent(found.dense_chance), "spacing": amount(found.spacing_mm, "length_mm")}
    lines.append(
        _("The yield of an area hardly changes from %(low)s to %(high)s %(unit)s, about %(spacing)s apart.") % aim
    )
    lines.append(_("Chance that it is thinner: %(sparse)s; thicker: %(dense)s.") % aim)
    lines += _thinning(found)
    lines.append(_more(found))
    return Said(parts=tuple(lines), cautions=found.cautions)


def per_area(band: Band) -> str:
    """Plants on a square metre, or on a square foot."""
    values, unit = in_own_unit((band.p5, band.p50, band.p95), "plants_per_m2")
    return ranged(Band(p5=values[0], p50=values[1], p95=values[2]), unit)


def _per_area(value: float) -> tuple[str, str]:
    (own,), unit = in_own_unit((value,), "plants_per_m2")
    return figure(own), unit


def _thinning(found: StandAnswer) -> list[str]:
    if found.advice != "thin":
        return []
    return [
        _("Keep %(keep)s of the plants, the largest, and take those with a flower stem first.")
        % {"keep": frac(found.keep_frac)},
        _("Thin twice: to half when they have two to four leaves, to the end when they have six to eight."),
        _("Leaving it is a choice too: a closed stand keeps weeds down, and what is thinned out is leaf."),
    ]


def _more(found: StandAnswer) -> str:
    wanted = {"error": percent(found.inputs.wanted_error_frac)}
    if found.more_frames.p50 < 1:
        return _("That is known to within %(error)s already.") % wanted
    more = round(found.more_frames.p50)
    return ngettext(
        "To know it to within %(error)s: about %(more)s more frame, up to %(most)s.",
        "To know it to within %(error)s: about %(more)s more frames, up to %(most)s.",
        more,
    ) % (wanted | {"more": figure(more), "most": figure(found.more_frames.p95)})
