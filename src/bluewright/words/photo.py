"""The colours in a photo, and how far they can be trusted."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

import numpy as np

from bluewright.science.colour.hues import hue_of, shade_of
from bluewright.science.photo.record import PhotoAnswer, Reason, SampleColour, Trust
from bluewright.words.colour import lab_named, lab_said, named
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import percent, ranged, sentence
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("What colour is this in a photo, and how far can that be trusted?")

TRUST: Final[Mapping[Trust, str]] = {
    "same_card": marked("Compare it with any photo of the same card."),
    "same_white": marked("Compare it with photos beside the same white, in the same kind of light."),
    "same_photo": marked("Compare it only with what else is in this photo."),
    "picture_only": marked("A picture only: compare it with nothing."),
}
"""What a colour may be compared with."""
REASONS: Final[Mapping[Reason, str]] = {
    "card": marked("it was measured against a registered card"),
    "repeats": marked("several photos were taken of it"),
    "few_photos": marked("there are fewer than three photos of it"),
    "daylight": marked("it was taken in daylight"),
    "lamp": marked("it was taken by lamps"),
    "light_unknown": marked("it is not known what light it was taken in"),
    "white_only": marked("only white was there to measure against"),
    "white_assumed": marked("the paper's own colour was assumed"),
    "no_white": marked("nothing of known colour is in the photo"),
    "white_near_limit": marked("the white is almost overexposed"),
    "light_uneven": marked("the light is uneven"),
    "card_fits_badly": marked("the card's patches do not agree with how it was registered"),
    "copy": marked("it is a screenshot, an edited picture or a messenger's copy"),
    "changed_by_camera": marked("the camera changed the photo by itself"),
}
"""Why."""
METHODS: Final[Mapping[str, str]] = {
    "white": marked("by white"),
    "neutrals": marked("by white and greys"),
    "matrix": marked("by all patches, three by three"),
    "root": marked("by all patches, with root terms"),
}
"""How light became colour."""


def said(found: PhotoAnswer) -> Said:
    """The answer as a person reads it."""
    parts: list[str | Rows] = [
        _first(found),
        Rows(
            caption=_("Each colour (%(lab)s)") % {"lab": lab_named()},
            head=(_("sample"), "L, a, b", _("give or take"), _("depth K/S in red"), _("uneven")),
            rows=tuple(_row(number, each) for number, each in enumerate(found.samples, start=1)),
        ),
        _("Corrected %(how)s.") % {"how": _(METHODS[found.method])}
        if found.method != "none"
        else _("Not corrected: nothing in the photo has a known colour that is used."),
    ]
    if found.fit_de is not None:
        parts.append(
            _("Known patches that had no part in it came out %(fit)s off (CIEDE2000).") % {"fit": f"{found.fit_de:.1f}"}
        )
    parts.append(trust_said(found))
    return Said(parts=tuple(parts), cautions=found.cautions)


def _first(found: PhotoAnswer) -> str:
    """The colour itself, where there is one only; else how many there are."""
    told: dict[str, object] = {"count": len(found.samples), "photos": found.photos}
    if len(found.samples) > 1:
        if found.photos > 1:
            return _("%(count)s colours, each the mean of %(photos)s photos.") % told
        return _("%(count)s colours in one photo.") % told
    told |= {"colour": sentence(_colour(found.samples[0])), "off": f"{off_by(found.samples[0]):.1f}"}
    if found.photos > 1:
        return _("%(colour)s, give or take %(off)s; the mean of %(photos)s photos.") % told
    return _("%(colour)s, give or take %(off)s.") % told


def _colour(sample: SampleColour) -> str:
    return named(hue_of(sample.lab), shade_of(sample.lab))


def trust_said(found: PhotoAnswer) -> str:
    """What the colours may be compared with, and why."""
    why = ", ".join(_(REASONS[reason]) for reason in found.reasons)
    return _("%(trust)s Because: %(why)s.") % {"trust": _(TRUST[found.trust]), "why": why}


def off_by(sample: SampleColour) -> float:
    """How far a colour may be off, as one distance in Lab."""
    return float(np.linalg.norm(sample.lab_sd))


def _row(number: int, sample: SampleColour) -> tuple[str, ...]:
    depth = ranged(sample.k_over_s_red, "") if sample.k_over_s_red is not None else "–"
    name = _("%(number)s: %(colour)s") % {"number": number, "colour": _colour(sample)}
    return (name, lab_said(sample.lab), f"{off_by(sample):.1f}", depth, percent(sample.uneven_frac))
