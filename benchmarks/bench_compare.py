"""Comparing: a trial laid out, told, and many batches."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from bluewright.cli.record_command import example_text
from bluewright.science.base.records import read
from bluewright.science.learn.design import trial_plan
from bluewright.science.learn.design_record import TrialPlanRecord
from bluewright.science.learn.mixed import batches
from bluewright.science.learn.mixed_record import BatchesRecord
from bluewright.science.learn.trial import trial
from bluewright.science.learn.trial_record import TrialRecord


def laid_out() -> Callable[[], object]:
    """The example: two tubs, six days."""
    record = read(TrialPlanRecord, example_text("compare-design"))
    return lambda: trial_plan(record, rng=np.random.default_rng(record.seed))


def told() -> Callable[[], object]:
    """The example: five pairs, one of them spoilt."""
    record = read(TrialRecord, example_text("compare-trial"))
    return lambda: trial(record, rng=np.random.default_rng(record.seed))


def large() -> Callable[[], object]:
    """Four ways in twenty pickings: all signs of twenty pairs are tried, three times."""
    rng = np.random.default_rng(1)
    tubs = [
        {"way": f"way {way}", "block": str(block), "value": float(np.exp(rng.normal(0, 0.3)))}
        for block in range(20)
        for way in range(4)
    ]
    record = read(TrialRecord, {"ways": [{"name": f"way {way}"} for way in range(4)], "tubs": tubs, "leaf_kg": 6.0})
    return lambda: trial(record, rng=np.random.default_rng(1))


def many() -> Callable[[], object]:
    """Five hundred batches over five years, six beds, 250 days."""
    rng = np.random.default_rng(2)
    made = [
        {
            "way": "ab"[int(rng.integers(2))],
            "value": float(np.exp(rng.normal(0, 0.3))),
            "bed": f"bed {int(rng.integers(6))}",
            "day": f"{2021 + k // 100}-{4 + k % 100 // 20:02d}-{1 + k % 20:02d}",
            "temp_c": float(rng.uniform(12, 24)),
        }
        for k in range(500)
    ]
    record = read(BatchesRecord, {"batches": made})
    return lambda: batches(record, rng=np.random.default_rng(1))


BENCHMARKS = {
    "compare: a trial laid out": laid_out,
    "compare: a trial of five pairs": told,
    "compare: four ways in twenty pickings": large,
    "compare: five hundred batches": many,
}
