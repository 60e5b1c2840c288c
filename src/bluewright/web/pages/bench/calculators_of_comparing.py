"""The calculators of comparing: how a trial is laid out, what it says, and what many batches say."""

from __future__ import annotations

from typing import Final

from django.utils.translation import gettext_lazy as _

from bluewright.charts.compare_answers import batches_chart, tubs_chart
from bluewright.science.learn.design import trial_plan as lay_out
from bluewright.science.learn.design_record import TrialPlanRecord
from bluewright.science.learn.mixed import batches as causes
from bluewright.science.learn.mixed_record import BatchesRecord
from bluewright.science.learn.trial import trial as weigh_up
from bluewright.science.learn.trial_record import TrialRecord
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.web.pages.bench.labels import Words
from bluewright.words import batches, trial, trial_plan

SHARED: Final[dict[str, Words]] = {
    "question": _("What you want to know"), "outcome": _("What is measured"), "assigned": _("Which tub gets which way"),
    "earlier": _("Pairs that you treated alike before"), "earlier.pairs": _("How many"),
    "earlier.pair_sd": _("Spread of the log of their ratios"), "leaf_kg": _("Leaf in a tub"),
}  # fmt: skip
"""Labels that they share."""

OF_COMPARING: Final = (
    Calculator(
        slug="compare-design", title=_("A fair trial laid out"), question=_(trial_plan.QUESTION),
        record=TrialPlanRecord, compute=lay_out, said=trial_plan.said,
        front=(
            "question", "ways", "ways[].name", "differs", "assigned", "tubs", "days",
            "worth_finding_frac", "leaf_kg",
        ),
        labels={
            **SHARED, "ways": _("What is compared, the usual way first"), "ways[].name": _("Way"),
            "differs": _("What is different"),
            "tubs": _("Tubs to fill on one day"), "days": _("Picking days for it"),
            "vessels_differ": _("The tubs are unlike"), "worth_finding_frac": _("A difference worth finding"),
        },
    ),
    Calculator(
        slug="compare-trial", title=_("Was it worth it"), question=_(trial.QUESTION),
        record=TrialRecord, compute=weigh_up, said=trial.said, chart=tubs_chart, chart_on_paper=False,
        front=(
            "question", "outcome", "ways", "ways[].name", "ways[].work_h", "assigned", "planned_blocks", "leaf_kg",
            "tubs", "tubs[].way", "tubs[].block", "tubs[].value", "tubs[].spoilt",
        ),
        labels={
            **SHARED, "ways": _("What is compared, the usual way first"), "ways[].name": _("Way"),
            "ways[].work_h": _("Work for a tub"), "less_is_better": _("Less is better"), "tubs": _("Every tub"),
            "tubs[].way": _("Way"), "tubs[].value": _("It gave"), "tubs[].block": _("Of which picking"),
            "tubs[].sd_frac": _("Weighing may be off by"), "tubs[].assay": _("Which assay"),
            "tubs[].assay_sd_frac": _("The assay may be off by"), "tubs[].tub": _("Which tub"),
            "tubs[].picking": _("Leaf of which picking"),
            "tubs[].spoilt": _("Spoilt: why"), "planned_blocks": _("Pairs laid down beforehand"),
            "looks": _("Times that you looked, with this one"), "comparisons": _("Things compared in these tubs"),
            "least_gain_frac": _("It must give more by"), "least_g_per_h": _("An hour must bring at least"),
        },
    ),
    Calculator(
        slug="compare-batches", title=_("What many batches say"), question=_(batches.QUESTION),
        record=BatchesRecord, compute=causes, said=batches.said, chart=batches_chart, chart_on_paper=False,
        front=(
            "question", "outcome", "usual", "batches", "batches[].way", "batches[].value", "batches[].day",
            "batches[].temp_c", "batches[].held_h",
        ),
        labels={
            **SHARED, "usual": _("The usual way"), "batches": _("Every batch"), "batches[].way": _("Way"),
            "batches[].name": _("Batch"), "batches[].value": _("It gave"), "batches[].season": _("Season"),
            "batches[].bed": _("Bed"), "batches[].assay": _("Which assay"),
            "batches[].assay_sd_frac": _("The assay may be off by"), "batches[].leaf_age": _("Age of the leaf"),
            "batches[].steep_h": _("Steeped for"), "batches[].alkali": _("Alkali"), "batches[].water": _("Water"),
            "batches[].spoilt": _("Spoilt: why"),
        },
    ),
)  # fmt: skip
"""In the order of the work."""
