"""Whether a plant may follow in a bed."""

from __future__ import annotations

from typing import Final

from bluewright.science.bed.rotation_record import RotationAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.numbers import frac
from bluewright.words.said import Said

QUESTION: Final = marked("May this plant follow what grew here before?")


def said(found: RotationAnswer) -> Said:
    """The answer as a person planning a bed reads it."""
    year = found.inputs.sow_year
    told = {"year": str(year), "free": str(year + found.wait_years), "last": str(found.last_year)}
    if found.advice == "fits":
        lines = [_("It fits: %(year)s is late enough after the cabbage family.") % told]
        if found.last_year is None:
            lines = [_("It fits: nothing of the cabbage family stands against it.")]
    else:
        waiting = ngettext("one year more", "%(years)s years more", found.wait_years) % {"years": found.wait_years}
        first = (
            _("Not here yet: clubroot was seen. Wait %(waiting)s, until %(free)s.")
            if found.advice == "not_here"
            else _("Better wait %(waiting)s, until %(free)s: the cabbage family stood here in %(last)s.")
        )
        lines = [first % (told | {"waiting": waiting})]
    if found.spores_left_frac is not None:
        left = {"share": frac(found.spores_left_frac), "year": str(year), "last": str(found.last_year)}
        lines.append(
            _("If clubroot was in the ground in %(last)s, %(share)s of its spores would be alive in %(year)s.") % left
        )
    return Said(parts=tuple(lines), cautions=found.cautions)
