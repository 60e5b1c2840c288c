"""How much alkali, in which parts, and what it does."""

from __future__ import annotations

from typing import Final

from bluewright.science.alkali.record import DoseAnswer
from bluewright.science.base.bands import Band
from bluewright.science.media.alkalis import KINDS
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import amount, dosed, dosed_band
from bluewright.words.numbers import ranged, with_range
from bluewright.words.said import Said

QUESTION: Final = marked(
    "How much alkali brings this liquor to the wanted pH, in which parts, and what else does it do?"
)


def said(found: DoseAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    inputs, dose = found.inputs, found.dose
    told = {caution.code for caution in found.cautions}
    if dose.p50 == 0.0:
        lines = [_("Add no more: the liquor stands at pH %(ph)s already.") % {"ph": ph_band(found.ph_after)}]
    else:
        likely = Band(p5=dose.p5, p50=dose.p50, p95=dose.p95)
        words = {
            "liquor": amount(inputs.liquor_l, "volume_l"),
            "wanted": f"{inputs.target_ph:g}",
            "dose": dosed_band(likely, dose.unit),
            "alkali": _(KINDS[inputs.alkali.kind].words),
            "after": ph_band(found.ph_after),
            "doubled": ph_band(found.ph_if_doubled),
        }
        all_in, doubled = _("With all of it: pH %(after)s."), _("If twice as much went in by mistake: %(doubled)s.")
        lines = [
            (
                _("To bring %(liquor)s to pH %(wanted)s: %(dose)s more of %(alkali)s.")
                if inputs.added_so_far
                else _("To bring %(liquor)s to pH %(wanted)s: %(dose)s of %(alkali)s.")
            )
            % words,
            _first(found),
            " ".join([all_in % words, *([doubled % words] if "overdose" not in told else [])]),
        ]
    if found.calcite_g.p95 and "chalk-in-pigment" not in told:
        lines.append(_("Chalk that may fall with the blue: %(chalk)s.") % {"chalk": ranged(found.calcite_g, "g")})
    if found.ammonia_room_ppm is not None and "ammonia-air" not in told:
        room = {"ammonia": ranged(found.ammonia_room_ppm, "ppm")}
        lines.append(_("Ammonia in the air of the room: %(ammonia)s.") % room)
    cautions = [caution for caution in found.cautions if caution.code != "past-target"]
    return Said(parts=tuple(lines), cautions=(*cautions, *found.limits))


def _first(found: DoseAnswer) -> str:
    if found.first_part == found.dose.p50:
        return _("Add it, stir for two minutes, and read the pH once more.")
    return _(
        "First add %(part)s, stir for two minutes, read the pH, and ask again with what went in and that reading."
    ) % {"part": dosed(found.first_part, found.dose.unit)}


def ph_band(band: Band) -> str:
    """`9.5 (9.2 to 9.8)`."""
    return with_range(f"{band.p50:.1f}", f"{band.p5:.1f}", f"{band.p95:.1f}")
