"""How the dye index goes after a dose: the turn to yellow, the rise, its pace, and whether it has come to rest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.photo.jar_light import Drawn
from bluewright.science.photo.jar_record import JarSeen

Line = tuple[tuple[float, Floats], ...]
"""Minutes and draws of the dye index, in order."""
RISEN: Final = 0.05
"""A dye index that rose by this has risen (judgement, from simulated spectra: an A660 of 0.1 gives it)."""
REST_FRAC: Final = 0.1
"""Of the whole rise: a last step below this is rest (judgement)."""
REST_CHANCE: Final = 0.75
LEAST_STEP_MIN: Final = 2.0
STEP_FRAC: Final = 0.2
"""A step that can tell of rest lasts so long, and so much of the time since the dose (judgement)."""
NEAR_MIN: Final = 10.0
"""Looks this near to each other are of the same moment: one shaken, one settled."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """The looks that make the line of a series, and what the line says."""

    line: Line
    """Of settled looks where there are any."""
    dye_since_before: Floats | None
    """Rise from before the alkali to the last look; None where there was no look before it."""
    often: bool
    """Whether two looks after the alkali both show the rise in the middle."""
    turn_to_yellow: Floats | None
    dye_rise: Floats | None
    dye_rise_per_h: Floats | None
    course: Literal["rising", "level", "falling", "unclear", "unknown"]
    level_chance: float | None


def course_of(looks: Sequence[Drawn]) -> Course:
    """What a series of looks says; jars that differ in width or dilution are brought to the first one's measure."""
    lines = [look for look in looks if look.seen.stood == "settled"] or list(looks)
    first = lines[0].seen
    line = tuple((one.seen.after_min, _alike(first, one.seen) * one.dye) for one in lines if one.dye is not None)
    before = line[0][1] if line and line[0][0] == 0 else None
    after = [dye for minute, dye in line if minute > 0]
    middles = [float(np.median(dye - (0.0 if before is None else before))) for dye in after]
    course, chance = _course(line)
    return Course(
        line=line,
        dye_since_before=None if before is None or not after else after[-1] - before,
        often=sum(middle >= (0.0 if before is None else RISEN) for middle in middles) >= 2,
        turn_to_yellow=_turn(lines),
        dye_rise=line[-1][1] - line[0][1] if len(line) > 1 else None,
        dye_rise_per_h=_pace(line[-3:]),
        course=course,
        level_chance=chance,
    )


def _alike(first: JarSeen, other: JarSeen) -> float:
    """What turns an index of `other` into one of the first look's jar."""
    return (first.path_cm / first.dilution_factor) * (other.dilution_factor / other.path_cm)


def _turn(lines: Sequence[Drawn]) -> Floats | None:
    """Yellow index of the first look after the dose over that before it."""
    seen = [
        (one.seen.after_min, _alike(lines[0].seen, one.seen) * one.yellow) for one in lines if one.yellow is not None
    ]
    before = next((yellow for minute, yellow in seen if minute == 0), None)
    after = next((yellow for minute, yellow in seen if minute > 0), None)
    return None if before is None or after is None else after - before


def _pace(line: Sequence[tuple[float, Floats]]) -> Floats | None:
    """Slope of a straight line through the looks, per hour; None where they are of one moment."""
    hours = np.array([minute for minute, _dye in line]) / 60.0
    if len(line) < 2 or np.ptp(hours) == 0:
        return None
    off = hours - hours.mean()
    return np.asarray(np.tensordot(off, np.stack([dye for _minute, dye in line]), axes=1) / np.sum(off**2))


def _course(
    line: Sequence[tuple[float, Floats]],
) -> tuple[Literal["rising", "level", "falling", "unclear", "unknown"], float | None]:
    """How the last step that lasted long enough compares with the whole."""
    if len(line) < 2:
        return "unknown", None
    end_min, end = line[-1]
    step_min = max(LEAST_STEP_MIN, STEP_FRAC * end_min)
    earlier = [dye for minute, dye in line if minute <= end_min - step_min]
    if not earlier:
        return "unknown", None
    step, whole = end - earlier[-1], end - line[0][1]
    rest = np.maximum(RISEN, REST_FRAC * np.abs(whole))
    level, rising, falling = (float(np.mean(part)) for part in (np.abs(step) < rest, step >= rest, step <= -rest))
    said: Literal["rising", "level", "falling", "unclear"] = "unclear"
    if max(rising, falling) >= REST_CHANCE:
        said = "rising" if rising > falling else "falling"
    elif level >= REST_CHANCE:
        said = "level"
    return said, level


def turbid_frac(looks: Sequence[Drawn]) -> Floats | None:
    """Share of a shaken look's absorbance in green that its settled neighbour has not; None where there is no pair.

    The last shaken look that has a settled one within ten minutes counts.
    """
    clear = [one for one in looks if one.seen.stood == "settled" and not one.dark[1]]
    for shaken in reversed(looks):
        if shaken.seen.stood == "settled" or shaken.dark[1] or np.median(shaken.green) <= RISEN:
            continue
        near = [one for one in clear if abs(one.seen.after_min - shaken.seen.after_min) <= NEAR_MIN]
        if near:
            nearest = min(near, key=lambda one: abs(one.seen.after_min - shaken.seen.after_min))
            left = _alike(shaken.seen, nearest.seen) * nearest.green
            return np.asarray(np.clip(1.0 - left / np.maximum(shaken.green, RISEN), 0.0, 1.0))
    return None
