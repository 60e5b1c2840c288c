"""Colours and differences in words, as keys; `words/colour.py` says them.

Where one word ends and the next begins is a judgement of ours, made for liquors, pigments and cloth of indigo; nothing
computed rests on it.
"""

from __future__ import annotations

from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.sourced import Floats
from bluewright.science.colour.differences import weighted_parts
from bluewright.science.colour.spaces import chroma_of_lab, hue_deg_of_lab

Hue = Literal[
    "red", "orange", "brown", "yellow", "olive", "yellow-green", "green", "blue-green", "greenish-blue", "blue",
    "reddish-blue", "violet", "purple", "white", "grey", "black",
]  # fmt: skip
Shade = Literal["very-pale", "pale", "medium", "deep", "very-deep"]
Sign = Literal["lighter", "darker", "brighter", "duller", "redder", "greener", "yellower", "bluer"]

GREY_CHROMA: Final = 4.0
"""Below this chroma a colour has no hue that people agree on."""
HUES_DEG: Final[tuple[tuple[float, Hue], ...]] = (
    (45.0, "red"), (70.0, "orange"), (98.0, "yellow"), (130.0, "yellow-green"), (175.0, "green"),
    (212.0, "blue-green"), (245.0, "greenish-blue"), (275.0, "blue"), (295.0, "reddish-blue"), (320.0, "violet"),
    (350.0, "purple"), (360.0, "red"),
)  # fmt: skip
"""Up to which h_ab each word goes."""
BROWN_BELOW: Final = 62.0
"""Orange darker than this is called brown."""
OLIVE_BELOW: Final = 58.0
"""Yellow and yellow-green darker than this, up to OLIVE_TO_DEG, is called olive."""
OLIVE_TO_DEG: Final = 118.0
SHADES: Final[tuple[tuple[float, Shade], ...]] = (
    (22.0, "very-deep"), (40.0, "deep"), (62.0, "medium"), (78.0, "pale"), (101.0, "very-pale"),
)  # fmt: skip
"""Up to which L* each word goes: denim is called light at 60 and dark at 30."""
NOTICED: Final = 0.5
"""A part of a difference smaller than this, in units of CIEDE2000, is not worth a word."""
_WHITE_FROM: Final = 88.0
_BLACK_TO: Final = 16.0


def hue_of(lab: ArrayLike) -> Hue:
    """The word for the hue of one colour, shape (3,); white, grey or black where it has none."""
    light = float(np.asarray(lab, dtype=float)[0])
    if chroma_of_lab(lab) < GREY_CHROMA:
        return "white" if light >= _WHITE_FROM else "black" if light <= _BLACK_TO else "grey"
    hue_deg = float(hue_deg_of_lab(lab))
    found = next(word for end_deg, word in HUES_DEG if hue_deg <= end_deg)
    if found == "orange" and light < BROWN_BELOW:
        return "brown"
    return "olive" if found in {"yellow", "yellow-green"} and light < OLIVE_BELOW and hue_deg <= OLIVE_TO_DEG else found


def shade_of(lab: ArrayLike) -> Shade:
    """How deep one colour, shape (3,), looks by its lightness."""
    light = float(np.asarray(lab, dtype=float)[0])
    return next((word for end, word in SHADES if light < end), "very-pale")


def signs_of(lab: ArrayLike, standard: ArrayLike, *, spread: ArrayLike | None = None) -> tuple[Sign, ...]:
    """What a sample is beside a standard, both of shape (3,): lighter, duller, greener ...; the most striking first.

    A part is told if it is worth NOTICED and, where draws of both colours are given as `spread` (samples and standards
    stacked, shape (2, n, 3)), if nine draws in ten agree on its sign.
    """
    greyish = bool(min(chroma_of_lab(lab), chroma_of_lab(standard)) < GREY_CHROMA)
    told = _leanings(np.asarray(lab, dtype=float), np.asarray(standard, dtype=float), greyish=greyish)
    if spread is not None:
        draws = np.asarray(spread, dtype=float)
        drawn = _leanings(draws[0], draws[1], greyish=greyish)
        told = told * (np.mean(np.sign(drawn) == np.sign(told)[:, None], axis=-1) >= 0.9)
    words = _words(float(hue_deg_of_lab(standard)), greyish=greyish)
    order = sorted(range(3), key=lambda place: -abs(told[place]))
    return tuple(words[place][0 if told[place] > 0 else 1] for place in order if abs(told[place]) >= NOTICED)


def _leanings(lab: Floats, standard: Floats, *, greyish: bool) -> Floats:
    """Lightness, chroma and hue apart, weighted; of greys, which have no hue, lightness, a* and b*; shape (3, ...)."""
    apart = weighted_parts(lab, standard)
    if not greyish:
        return np.stack([apart.lightness, apart.chroma, apart.hue])
    plain = lab - standard
    return np.stack([apart.lightness, plain[..., 1], plain[..., 2]])


def _words(hue_deg: float, *, greyish: bool) -> tuple[tuple[Sign, Sign], ...]:
    """For each part the word where it is more and where it is less; a blue turns redder or greener, never bluer."""
    if greyish:
        return ("lighter", "darker"), ("redder", "greener"), ("yellower", "bluer")
    return ("lighter", "darker"), ("brighter", "duller"), _turn(hue_deg)


def turn_words(lab: ArrayLike) -> tuple[Sign, Sign]:
    """What a colour, shape (3,), becomes where its hue turns onward along red, yellow, green, blue; and turned back."""
    return _turn(float(hue_deg_of_lab(lab)))


def _turn(hue_deg: float) -> tuple[Sign, Sign]:
    turns: tuple[tuple[float, tuple[Sign, Sign]], ...] = (
        (45.0, ("yellower", "bluer")), (135.0, ("greener", "redder")), (225.0, ("bluer", "yellower")),
        (315.0, ("redder", "greener")), (360.0, ("yellower", "bluer")),
    )  # fmt: skip
    return next(words for end, words in turns if hue_deg <= end)
