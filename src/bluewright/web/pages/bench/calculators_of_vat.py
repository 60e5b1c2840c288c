"""The calculators of the vat."""

from __future__ import annotations

from typing import Final

from django.utils.translation import gettext_lazy as _

from bluewright.charts.vat_chart import forms_chart, vat_chart
from bluewright.science.vat.faults import faults
from bluewright.science.vat.faults_record import FaultRecord
from bluewright.science.vat.recipe import recipe
from bluewright.science.vat.recipe_record import VatRecipeRecord
from bluewright.science.vat.state import state
from bluewright.science.vat.state_record import VatRecord
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.words import vat_faults, vat_recipe, vat_state

SHOWN: Final = (
    "liquor_blue", "white_cloud", "grains", "no_film", "blues_at_once", "stays_yellow", "pale", "gets_paler", "streaks",
    "rubs_off",
)  # fmt: skip
"""The looks that everybody can take; feel, smell and cups stand below."""

OF_VAT: Final = (
    Calculator(
        slug="vat-recipe", title=_("What goes into a vat"), question=_(vat_recipe.QUESTION),
        record=VatRecipeRecord, compute=recipe, said=vat_recipe.said, chart=forms_chart, chart_on_paper=False,
        front=(
            "fibre", "kind", "volume_l", "wanted_g_per_l", "depth", "cloth_kg", "pigment.mass_g",
            "pigment.purity.mean_frac", "pigment.purity.sd_frac",
        ),
        labels={
            "kind": _("Kind of vat"), "volume_l": _("The vat holds"), "depth": _("Or: depth to be dyed"),
            "wanted_g_per_l": _("Pure indigo wanted"), "pigment": _("The jar"),
 "pigment.mass_g": _("Powder in the jar"),
            "pigment.purity": _("Indigo in it, as measured"), "pigment.purity.mean_frac": _("Share that is indigo"),
            "heel": _("What is in the vat already"), "heel.volume_l": _("Litres of it"),
            "heel.pure_g": _("Pure indigo in it"), "heel.reduced": _("It is clear and yellow"),
            "water.temp_c": _("As warm as it comes"), "alkali": _("Alkali"), "target_ph": _("Wanted pH"),
            "surface_m2": _("Open surface of the vat"),
        },
    ),
    Calculator(
        slug="vat-state", title=_("How a vat stands"), question=_(vat_state.QUESTION),
        record=VatRecord, compute=state, said=vat_state.said, chart=vat_chart,
        front=(
            "kind", "fibre", "volume_l", "started", "now", "heel_g", "additions", "additions[].time",
            "additions[].what", "additions[].mass_g", "poured", "poured[].time",
            "poured[].volume_l", "poured[].pure_g", "dips", "dips[].time", "dips[].cloth_kg", "dips[].fibre",
            "readings", "readings[].time", "readings[].temp_c", "readings[].ph", "readings[].liquor_look",
            "readings[].film", "readings[].strip_s",
        ),
        labels={
            "kind": _("Kind of vat"), "fibre": _("Fibre to be dyed next"), "volume_l": _("In the vat"),
            "started": _("Set at"), "heel_g": _("Pure indigo that was in it before"), "heel_sd_g": _("Give or take"),
            "additions": _("What went in"), "readings": _("Looks at the vat"), "hold_c": _("A heater keeps it at"),
            "additions[].purity": _("Of powder: indigo in it"),
            "additions[].plant": _("Of powder that nobody measured: its plant"),
            "additions[].make": _("How it was made"),
            "poured": _("What was poured in"), "poured[].volume_l": _("Litres"),
            "poured[].pure_g": _("Pure indigo in it"), "poured[].pure_sd_g": _("Give or take"),
            "poured[].reduced_frac": _("Share of it that was reduced"),
            "poured[].reductant_g": _("Reductant left in it"), "poured[].ph": _("Its pH; empty for water"),
            "dips[].taken_g": _("Pure indigo that it took"),
            "surface_m2": _("Open surface of the vat"),
        },
    ),
    Calculator(
        slug="vat-fault", title=_("What ails a vat"), question=_(vat_faults.QUESTION),
        record=FaultRecord, compute=faults, said=vat_faults.said,
        front=("kind", "fibre", "ph", "temp_c", *SHOWN),
        labels={
            "kind": _("Kind of vat"), "liquor_blue": _("Liquor blue, or green and cloudy"),
            "white_cloud": _("Cloudy and greenish white"), "grains": _("Dark grains on a glass"),
            "no_film": _("No coppery film"), "blues_at_once": _("Cloth blue at once"),
            "stays_yellow": _("Cloth very yellow, slow to turn"), "pale": _("Pale after several dips"),
            "gets_paler": _("Paler after a dip than before"), "streaks": _("Streaks or spots"),
            "rubs_off": _("Much washes or rubs off"), "slimy": _("Feels slimy"), "harsh": _("Wool or silk harsh, dull"),
            "foul": _("Stinks of rot, or reddish"), "lifeless": _("Fermented: no bubbles, film, smell"),
            "cup_clears": _("A cup with a pinch of reductant cleared"),
            "cup_alkali_clears": _("A cup with a drop of alkali cleared"),
            "cup_warm_clears": _("A cup kept warm cleared"),
            "fresh_tin_clears": _("A cup cleared with a fresh tin, not with the old"),
        },
    ),
)  # fmt: skip
"""In the order of the work."""
