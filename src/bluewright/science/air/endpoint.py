"""Is it done? What each reading says: dissolved oxygen, foam and the look of the liquor, each read with an error.

Dissolved oxygen y of a probe with gain g and zero error d: logistic around g O + d (heavier tails than a bell curve:
a probe is now and then far off), its width 0.15 mg/L and 6 % of the reading together; a reading of 0 may be anything
below. The signs: chance of a level or more, P(level >= j) = (1 - lapse) L((ln theta + eye - cut_j) / width) + lapse
(4 - j) / 4, L the logistic curve and theta the exposure (`oxidation`): half of the indoxyl is blue at theta 0.7,
95 % at 3.0. The eye's own offset is shared by all its readings: ten looks by one person are not ten witnesses.

A jar's dye index: logistic around gain * indigo * turned * exp(-fade t) + base (`media.dye_index`), these three unknown
but the same in all jars of a batch: that it rises says that blue forms, that it rests that it is done or nearly so.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from bluewright.science.air.members import Course, Members, Score
from bluewright.science.air.oxidation import done_frac, exposure_for
from bluewright.science.air.record import AirReading, AirRecord
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.dye_index import READING_SD_FRAC, READING_SD_PER_CM, dye_index_per_cm
from bluewright.science.media.oxygen import OXYGEN_G_PER_MOL

SignName = Literal["foam", "liquor"]

PROBE_GAIN: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.08, unit="1", source="common-practice", grade="guess",
    note="a cheap probe calibrated in air; foam and pigment on its membrane",
)  # fmt: skip
PROBE_ZERO_MG_PER_L: Final = Prior(
    kind="normal", centre=0.15, spread=0.2, unit="mg/L", source="common-practice", grade="guess",
    note="cheap probes rarely come down to nought",
)  # fmt: skip
PROBE_FLOOR_MG_PER_L: Final = 0.15
PROBE_WIDTH_FRAC: Final = 0.06
"""Standard deviation of one oxygen reading: this much, and this share of it (judgement)."""

JAR_FADE_PER_H: Final = Prior(
    kind="lognormal", centre=0.3, spread=1.0, unit="1/h", source="common-practice", grade="guess",
    note="how fast blue in the liquor shows less, as its particles grow and begin to sink",
)  # fmt: skip
EYE: Final = Prior(
    kind="normal", centre=0.0, spread=0.3, unit="1", source="common-practice", grade="guess",
    note="how early or late one person calls a sign, in the logarithm of the exposure",
)  # fmt: skip
LOGISTIC_SCALE: Final = math.sqrt(3.0) / math.pi
"""Width of a logistic distribution over its standard deviation."""
LAPSE_FRAC: Final = 0.02
"""Share of signs that are slips, spread evenly over the levels (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """One sign: the shares of indoxyl turned blue at which its levels are even odds, and how sharply it turns."""

    source: str
    cut_frac: tuple[float, float, float]
    width_factor: float
    eye: str
    """The cause (column of scores) that is this eye's offset."""
    levels: tuple[str, str, str, str]
    """What levels 0 to 3 look like, in words."""


SIGNS: Final[dict[SignName, Sign]] = {
    "foam": Sign(
        source="common-practice", cut_frac=(0.25, 0.82, 0.96), width_factor=0.25, eye="foam_eye",
        levels=("green-yellow", "blue on top and plenty", "shrinking", "white or grey, or none left"),
    ),
    "liquor": Sign(
        source="common-practice", cut_frac=(0.25, 0.65, 0.93), width_factor=0.25, eye="liquor_eye",
        levels=("green or yellow-green", "blue-green", "dark blue", "blue grain in a clear straw ring on paper"),
    ),
}  # fmt: skip
"""Cuts and widths are judgements: the order of the signs is common practice, no scale was found."""


def at_least(name: SignName, exposure: Floats, *, at: Score) -> Floats:
    """P(level >= 1), P(level >= 2), P(level >= 3) of a sign, shape (3, n)."""
    sign = SIGNS[name]
    cuts = np.array([math.log(exposure_for(share)) for share in sign.cut_frac])[:, None]
    cue = np.log(np.maximum(exposure, 1e-12)) + EYE.from_z(at(sign.eye))
    clear = _logistic((cue - cuts) / sign.width_factor)
    even = np.array([3.0, 2.0, 1.0])[:, None] / 4.0
    return np.asarray((1.0 - LAPSE_FRAC) * clear + LAPSE_FRAC * even)


def level_chances(name: SignName, exposure: Floats, *, at: Score) -> Floats:
    """Chance of each level 0 to 3, shape (4, n)."""
    above = at_least(name, exposure, at=at)
    ends = np.zeros((1, above.shape[1]))
    return np.asarray(np.concatenate([ends + 1.0, above]) - np.concatenate([above, ends]))


def probe_mg_per_l(oxygen_mmol_per_l: Floats, *, at: Score) -> tuple[Floats, Floats]:
    """What a probe would show on average, and the width (logistic scale) of one reading, mg/L."""
    true_mg_per_l = OXYGEN_G_PER_MOL.value * oxygen_mmol_per_l
    shown = PROBE_GAIN.from_z(at("probe_gain")) * true_mg_per_l + PROBE_ZERO_MG_PER_L.from_z(at("probe_zero"))
    deviation = np.hypot(PROBE_FLOOR_MG_PER_L, PROBE_WIDTH_FRAC * shown)
    return shown, deviation * LOGISTIC_SCALE


def jar_per_cm(
    exposure: Floats, group: Members, *, at: Score, aired_h: Floats, own_sd: float | None = None
) -> tuple[Floats, Floats]:
    """Dye index that a jar would show on average, and the width (logistic scale) of one reading, for each cm."""
    fade_per_h = JAR_FADE_PER_H.from_z(at("dye_fade"))
    blue_g_per_l = group.indigo_g_per_l * done_frac(exposure) * np.exp(-fade_per_h * aired_h)
    shown = dye_index_per_cm(blue_g_per_l, gain_z=at("dye_gain"), base_z=at("dye_base"))
    none = dye_index_per_cm(np.zeros_like(blue_g_per_l), gain_z=at("dye_gain"), base_z=at("dye_base"))
    deviation = np.hypot(own_sd or READING_SD_PER_CM.value, READING_SD_FRAC.value * (shown - none))
    return shown, deviation * LOGISTIC_SCALE


def log_likelihood(record: AirRecord, path: Course, group: Members, *, at: Score) -> Floats:
    """Log of how likely the readings are for each member, shape (n,)."""
    total = np.zeros_like(at("rate"))
    for reading in record.readings:
        row = path.row(record.session_frac(reading))
        total += _one(reading, path.exposure[row], path.oxygen_mmol_per_l[row], at)
        if reading.dye_index is not None:
            aired_h = record.session_frac(reading) * group.done_h
            shown, width = jar_per_cm(path.exposure[row], group, at=at, aired_h=aired_h, own_sd=reading.dye_index_sd)
            total += _log_logistic((reading.dye_index - shown) / width) - np.log(width)
    return total


def _one(reading: AirReading, exposure: Floats, oxygen_mmol_per_l: Floats, at: Score) -> Floats:
    total = np.zeros_like(exposure)
    for name in SIGNS:
        level = getattr(reading.signs, name)
        if level is not None:
            total += np.log(level_chances(name, exposure, at=at)[level])
    if reading.dissolved_oxygen_mg_l is not None:
        shown, width = probe_mg_per_l(oxygen_mmol_per_l, at=at)
        off = (reading.dissolved_oxygen_mg_l - shown) / width
        nought = reading.dissolved_oxygen_mg_l == 0
        total += -np.logaddexp(0.0, -off) if nought else _log_logistic(off) - np.log(width)
    return total


def _log_logistic(off: Floats) -> Floats:
    """Logarithm of the logistic density at so many widths from its middle, up to the width."""
    return np.asarray(-np.logaddexp(0.0, -off) - np.logaddexp(0.0, off))


def _logistic(x: Floats) -> Floats:
    return np.asarray(0.5 * (1.0 + np.tanh(0.5 * x)))


def has_readings(record: AirRecord) -> bool:
    """Whether any reading says something of the end (pH alone does not)."""
    return any(
        any(seen is not None for seen in (r.dissolved_oxygen_mg_l, r.dye_index, r.signs.foam, r.signs.liquor))
        for r in record.readings
    )
