"""How long one dose takes in process, against its budget. Run: python benchmarks/bench_dose.py"""

from __future__ import annotations

import json
import statistics
import time
from typing import Any, Final

import numpy as np

from bluewright.cli.record_command import example_text
from bluewright.science.alkali.dose import dose
from bluewright.science.alkali.record import LiquorRecord
from bluewright.science.base.records import read

BUDGET_MS: Final = 5.0
RUNS: Final = 50


def bench_dose() -> dict[str, float]:
    """Median milliseconds of a dose from the pH alone, and of one with a jar titration of four readings."""
    with_jar: dict[str, Any] = json.loads(example_text("alkali-dose"))
    alone = {name: value for name, value in with_jar.items() if name != "jar"}
    return {"from the pH alone": _median_ms(alone), "with a jar titration": _median_ms(with_jar)}


def _median_ms(fields: dict[str, Any]) -> float:
    record = read(LiquorRecord, fields)
    dose(record, rng=np.random.default_rng(record.seed))
    taken = []
    for _ in range(RUNS):
        rng = np.random.default_rng(record.seed)
        started = time.perf_counter()
        dose(record, rng=rng)
        taken.append(time.perf_counter() - started)
    return 1000.0 * statistics.median(taken)


def main() -> None:
    """Print the medians beside the budget."""
    for what, taken_ms in bench_dose().items():
        print(f"dose {what}: {taken_ms:.1f} ms (median of {RUNS}; budget for a dose {BUDGET_MS:g} ms)")


if __name__ == "__main__":
    main()
