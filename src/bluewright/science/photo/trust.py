"""How far a colour from a photo can be trusted, and why: what it may be compared with."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bluewright.science.photo.correction import Correction
from bluewright.science.photo.picture import Picture
from bluewright.science.photo.priors import (
    BAD_FIT_DE,
    DAYLIGHT_EV,
    LAMP_EV,
    MUCH_UNEVEN_FRAC,
    WHITE_TOO_LIGHT,
    Light,
)
from bluewright.science.photo.record import PhotoRecord, Reason, Trust
from bluewright.science.photo.references import CardSeen, References

COPIES = frozenset({"screenshot", "messenger", "edited"})
CHANGED = frozenset({"filter", "portrait", "night"})


def light_of(picture: Picture, record: PhotoRecord) -> Light:
    """The kind of light: as the record says, else as the camera's exposure tells, else unknown."""
    if record.light != "unknown":
        return record.light
    bright = picture.facts.brightness_ev
    if bright is None or "flash" in picture.facts.hints:
        return "unknown"
    return "daylight" if bright >= DAYLIGHT_EV.value else "lamp" if bright <= LAMP_EV.value else "unknown"


def trust_of(
    picture: Picture,
    known: References,
    correction: Correction | None,
    *,
    light: Light,
    card: CardSeen | None,
) -> tuple[Trust, tuple[Reason, ...]]:
    """What the colours of a single photo may be compared with, and why."""
    hints = frozenset(picture.facts.hints)
    why: list[Reason] = ["card"] if card is not None else []
    why += ["daylight" if light == "daylight" else "lamp" if light == "lamp" else "light_unknown"]
    if correction is None:
        why.append("no_white")
    elif len(known.light) == 1:
        why.append("white_only")
    if known.lab_sd.any():
        why.append("white_assumed")
    if known.white is not None and known.white.light.max() > WHITE_TOO_LIGHT.value:
        why.append("white_near_limit")
    if uneven(known):
        why.append("light_uneven")
    if correction is not None and card is not None and correction.fit_de > BAD_FIT_DE.value:
        why.append("card_fits_badly")
    if hints & COPIES:
        why.append("copy")
    if hints & CHANGED or ("hdr" in hints and card is None):  # beside a card its own patches show what HDR did
        why.append("changed_by_camera")
    return _grade(why, correction, card), (*why, "few_photos")


def _grade(why: Sequence[Reason], correction: Correction | None, card: CardSeen | None) -> Trust:
    if "copy" in why:
        return "picture_only"
    if correction is None or {"changed_by_camera", "white_near_limit", "light_uneven"} & set(why):
        return "same_photo"
    return "same_card" if card is not None and "card_fits_badly" not in why else "same_white"


def uneven(known: References) -> bool:
    """Whether light falls off over the white itself, and nothing evens it out."""
    if known.white is None or known.even.degree > 0:
        return False
    green = known.white.block_light[:, 1]
    return bool(np.ptp(np.percentile(green, [5, 95])) / known.white.light[1] > MUCH_UNEVEN_FRAC.value)
