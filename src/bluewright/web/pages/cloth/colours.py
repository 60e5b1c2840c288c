"""The colours of a piece, each with its words: dyed, and before it was."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _

from bluewright.charts.colours import hex_of_lab
from bluewright.journal.bridge.swatches import lab
from bluewright.journal.models import Piece, Swatch
from bluewright.science.colour.hues import hue_of, shade_of
from bluewright.words.colour import lab_said, named


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch:
    """A colour as a screen shows it, with its words."""

    colour: str
    """`#a1b2c3`; empty where none was measured."""
    said: str


def patch(row: Piece) -> Patch:
    """The colour of its latest measured swatch of dyed cloth."""
    found = cloth_swatch(row)
    if found is None:
        return Patch(colour="", said=_("not measured"))
    return patch_of(lab(found))


def cloth_swatch(row: Piece) -> Swatch | None:
    """Its latest measured swatch of dyed cloth."""
    return next((swatch for swatch in row.swatches.all() if swatch.of == "cloth"), None)


def patch_of(told: tuple[float, float, float]) -> Patch:
    """A colour with its words."""
    return Patch(colour=hex_of_lab(told), said=f"{named(hue_of(told), shade_of(told))}, {lab_said(told)}")


def ground(row: Piece) -> Patch:
    """The undyed cloth."""
    if row.ground_l_star is None or row.ground_a_star is None or row.ground_b_star is None:
        return Patch(colour="", said=_("not measured"))
    return patch_of((row.ground_l_star, row.ground_a_star, row.ground_b_star))
