"""The calculators of dyeing: how deep, what a ladder teaches, which dips match, which jars go together."""

from __future__ import annotations

from typing import Final

from django.utils.translation import gettext_lazy as _

from bluewright.charts.dyeing_answers import shade_chart
from bluewright.science.dyeing.shade import shade
from bluewright.science.dyeing.shade_record import ShadeRecord
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.web.pages.bench.labels import Words
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
)  # fmt: skip
"""In the order of the work."""
