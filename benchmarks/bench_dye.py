"""Dyeing in process: a forecast of 2,000 draws over the dips of the example, and over many dips."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import numpy as np

from bluewright.cli.record_command import example_text
from bluewright.science.base.records import read
from bluewright.science.dyeing.ladder import ladder
from bluewright.science.dyeing.ladder_record import LadderRecord
from bluewright.science.dyeing.lots import lots
from bluewright.science.dyeing.lots_record import LotsRecord
from bluewright.science.dyeing.match import match
from bluewright.science.dyeing.match_record import MatchRecord
from bluewright.science.dyeing.shade import shade
from bluewright.science.dyeing.shade_record import ShadeRecord


def usual() -> Callable[[], object]:
    """The example: six dips and a wanted swatch."""
    return _ready({})


def many_dips() -> Callable[[], object]:
    """The same with forty dips."""
    return _ready({"dips": 40})


def _ready(changed: dict[str, Any]) -> Callable[[], object]:
    record = read(ShadeRecord, json.loads(example_text("dye-shade")) | changed)
    return lambda: shade(record, rng=np.random.default_rng(record.seed))


def four_swatches() -> Callable[[], object]:
    """The example ladder."""
    record = read(LadderRecord, example_text("dye-ladder"))
    return lambda: ladder(record, rng=np.random.default_rng(record.seed))


def swatch() -> Callable[[], object]:
    """The example: eight strengths, up to sixteen dips."""
    record = read(MatchRecord, example_text("dye-match"))
    return lambda: match(record, rng=np.random.default_rng(record.seed))


def twelve_jars() -> Callable[[], object]:
    """The most jars, four of them at once, at a wanted purity: every choice is tried."""
    jars = [
        {"name": str(k), "mass_g": 40 + 5 * k, "purity_frac": 0.2 + 0.02 * k, "purity_sd_frac": 0.02 + 0.002 * k}
        for k in range(12)
    ]
    record = read(LotsRecord, {"jars": jars, "pure_g": 50, "wanted_purity_frac": 0.3, "most_jars": 4})
    return lambda: lots(record, rng=np.random.default_rng(record.seed))


BENCHMARKS = {
    "dye: lots, four of twelve jars": twelve_jars,
    "dye: a shade, 2,000 draws": usual,
    "dye: a shade after forty dips": many_dips,
    "dye: ladder of four swatches": four_swatches,
    "dye: match at eight strengths": swatch,
}
