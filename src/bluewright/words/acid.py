"""The acid that frees limed pigment of lime and calcite."""

from __future__ import annotations

from typing import Final

from bluewright.science.settle.acid_record import AcidAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import dosed, dosed_band
from bluewright.words.numbers import frac, ranged
from bluewright.words.said import Said

QUESTION: Final = marked("How much vinegar or hydrochloric acid takes the lime and calcite out, and in which parts?")


def said(found: AcidAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    acid = found.inputs.acid
    hydrochloric = _("%(strength)s hydrochloric acid") % {"strength": f"{acid.percent_w_w or 0:g}%"}
    told = {
        "exact": dosed_band(found.exact_ml, "ml"),
        "acid": _("vinegar") if acid.kind == "vinegar" else hydrochloric,
        "low": dosed(found.total_low_ml, "ml"),
        "high": dosed(found.total_high_ml, "ml"),
        "part": dosed(found.parts[0].add_ml, "ml"),
        "parts": ", ".join(dosed(part.add_ml, "ml") for part in found.parts[4:]),
        "ph": f"{found.done_below_ph:g}",
    }
    lines = [
        _("The lime and calcite use up %(exact)s of %(acid)s; it usually ends between %(low)s and %(high)s.") % told,
        _("First four parts of %(part)s: pour slowly, stir, wait until the fizz has gone.") % told,
        _("Then %(parts)s, one by one, only while it still fizzes or the pH climbs back.") % told,
        _("Done when nothing fizzes and the pH stays below %(ph)s for ten minutes; then wash.") % told,
    ]
    if found.pigment_after_g is not None:
        pigment = ranged(found.pigment_after_g, "g")
        if found.indigo_after_frac is None:
            lines.append(_("Pigment left: %(pigment)s dry.") % {"pigment": pigment})
        else:
            left = {"pigment": pigment, "indigo": frac(found.indigo_after_frac)}
            lines.append(_("Pigment left: %(pigment)s dry, %(indigo)s indigo.") % left)
    return Said(parts=tuple(lines), cautions=found.cautions)
