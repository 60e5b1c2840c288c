"""What eye, strip and meters tell of a vat, given its state: wide, so that none of them is ever the only gate.

The look of liquor, skin and grains are levels (`base.levels`); a strip's seconds are log-normal; pH and millivolts
normal. Each has an offset of its own that all readings of a vat share: ten looks by one person are not ten witnesses.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from bluewright.science.base.levels import level_chance
from bluewright.science.base.sourced import Floats
from bluewright.science.media.electrodes import to_she_mv
from bluewright.science.vat.liquor import Batch, Now
from bluewright.science.vat.state_priors import MV_SD, PH_SD, STRIP_LOG_SD
from bluewright.science.vat.state_record import VatReading

SignName = Literal["liquor_look", "film", "grains_seen"]
LITTLE: Final = 0.02
"""mmol in a litre that no eye tells from none."""
DROP_S: Final = 4.0
"""Seconds in which a strip turns blue where no reductant is left."""
SLOW: Final = 12.0
HALF_SLOW: Final = 2.0
"""How many times slower at most with much reductant, and the mmol of electrons in a litre at half of that (guesses)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """One look: its cue from the state, and where the cue becomes the next level."""

    cue: Callable[[Now], Floats]
    cuts: tuple[float, float, float]
    slope: float
    levels: tuple[str, str, str, str]
    """What levels 0 to 3 look like, in words."""


SIGNS: Final[dict[SignName, Sign]] = {
    "liquor_look": Sign(
        cue=lambda now: np.log10((now.reduced_mmol + LITTLE) / (now.waiting_mmol + LITTLE)),
        cuts=(-0.4, 0.3, 0.9), slope=8.0,
        levels=("blue", "green, or cloudy", "yellow-green", "clear yellow to amber"),
    ),
    "film": Sign(
        cue=lambda now: np.log10(now.reduced_mmol + LITTLE), cuts=(-0.6, 0.0, 0.7), slope=8.0,
        levels=("none", "a thin shimmer", "a coppery film", "a thick bronze flower"),
    ),
    "grains_seen": Sign(
        cue=lambda now: np.log10(now.waiting_mmol + LITTLE), cuts=(-0.7, 0.0, 0.6), slope=8.0,
        levels=("none", "a few grains", "many grains", "mostly grains"),
    ),
}  # fmt: skip
"""Cuts and slopes are judgements (grade guess): no published scale exists."""


def log_likelihood(reading: VatReading, now: Now, batch: Batch) -> Floats:
    """Log-likelihood (n,) of one reading, given the vat as it then was."""
    total = np.zeros_like(now.ph)
    for name, sign in SIGNS.items():
        level = getattr(reading, name)
        if level is not None:
            cue = sign.cue(now) + batch[f"{name}_offset"]
            total += np.log(level_chance(cue, cuts=sign.cuts, slope=sign.slope, level=level))
    if reading.ph is not None:
        total += _normal(reading.ph, now.ph + batch["ph_bias"], PH_SD.value)
    if reading.potential_mv is not None:
        seen = to_she_mv(reading.potential_mv, electrode=reading.electrode)
        total += _normal(seen, potential_mv(now) + batch["mv_bias"], MV_SD.value)
    if reading.strip_s is not None:
        usual = np.log(strip_s(now)) + batch["strip_bias"]
        total += _normal(float(np.log(max(reading.strip_s, 1.0))), usual, STRIP_LOG_SD.value)
    return total


def potential_mv(now: Now) -> Floats:
    """Potential against hydrogen, mV: what indigo and leuco stand at, and lower with what reductant is left.

    Formula: -400 - 35 (pH - 9) + 30 log10(waiting / reduced) - 60 log10(1 + electrons / 0.5). A judgement: seen are
    -600 mV against silver chloride where indigo begins to be reduced, -700 to -850 in dithionite vats.
    """
    poised = 30.0 * np.log10((now.waiting_mmol + LITTLE) / (now.reduced_mmol + LITTLE))
    return np.asarray(-400.0 - 35.0 * (now.ph - 9.0) + poised - 60.0 * np.log10(1.0 + now.electrons_mmol / 0.5))


def strip_s(now: Now) -> Floats:
    """Seconds until a strip has turned blue: reductant that it carries along keeps the air off its blue.

    Formula: 4 (1 + 12 e / (e + 2)) with e mmol of electrons in a litre: 4 s without any, 30 s and more with plenty.
    """
    return np.asarray(DROP_S * (1.0 + SLOW * now.electrons_mmol / (now.electrons_mmol + HALF_SLOW)))


def _normal(seen: float, mean: Floats, sd: float) -> Floats:
    return np.asarray(-0.5 * ((seen - mean) / sd) ** 2)
