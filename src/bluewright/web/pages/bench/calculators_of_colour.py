"""The calculators of colour and of purity."""

from __future__ import annotations

from typing import Final

from django.utils.translation import gettext_lazy as _

from bluewright.charts import assays as charts_of_assay
from bluewright.charts.colour_answers import compare_chart, spectrum_chart
from bluewright.science.assay.ash import ash
from bluewright.science.assay.ash_record import AshRecord
from bluewright.science.assay.combine import combine
from bluewright.science.assay.combine_record import CombineRecord
from bluewright.science.assay.design import design
from bluewright.science.assay.design_record import DesignRecord
from bluewright.science.assay.dyeing import dyeing
from bluewright.science.assay.dyeing_record import DyeingRecord
from bluewright.science.assay.led import led
from bluewright.science.assay.led_record import LedRecord
from bluewright.science.assay.powder import powder
from bluewright.science.assay.powder_record import PowderRecord
from bluewright.science.assay.spectrum import spectrum
from bluewright.science.assay.spectrum_record import SpectrumRecord
from bluewright.science.assay.titration import titration as titrate
from bluewright.science.assay.titration_record import TitrationRecord
from bluewright.science.colour.compare import compare
from bluewright.science.colour.compare_record import CompareRecord
from bluewright.science.colour.reflectance import reflectance
from bluewright.science.colour.reflectance_record import ReflectanceRecord
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.words import assay, assay_dyeing, colour

OF_COLOUR: Final = (
    Calculator(
        slug="colour-compare", title=_("How colours differ"), question=_(colour.COMPARE),
        record=CompareRecord, compute=compare, said=colour.compared, chart=compare_chart,
        front=("colours", "colours[].name", "colours[].lab", "taken", "ground"),
        labels={
            "colours": _("The colours, the standard first"), "colours[].lab": _("L, a, b"),
            "ground": _("The cloth undyed: L, a, b"),
        },
    ),
    Calculator(
        slug="colour-spectrum", title=_("The colour of a spectrum"), question=_(colour.SPECTRUM),
        record=ReflectanceRecord, compute=reflectance, said=colour.spectrum_said, chart=spectrum_chart,
        front=("points", "ground"),
        labels={"points": _("The spectrum"), "ground": _("The same cloth undyed, if it was read")},
    ),
    Calculator(
        slug="assay-spectrum", title=_("Purity by a spectrum"), question=_(assay.SPECTRUM_QUESTION),
        record=SpectrumRecord, compute=spectrum, said=assay.spectrum_said, chart=charts_of_assay.spectrum_chart,
        front=("solvent", "sample_mg", "volume_ml", "dilution_factor", "path_cm", "points", "standard"),
        labels={
            "path_cm": _("Light path"), "dilution_factor": _("Then thinned"), "standard.path_cm": _("Its light path"),
            "points": _("The spectrum"), "blank": _("The blank"), "standard": _("Your own standard"),
            "standard.sd_frac": _("That may be off by"), "standard.points": _("Its spectrum, or its peak"),
            "absorptivity": _("Or: a figure for indigo in it"), "absorptivity.sd_frac": _("That may be off by"),
        },
    ),
    Calculator(
        slug="assay-led", title=_("Purity by a simple meter"), question=_(assay.LED_QUESTION),
        record=LedRecord, compute=led, said=assay.led_said,
        front=("solvent", "sample_mg", "volume_ml", "dilution_factor", "steps", "readings_absorbance"),
        labels={"steps": _("Your standards"), "dilution_factor": _("Then thinned")},
    ),
    Calculator(
        slug="assay-dyeing", title=_("Purity by test dyeing"), question=_(assay_dyeing.QUESTION),
        record=DyeingRecord, compute=dyeing, said=assay_dyeing.dyeing_said, chart=charts_of_assay.dyeing_chart,
        front=("standard_frac", "standard_sd_frac", "swatches"),
    ),
    Calculator(
        slug="assay-design", title=_("Planning a test dyeing"), question=_(assay_dyeing.DESIGN_QUESTION),
        record=DesignRecord, compute=design, said=assay_dyeing.design_said,
        front=("wanted_pct", "scatter_sd", "guess_factor", "least_mg"),
        labels={"slope": _("Depth rises with mass to the power")},
    ),
    Calculator(
        slug="assay-titration", title=_("Purity by titration"), question=_(assay.TITRATION_QUESTION),
        record=TitrationRecord, compute=titrate, said=assay.titration_said,
        front=("method", "sample_mg", "titre_ml", "blank_titre_ml", "titrant_mol_per_l", "standardised"),
        labels={"method": _("Titrant"), "standardised.sd_frac": _("That may be off by")},
    ),
    Calculator(
        slug="assay-ash", title=_("Ash and acid wash"), question=_(assay.ASH_QUESTION),
        record=AshRecord, compute=ash, said=assay.ash_said,
        front=("sample_g", "dried_g", "ash_g", "ashed", "washed", "before_frac"),
    ),
    Calculator(
        slug="assay-powder", title=_("Purity by the powder's colour"), question=_(assay.POWDER_QUESTION),
        record=PowderRecord, compute=powder, said=assay.powder_said,
        front=("lab", "known"),
        labels={"lab": _("Colour of the powder: L, a, b"), "known[].lab": _("L, a, b")},
    ),
    Calculator(
        slug="assay-combine", title=_("Results put together"), question=_(assay.COMBINE_QUESTION),
        record=CombineRecord, compute=combine, said=assay.combine_said, chart=charts_of_assay.purity_chart,
        front=("results",),
        labels={"results[].method": _("How"), "results[].sd_frac": _("Give or take")},
    ),
)  # fmt: skip
"""In the order in which they are shown."""
