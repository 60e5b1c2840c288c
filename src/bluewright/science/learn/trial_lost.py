"""What tubs that do not count could have changed: filled in by what their rivals lead one to expect, worse and better.

Those are the spoilt ones, and those that were never weighed.
"""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import replace

import numpy as np

from bluewright.science.learn.trial_cells import counted
from bluewright.science.learn.trial_fit import Fit, ratios
from bluewright.science.learn.trial_priors import LOST_FACTOR
from bluewright.science.learn.trial_record import TrialRecord, TrialTub


def lost_factors(record: TrialRecord, fit: Fit, which: int) -> tuple[float, float] | None:
    """The middle of the ratio `which`, had its lost tubs given least and most; None where none can be filled in.

    Formula: a tub that is spoilt or has no weight is expected to give the mean of its rivals, each taken to this way by
    the estimates; its own way is then halved and the usual one doubled, or the other way round, and the fit made anew.
    """
    expected = _expected(record, fit)
    if not {record.tubs[place].way for place in expected} & {record.ways[0].name, record.ways[which + 1].name}:
        return None
    low, high = (_filled(record, expected, which, by=by) for by in (1.0 / LOST_FACTOR.value, LOST_FACTOR.value))
    return low, high


def _expected(record: TrialRecord, fit: Fit) -> dict[int, float]:
    """By place of a lost tub the logarithm that its rivals lead one to expect."""
    over = dict(zip((way.name for way in record.ways), [0.0, *map(float, fit.estimate_log)], strict=True))
    levels: defaultdict[str, list[float]] = defaultdict(list)
    for tub in record.tubs:
        if tub.value is not None and not tub.spoilt:
            levels[tub.block].append(math.log(tub.value) - over[tub.way])
    return {
        place: float(np.mean(levels[tub.block])) + over[tub.way]
        for place, tub in enumerate(record.tubs)
        if (tub.spoilt or tub.value is None) and tub.block in levels
    }


def _filled(record: TrialRecord, expected: dict[int, float], which: int, *, by: float) -> float:
    """The ratio with each lost tub filled in, those of the way times `by`, those of the usual way through it."""
    shift = {record.ways[0].name: -math.log(by), record.ways[which + 1].name: math.log(by)}
    tubs: list[TrialTub] = list(record.tubs)
    for place, value_log in expected.items():
        tub = tubs[place]
        tubs[place] = replace(tub, value=math.exp(value_log + shift.get(tub.way, 0.0)), spoilt="")
    cells = counted(replace(record, tubs=tuple(tubs)))
    found = ratios(cells.cells, ways=len(record.ways), in_blocks=cells.in_blocks)
    return math.exp(float(found.estimate_log[which]))
