"""Worked data sets as cells of a fit, and trials made up for tests."""

from typing import Any

from bluewright.science.base.records import read
from bluewright.science.learn.trial_fit import Cell
from bluewright.science.learn.trial_record import TrialRecord

CLEAN = (1.42, 1.10, 1.75, 0.92, 1.31)
SPOTTED = (1.20, 1.02, 1.33, 0.85, 0.97)
"""Made-up pairs whose result is worked by hand: mean log ratio -0.1796, its t -3.80, five of five less."""


def cell(way: int, block: str, value: float, **more: Any) -> Cell:
    """A number that stands in the fit as it is."""
    return Cell(way=way, block=block, mean_log=value, **({"own_sd": 0.0, "assays": ()} | more))


def pairs(usual: tuple[float, ...] = CLEAN, other: tuple[float, ...] = SPOTTED, **more: Any) -> TrialRecord:
    """A trial in pairs."""
    tubs = [
        {"way": way, "block": f"p{k}", "value": value}
        for k, both in enumerate(zip(usual, other, strict=True))
        for way, value in zip(("clean", "spotted"), both, strict=True)
    ]
    return read(TrialRecord, {"ways": [{"name": "clean"}, {"name": "spotted"}], "tubs": tubs} | more)
