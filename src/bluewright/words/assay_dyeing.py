"""Comparative test dyeing, and how many swatches it takes."""

from __future__ import annotations

from typing import Final

from bluewright.science.assay.design_record import DesignAnswer
from bluewright.science.assay.dyeing_record import DyeingAnswer, Verdict
from bluewright.words.assay import pct
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import figure, with_range
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("How strong does this pigment dye beside a standard, and so how much of it is indigo?")
DESIGN_QUESTION: Final = marked("How many swatches does a test dyeing need to be as sure as you want?")

VERDICTS: Final[dict[Verdict, str]] = {
    "not_parallel": marked(
        "No strength is told: the two lines are not parallel, so that the answer would depend on the depth."
    ),
    "flat": marked("No strength is told: depth does not rise clearly with the amount of pigment."),
}
NAMES: Final = {"standard": marked("standard"), "sample": marked("sample")}


def dyeing_said(found: DyeingAnswer) -> Said:
    """The answer to who dyed swatches."""
    parts: list[str | Rows] = []
    if found.indigo_pct is None or found.strength_factor is None:
        parts.append(_(VERDICTS[found.verdict]))
    else:
        parts.append(_("%(indigo)s of the dry pigment is indigo, by test dyeing.") % {"indigo": pct(found.indigo_pct)})
        strength = with_range(
            figure(found.strength_factor.p50), figure(found.strength_low_factor or 0),
            figure(found.strength_high_factor or 0),
        )  # fmt: skip
        parts.append(
            _("It dyes %(strength)s times as strong as the standard; the range holds nineteen times in twenty.")
            % {"strength": strength}
        )
    told = {"scatter": figure(100 * found.scatter_sd), "slope": figure(found.slope)}
    parts.append(_("Swatches scatter by %(scatter)s%% about the lines; depth rises with mass to %(slope)s.") % told)
    parts.append(_parallel(found))
    rows = tuple((_(NAMES[one.of]), str(one.swatches), figure(one.slope)) for one in found.lines)
    parts.append(Rows(caption=_("Lines fitted apart"), head=(_("pigment"), _("swatches"), _("slope")), rows=rows))
    return Said(parts=tuple(parts), cautions=found.cautions)


def _parallel(found: DyeingAnswer) -> str:
    told = {"chance": figure(100 * found.parallel_chance)}
    if found.verdict == "not_parallel":
        return _("Were they parallel, slopes as different as these would come %(chance)s times in 100.") % told
    return _("The lines are as parallel as can be told: slopes as different come %(chance)s times in 100.") % told


def design_said(found: DesignAnswer) -> Said:
    """The answer to who plans a dyeing."""
    wanted = figure(found.inputs.wanted_pct)
    parts: list[str | Rows] = []
    if found.advised is None:
        parts.append(_("No plan within your limit is good to %(wanted)s%%.") % {"wanted": wanted})
    else:
        told = {
            "amounts": found.advised.amounts, "repeats": found.advised.repeats, "all": found.advised.swatches,
            "range": figure(found.advised.half_range_pct.p50),
        }  # fmt: skip
        once = _("%(amounts)d amounts of each pigment, each dyed once: %(all)d swatches, good to %(range)s%%.")
        more = _("%(amounts)d amounts of each pigment, each %(repeats)d times: %(all)d swatches, good to %(range)s%%.")
        parts.append((once if found.advised.repeats == 1 else more) % told)
    masses = {
        "standard": ", ".join(figure(one) for one in found.standard_mg),
        "sample": ", ".join(figure(one) for one in found.sample_mg),
    }
    parts.append(_("Standard: %(standard)s mg. Sample: %(sample)s mg.") % masses)
    advised = next((i for i, one in enumerate(found.designs) if one == found.advised), None)
    rows = tuple(
        (str(one.amounts), str(one.repeats), str(one.swatches), pct(one.half_range_pct)) for one in found.designs
    )
    head = (_("amounts"), _("of each"), _("swatches"), _("good to"))
    parts.append(Rows(caption=_("Plans"), head=head, rows=rows, advised=advised))
    return Said(parts=tuple(parts), cautions=found.cautions)
