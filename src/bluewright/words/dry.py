"""How dry the paste is, how long it still takes, and what will be left."""

from __future__ import annotations

from typing import Final

from bluewright.science.settle.drying_record import DryAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import frac, hours, ranged, rough
from bluewright.words.said import Said

QUESTION: Final = marked("How dry is the paste, when is it dry, and how much pigment will be left?")


def said(found: DryAnswer) -> Said:
    """The answer as a person at the scale reads it."""
    lines = [
        *_when(found),
        _("Water in it now: %(share)s.") % {"share": frac(found.moisture_now_frac)},
        _("Air-dry it will weigh %(air_dry)s; without any water %(dry)s.")
        % {"air_dry": ranged(found.end_g, "g"), "dry": ranged(found.dry_g, "g")},
    ]
    if found.basis == "prior":
        lines.append(_("That is a guess from the air and the layer: three weighings some hours apart tell much more."))
    return Said(parts=tuple(lines), cautions=found.cautions)


def _when(found: DryAnswer) -> tuple[str, str]:
    """When it is dry in few words, and how that is known."""
    if found.rule_met:
        return _("It is dry."), _("A day takes less than a hundredth of it.")
    rule = _("It is dry when a day takes less than a hundredth of it.")
    if found.left_h.p50 < 1:
        latest = {"hours": rough(found.left_h.p95)}
        return _(
            "Perhaps dry already, at the latest %(hours)s h after the last weighing; a weighing tells."
        ) % latest, rule
    return _("Dry %(hours)s after the last weighing.") % {"hours": hours(found.left_h)}, rule
