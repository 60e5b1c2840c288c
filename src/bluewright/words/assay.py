"""How much of a pigment is indigo: by spectrum, by a simple meter, by titration, by ash, by the powder's colour."""

from __future__ import annotations

from typing import Final

from bluewright.science.assay.ash_record import AshAnswer
from bluewright.science.assay.combine_record import CombineAnswer
from bluewright.science.assay.led_record import LedAnswer
from bluewright.science.assay.powder_record import PowderAnswer
from bluewright.science.assay.spectrum_record import SpectrumAnswer
from bluewright.science.assay.titration_record import Method, TitrationAnswer
from bluewright.science.base.bands import Band
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import figure, ranged
from bluewright.words.said import Rows, Said

SPECTRUM_QUESTION: Final = marked("How much of this pigment is indigo, by the spectrum of its solution?")
LED_QUESTION: Final = marked("How much of this pigment is indigo, by a simple meter and your own standards?")
TITRATION_QUESTION: Final = marked("How much of this pigment is indigo, by titration or by its nitrogen?")
ASH_QUESTION: Final = marked("How much of this pigment can be indigo at most, and what does an acid wash make of it?")
POWDER_QUESTION: Final = marked("How much of this pigment is indigo, by the colour of its powder and your own assays?")
COMBINE_QUESTION: Final = marked("What do all results for this pigment say together, and do they agree?")

CALIBRATIONS: Final = {
    "standard": marked("your own standard"),
    "given": marked("the absorptivity that you gave"),
    "literature": marked("an absorptivity from the literature"),
}
DOUBTS: Final = {
    "fit": marked("fit and noise"),
    "absorptivity": marked("absorptivity or standard"),
    "moisture": marked("water in the sample"),
    "weighing": marked("weighing"),
    "volumes": marked("volumes"),
    "photometer": marked("scale of absorbance"),
    "dissolving": marked("what did not dissolve"),
    "background": marked("other colour under the band"),
}
TITRATIONS: Final[dict[Method, str]] = {
    "dithionite": marked("dithionite"),
    "permanganate": marked("permanganate"),
    "titanium": marked("titanium(III)"),
    "kjeldahl": marked("nitrogen (Kjeldahl)"),
}
SMALL_FRAC: Final = 0.004
"""A doubt below it is not told."""


def pct(band: Band) -> str:
    """`34% (29 to 40)`."""
    return ranged(band, "%")


def spectrum_said(found: SpectrumAnswer) -> Said:
    """The answer to who read a spectrum."""
    told = {
        "indigo": pct(found.indigo_pct), "by": _(CALIBRATIONS[found.calibration]), "nm": figure(found.peak_nm),
        "peak": figure(found.peak_absorbance), "solution": ranged(found.indigo_mg_per_l, "mg/L"),
        "other": figure(100 * found.other_frac), "off": f"{found.dilution_off_pct or 0:+.1f}",
        "left": figure(found.fit_residual),
    }  # fmt: skip
    parts: list[str | Rows] = [_("%(indigo)s of the dry pigment is indigo, by %(by)s.") % told]
    if found.indirubin_pct is not None:
        parts.append(_("Red indirubin: %(red)s.") % {"red": pct(found.indirubin_pct)})
    parts.append(_("The band stands at %(nm)s nm and reads %(peak)s there; %(other)s%% of that is not indigo.") % told)
    parts.append(_("In the solution that was read: %(solution)s of indigo. The fit leaves %(left)s over.") % told)
    if found.dilution_off_pct is not None:
        parts.append(_("Thinned, it reads %(off)s%% off what it should.") % told)
    rows = tuple(
        (_(DOUBTS[one.name]), f"{figure(100 * one.sd_frac)}%") for one in found.doubts if one.sd_frac >= SMALL_FRAC
    )
    parts.append(Rows(caption=_("What makes it uncertain"), head=(_("from"), _("give or take")), rows=rows))
    return Said(parts=tuple(parts), cautions=found.cautions)


