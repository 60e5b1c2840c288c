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
    lines += _alive(found)
    return Said(parts=tuple(lines), cautions=found.cautions)


def standing(found: RotationAnswer) -> Said:
    """The same of a plant that stands there already: nobody can wait any more."""
    if found.advice == "fits":
        return said(found)
    early = ngettext("one year", "%(years)s years", found.wait_years) % {"years": found.wait_years}
    first = (
        _("It came %(early)s too early: clubroot was seen here. Look at the roots of the weakest plants.")
        if found.advice == "not_here"
        else _("It came %(early)s too early after the cabbage family of %(last)s: look for clubroot and mildew.")
    )
    lines = [first % {"early": early, "last": str(found.last_year)}, *_alive(found)]
    return Said(parts=tuple(lines), cautions=found.cautions)


def _alive(found: RotationAnswer) -> list[str]:
    """What would be left of clubroot, if there was any."""
    told = {"year": str(found.inputs.sow_year), "last": str(found.last_year)}
    if found.spores_left_frac is None:
        return []
    left = told | {"share": frac(found.spores_left_frac)}
    return [_("If clubroot was in the ground in %(last)s, %(share)s of its spores would be alive in %(year)s.") % left]
