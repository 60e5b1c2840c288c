"""The calculators of dyeing: how deep, what a ladder teaches, which dips match, which jars to mix."""

from __future__ import annotations

from typing import Final

from django.utils.translation import gettext_lazy as _

from bluewright.charts.dyeing_answers import ladder_chart, match_chart, shade_chart
from bluewright.science.dyeing.ladder import ladder
from bluewright.science.dyeing.ladder_record import LadderRecord
from bluewright.science.dyeing.lots import lots
from bluewright.science.dyeing.lots_record import LotsRecord
from bluewright.science.dyeing.match import match
from bluewright.science.dyeing.match_record import MatchRecord
from bluewright.science.dyeing.shade import shade
from bluewright.science.dyeing.shade_record import ShadeRecord
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.web.pages.bench.labels import Words
from bluewright.words import dye_ladder, dye_lots, dye_match
from bluewright.words import dyeing as dyed

MORE: Final[dict[str, Words]] = {
    "cloth": _("More about the cloth"), "vat": _("More about the vat"), "way": _("More about the dips"),
    "cloth.mass_kg": _("Cloth at a time"), "vat.purity_frac": _("Indigo in the powder"),
    "taken": _("How colours are measured"),
}  # fmt: skip
"""Labels that they share."""

OF_DYEING: Final = (
    Calculator(
        slug="dye-shade", title=_("How deep it dyes"), question=_(dyed.QUESTION),
        record=ShadeRecord, compute=shade, said=dyed.said, chart=shade_chart,
        front=(
            "cloth.fibre", "cloth.mass_kg", "vat.bath_l", "vat.active_g_per_l", "dips", "way.dip_min", "way.after_dip",
            "way.finish", "wanted",
        ),
        labels={**MORE, "wanted": _("Swatch that you want: L, a, b")},
    ),
    Calculator(
        slug="dye-ladder", title=_("What a ladder of dips teaches"), question=_(dye_ladder.QUESTION),
        record=LadderRecord, compute=ladder, said=dye_ladder.said, chart=ladder_chart, chart_on_paper=False,
        front=(
            "cloth.fibre", "cloth.mass_kg", "vat.bath_l", "vat.active_g_per_l", "way.dip_min", "rungs", "rungs[].dips",
            "rungs[].lab",
        ),
        labels={
            **MORE, "cloth.mass_kg": _("All swatches together"), "rungs": _("Your swatches"),
            "rungs[].lab": _("Colour: L, a, b"), "rungs[].lab_sd": _("Give or take, each"),
        },
    ),
    Calculator(
        slug="dye-match", title=_("Which dips come to a swatch"), question=_(dye_match.QUESTION),
        record=MatchRecord, compute=match, said=dye_match.said, chart=match_chart, chart_on_paper=False,
        front=(
            "wanted", "within_de00", "cloth.fibre", "cloth.mass_kg", "vat.bath_l", "vat.active_g_per_l",
            "vat.active_sd_frac", "way.dip_min", "most_dips",
        ),
        labels={**MORE, "wanted": _("The swatch, or last year's piece: L, a, b")},
    ),
    Calculator(
        slug="dye-lots", title=_("Which jars to mix"), question=_(dye_lots.QUESTION),
        record=LotsRecord, compute=lots, said=dye_lots.said,
        front=(
            "pure_g", "jars", "jars[].name", "jars[].mass_g", "jars[].purity_frac", "jars[].purity_sd_frac",
            "jars[].filled", "wanted_purity_frac", "most_jars", "oldest_first",
        ),
        labels={
            "pure_g": _("Pure indigo that the job needs"), "jars[].name": _("Jar"), "jars[].mass_g": _("Pigment in it"),
        },
    ),
)  # fmt: skip
"""In the order of the work."""
