"""One alkali dose in process: from the pH alone, and from a jar titration of four readings."""

from __future__ import annotations

import json
import statistics
import time
from collections.abc import Callable
from typing import Any, Final

import numpy as np

from bluewright.cli.record_command import example_text
from bluewright.science.alkali.dose import dose
from bluewright.science.alkali.record import LiquorRecord
from bluewright.science.base.records import read

BUDGET_MS: Final = 5.0
RUNS: Final = 50


def from_the_ph_alone() -> Callable[[], object]:
    """A dose that rests on priors and the starting pH."""
    fields: dict[str, Any] = json.loads(example_text("alkali-dose"))
    del fields["jar"]
    return _ready(fields)


def from_a_jar() -> Callable[[], object]:
    """A dose fitted to the jar titration of the example."""
    return _ready(json.loads(example_text("alkali-dose")))


def _ready(fields: dict[str, Any]) -> Callable[[], object]:
    record = read(LiquorRecord, fields)
    return lambda: dose(record, rng=np.random.default_rng(record.seed))


BENCHMARKS = {"dose: from the pH alone": from_the_ph_alone, "dose: from a jar titration": from_a_jar}


def bench_dose() -> dict[str, float]:
    """Median milliseconds of each over 50 runs, printed beside the budget."""
    found = {}
    for name, prepare in BENCHMARKS.items():
        run = prepare()
        run()
        found[name] = statistics.median(_milliseconds(run) for _ in range(RUNS))
        print(f"{name}: {found[name]:.1f} ms (median of {RUNS}; budget {BUDGET_MS:g} ms)")
    return found


def _milliseconds(run: Callable[[], object]) -> float:
    started = time.perf_counter()
    run()
    return 1000.0 * (time.perf_counter() - started)


if __name__ == "__main__":
    bench_dose()