def led_said(found: LedAnswer) -> Said:
    """The answer to who read a simple meter."""
    told = {
        "indigo": pct(found.indigo_pct), "solution": ranged(found.indigo_mg_per_l, "mg/L"),
        "bend": figure(found.bend_pct), "left": figure(found.fit_residual), "n": len(found.inputs.steps),
    }  # fmt: skip
    lines = (
        _("%(indigo)s of the dry pigment is indigo, by your own %(n)d standards.") % told,
        _("In the solution that was read: %(solution)s of indigo.") % told,
        _("At the strongest standard the meter reads %(bend)s%% less than a straight line would.") % told,
        _("The standards scatter by %(left)s about their line.") % told,
    )
    return Said(parts=lines, cautions=found.cautions)


def titration_said(found: TitrationAnswer) -> Said:
    """The answer to who titrated."""
    told = {
        "indigo": pct(found.indigo_pct), "by": _(TITRATIONS[found.inputs.method]),
        "factor": figure(found.factor_mg_per_ml), "plain": figure(found.apparent_pct),
    }  # fmt: skip
    first = (
        _("At most %(indigo)s of the dry pigment is indigo, by %(by)s.")
        if found.bound == "at_most"
        else _("%(indigo)s of the dry pigment is indigo, by %(by)s.")
    )
    lines = (
        first % told,
        _("One millilitre stands for %(factor)s mg of indigo; that alone would make %(plain)s%%.") % told,
    )
    return Said(parts=lines, cautions=found.cautions)


def ash_said(found: AshAnswer) -> Said:
    """The answer to who burnt or washed pigment."""
    parts = [
        _("At most %(most)s of the dry pigment can be indigo.") % {"most": pct(found.most_pct)},
        _("Mineral matter in it: %(mineral)s.") % {"mineral": pct(found.mineral_pct)},
    ]
    if found.chalk_pct is not None:
        parts.append(_("Chalk in it: %(chalk)s.") % {"chalk": pct(found.chalk_pct)})
    if found.enriched_factor is not None:
        told = {"factor": ranged(found.enriched_factor, "")}
        parts.append(_("Freed of chalk, it is %(factor)s times as pure.") % told)
    if found.after_wash_pct is not None:
        parts.append(_("Then %(after)s of it is indigo.") % {"after": pct(found.after_wash_pct)})
    return Said(parts=tuple(parts), cautions=found.cautions)


def powder_said(found: PowderAnswer) -> Said:
    """The answer to who measured the colour of a powder."""
    told = {
        "indigo": pct(found.indigo_pct), "n": found.assays, "by": ", ".join(found.predictors),
        "share": figure(100 * found.explained_frac),
    }  # fmt: skip
    lines = (
        _("%(indigo)s of the dry pigment is indigo, by the colour of its powder and your own %(n)d assays.") % told,
        _("Your rule goes by %(by)s and explains %(share)s%% of what sets your pigments apart.") % told,
    )
    return Said(parts=lines, cautions=found.cautions)


def combine_said(found: CombineAnswer) -> Said:
    """The answer to who has several results."""
    if found.indigo_pct is not None:
        first = _("Together: %(indigo)s of the dry pigment is indigo.") % {"indigo": pct(found.indigo_pct)}
    elif found.agree:
        first = _("There are only upper bounds: how much is in it is not told.")
    else:
        first = _("The results do not agree: no one figure is told.")
    parts: list[str | Rows] = [first]
    rows = tuple(
        (
            one.method,
            (_("at most %(band)s") % {"band": pct(one.indigo_pct)}) if one.at_most else pct(one.indigo_pct),
            f"{figure(100 * one.weight_frac)}%" if one.weight_frac else _("none"),
        )
        for one in found.methods
    )
    parts.append(Rows(caption=_("By method"), head=(_("method"), _("indigo"), _("weight")), rows=rows))
    if len([one for one in found.methods if not one.at_most]) > 1:
        told = {"z": figure(found.largest_z)}
        parts.append(_("The two furthest apart differ by %(z)s standard deviations; below 2 they agree.") % told)
    return Said(parts=tuple(parts), cautions=found.cautions)
