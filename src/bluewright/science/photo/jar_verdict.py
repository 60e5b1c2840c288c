"""Is it blue dye, or only haze? The rules of the two-light test, and what to be careful of."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, Literal

import numpy as np

from bluewright.science.base.cautions import Caution, those_that_hold
from bluewright.science.photo.jar_course import RISEN, Course
from bluewright.science.photo.jar_light import Drawn, linear_of
from bluewright.science.photo.jar_record import JarFound, JarRecord

Verdict = Literal["blue_dye", "haze", "no_blue", "unclear", "too_dark"]

SURE: Final = 0.95
"""Chance from which blue dye is said to be there, and below one minus which it is said not to be (judgement)."""
BLUE_DEG: Final = (220.0, 290.0)
"""Hues that are called blue (CIELAB h_ab, D65; judgement)."""
BROWN_DEG: Final = 95.0
"""Up to this hue light that comes through is brown or yellow, as haze and brown matter make it (judgement)."""
GREY_CHROMA: Final = 6.0
"""Below this chroma a hue says nothing (judgement)."""
BRIGHTEST_LINEAR: Final = 0.95
"""Of white: beyond it a photo runs out of steps (judgement)."""
BRIGHTER: Final = -0.05
"""An absorbance below this says that less light came through the water than through the liquor."""
SHALLOW_CM: Final = 0.5


def verdict(drawn: Sequence[Drawn], found: Sequence[JarFound], along: Course) -> tuple[Verdict, float]:
    """What the jar says, and the chance of blue dye; the last look that can be counted decides."""
    if not along.line:
        least = drawn[-1].dye_at_least
        blue_chance = 0.5 if least is None else float(np.mean(least > 0))
        return ("blue_dye" if blue_chance >= SURE else "too_dark"), blue_chance
    last = along.line[-1][1]
    blue_chance = float(np.mean(last > 0))
    if along.dye_since_before is not None:
        blue_chance = max(blue_chance, float(np.mean(along.dye_since_before >= RISEN)))
    if blue_chance >= SURE:
        return "blue_dye", blue_chance
    if blue_chance < 0.5 and any(_blue_from_the_side(look) for look in found) and _brown_or_grey(drawn[-1]):
        return "haze", blue_chance
    return ("no_blue" if blue_chance <= 1 - SURE else "unclear"), blue_chance


def _blue_from_the_side(look: JarFound) -> bool:
    hue, factor = look.over_black_hue_deg, look.over_black_blue_factor
    return hue is not None and factor is not None and BLUE_DEG[0] <= hue <= BLUE_DEG[1] and factor > 1.0


def _brown_or_grey(one: Drawn) -> bool:
    grey = float(np.median(one.chroma)) < GREY_CHROMA
    return grey or float(np.mean(one.hue_deg <= BROWN_DEG)) >= 0.5


def cautions(record: JarRecord, found: Sequence[JarFound], said: Verdict, along: Course) -> tuple[Caution, ...]:
    """What to know about the figures."""
    dark = sorted({name for look in found for name in look.too_dark}, key=("red", "green", "blue").index)
    water = np.array([linear_of(look.water, record.colours) for look in record.looks])
    brighter = any(b is not None and b.p95 < BRIGHTER for look in found for b in (look.red, look.green, look.blue))
    wanted = {
        ("too-dark", f"Too little light came through in {' and '.join(dark)}: thin the liquor (one part to four of "
         "water) or take a narrower jar, and say so."): bool(dark),
        ("too-bright", "The jar of water is at the top of what the photo can show: expose it less, or the figures "
         "come out low."): bool(np.any(water > BRIGHTEST_LINEAR)),
        ("brighter-than-water", "More light came through the liquor than through the water: were the boxes or the "
         "light mixed up?"): brighter,
        ("haze-not-blue", "Blue in light from the side is what any fine haze shows: without a rise of the dye index "
         "in light that comes through it is not evidence of blue."): said == "haze",
        ("one-look", "One look is one witness: take the photo again before you rely on it."):
            said == "blue_dye" and not along.often,
        ("green-matter", "Green matter of hot or torn leaves lifts the dye index a little too: blue dye is what grows "
         "with air."): said == "blue_dye" and along.dye_since_before is None,
        ("only-shaken", "Only shaken looks: haze is in them. Let the jar stand, or use a coffee filter."):
            all(look.stood == "shaken" for look in record.looks),
        ("outside-range", f"Less than {SHALLOW_CM:g} cm of liquor: the width of the jar is then most of the "
         "error."): any(look.path_cm < SHALLOW_CM for look in record.looks),
    }  # fmt: skip
    return those_that_hold(wanted)
