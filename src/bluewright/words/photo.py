"""The colours in a photo, and how far they can be trusted."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

import numpy as np

from bluewright.science.photo.record import PhotoAnswer, Reason, SampleColour, Trust
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.numbers import percent, ranged
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
    "none": marked("not corrected"),
    "white": marked("by white"),
    "neutrals": marked("by white and greys"),
    "matrix": marked("by all patches, three by three"),
    "root": marked("by all patches, with root terms"),
}
"""How light became colour."""


def said(found: PhotoAnswer) -> Said:
    """The answer as a person reads it."""
    parts: list[str | Rows] = [
        ngettext("%(count)s sample in %(photos)s.", "%(count)s samples in %(photos)s.", len(found.samples))
        % {
            "count": len(found.samples),
            "photos": ngettext("%(n)s photo", "%(n)s photos", found.photos) % {"n": found.photos},
        },
        Rows(
            head=("", "L*", "a*", "b*", _("give or take"), _("K/S in red"), _("uneven")),
            rows=tuple(_row(number, each) for number, each in enumerate(found.samples, start=1)),
        ),
        _("Corrected: %(how)s. D65, 2 degree observer.") % {"how": _(METHODS[found.method])},
    ]
    if found.fit_de is not None:
        parts.append(_("Known patches that had no part in it came out %(fit)s off.") % {"fit": f"{found.fit_de:.1f}"})
    parts.append(trust_said(found))
    return Said(parts=tuple(parts), cautions=found.cautions)


def trust_said(found: PhotoAnswer) -> str:
    """What the colours may be compared with, and why."""
    why = ", ".join(_(REASONS[reason]) for reason in found.reasons)
    return _("%(trust)s Because: %(why)s.") % {"trust": _(TRUST[found.trust]), "why": why}


def off_by(sample: SampleColour) -> float:
    """How far a colour may be off, as one distance in Lab."""
    return float(np.linalg.norm(sample.lab_sd))


def _row(number: int, sample: SampleColour) -> tuple[str, ...]:
    l, a, b = (f"{each:.1f}" for each in sample.lab)  # noqa: E741 - its name
    depth = ranged(sample.k_over_s_red, "") if sample.k_over_s_red is not None else "-"
    return (str(number), l, a, b, f"{off_by(sample):.1f}", depth, percent(sample.uneven_frac))
