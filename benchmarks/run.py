"""Speed and memory against a budget: python benchmarks/run.py [PART OF A NAME ...]

Each benchmark is run several times and its median is held against `budgets.toml`. Whole processes come first, then
what the modules `bench_*.py` beside this file define:

    BENCHMARKS = {"name": callable}   a callable is one run; if it returns a callable, it was the preparation, and
                                      the run is what it returned, so that only the work itself is timed
    FIGURES = {"name": (unit, callable)}   optional: returns one figure that the module takes its own way, as the best
                                      of several rounds of visits; `unit` is `seconds` or `kilobytes`
    REPORTS = {"name": callable}      optional: returns lines to print (how cost grows, for instance)
    LEFT_OUT = {"name"}               optional: what this run does not take, as it was asked to; its budget waits

The exit code is 1 if a budget is exceeded or has no benchmark. It is never part of the tests: a busy machine would
fail them.
"""

from __future__ import annotations

import importlib.util
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from types import ModuleType

HERE = Path(__file__).resolve().parent
EXAMPLES = HERE.parent / "src" / "bluewright" / "examples"
UNITS = {"seconds": "s", "kilobytes": "kB"}
NAME = 54
"""Width of the first column."""
RUNS = 5
LONG_S = 10.0
"""A run longer than this is not repeated."""
SHORT_S = 0.05
"""Shorter runs are repeated within one measurement until they take about this long."""


@dataclass(frozen=True, slots=True)
class Measured:
    """The median of some runs, and the largest memory that any took (whole processes only)."""

    name: str
    seconds: float
    megabytes: float | None = None


def main(wanted: list[str]) -> int:
    """Measure what is wanted (default: everything), print the table, compare."""
    if hasattr(os, "getloadavg") and os.getloadavg()[0] > 1:
        print(f"other work runs here (load {os.getloadavg()[0]:.1f}): figures will be too high\n")
    budgets = tomllib.loads((HERE / "budgets.toml").read_text(encoding="utf-8"))
    print(f"{'benchmark':<{NAME}} {'median':>10} {'budget':>10} {'ratio':>6}")
    seen: set[str] = set()
    failed = False
    for found in measured(wanted):
        seen.add(found.name)
        failed |= row(found.name, found.seconds, budgets["seconds"].get(found.name), "s")
        if found.megabytes is not None:
            failed |= row(f"{found.name} (memory)", found.megabytes, budgets["megabytes"].get(found.name), "MB")
    for name, unit, value in figures(wanted):
        seen.add(name)
        failed |= row(name, value, budgets[unit].get(name), UNITS[unit])
    left_out = set[str]().union(*(getattr(module, "LEFT_OUT", ()) for module in modules()))
    unseen = [name for part in budgets.values() for name in part if asked_for(name, wanted) and name not in seen]
    missing = [name for name in dict.fromkeys(unseen) if name not in left_out]
    for name in dict.fromkeys(unseen):
        print(f"{name:<{NAME}} {'left out' if name in left_out else 'has a budget and no benchmark'}")
    for module in modules():
        for name, report in getattr(module, "REPORTS", {}).items():
            if asked_for(name, wanted):
                print(f"\n{name}", *report(), sep="\n  ")
    return 1 if failed or missing else 0


def row(name: str, value: float, budget: float | None, unit: str) -> bool:
    """Print one line of the table; returns whether the budget is exceeded."""
    said = f"{name:<{NAME}} {value:>8.4g} {unit:<2}"
    if budget is None:
        print(said.rstrip())
        return False
    print(f"{said}{budget:>7g} {unit:<2} {value / budget:>6.2f}  {'ok' if value <= budget else 'TOO MUCH'}")
    return value > budget


def measured(wanted: list[str]) -> Iterator[Measured]:
    """Every benchmark that is wanted, one after the other; processes first, while this one is still small."""
    for name, run_process in processes().items():
        if asked_for(name, wanted):
            took = [run_process()]
            while len(took) < RUNS and sum(seconds for seconds, _ in took) < LONG_S:
                took.append(run_process())
            yield Measured(
                name, statistics.median(seconds for seconds, _ in took), max(memory for _, memory in took) or None
            )
    for module in modules():
        for name, run in getattr(module, "BENCHMARKS", {}).items():
            if asked_for(name, wanted):
                yield Measured(name, statistics.median(timed(run)))


def figures(wanted: list[str]) -> Iterator[tuple[str, str, float]]:
    """Name, unit and value of every wanted figure that a module takes its own way."""
    for module in modules():
        for name, (unit, take) in getattr(module, "FIGURES", {}).items():
            if asked_for(name, wanted):
                yield name, unit, take()


def timed(run: Callable[[], object]) -> list[float]:
    """Seconds of each run, the first one (loading, caches) left out."""
    prepared = run()
    if callable(prepared):
        run = prepared
        run()
    began = time.perf_counter()
    run()
    first = time.perf_counter() - began
    if first > LONG_S:
        return [first]
    times = max(1, round(SHORT_S / max(first, 1e-6)))
    took = []
    for _ in range(RUNS):
        began = time.perf_counter()
        for _ in range(times):
            run()
        took.append((time.perf_counter() - began) / times)
    return took


def processes() -> dict[str, Callable[[], tuple[float, float]]]:
    """Whole processes: seconds and megabytes of one run."""
    return {
        "process: bluewright --help": lambda: process("--help"),
        "process: bluewright steep call": lambda: process("steep", "call", str(EXAMPLES / "steep-call.json")),
        "process: bluewright alkali dose": lambda: process("alkali", "dose", str(EXAMPLES / "alkali-dose.json")),
        "process: 100 steep records by --jsonl": many_records,
    }


def process(*words: str) -> tuple[float, float]:
    """Seconds and peak megabytes (0 where the system does not tell) of one `bluewright` process."""
    began = time.perf_counter()
    running = subprocess.Popen([sys.executable, "-m", "bluewright", *words], stdout=subprocess.DEVNULL)
    if not hasattr(os, "wait4"):
        code, kilobytes = running.wait(), 0.0
    else:
        _, status, usage = os.wait4(running.pid, 0)
        code = running.returncode = os.waitstatus_to_exitcode(status)
        kilobytes = usage.ru_maxrss / (1024 if sys.platform == "darwin" else 1)
    if code != 0:
        raise SystemExit(f"bluewright {' '.join(words)} ended with exit code {code}")
    return time.perf_counter() - began, kilobytes / 1024


def many_records() -> tuple[float, float]:
    """A hundred steeps of twenty readings each, in one file."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "steeps.jsonl"
        path.write_text("\n".join(json.dumps(steep(seed)) for seed in range(1, 101)), encoding="utf-8")
        seconds, _ = process("steep", "call", "--jsonl", str(path))
    return seconds, 0.0


def steep(seed: int) -> dict[str, object]:
    """The packaged example with twenty invented readings over its first 45 hours."""
    record = json.loads((EXAMPLES / "steep-call.json").read_text(encoding="utf-8"))
    start = datetime.fromisoformat(record["started"])
    readings = [
        {
            "time": (start + timedelta(hours=2.2 * k)).isoformat(),
            "ph": round(7 - k / 20, 1),
            "signs": {"bubbles": k // 8},
        }
        for k in range(1, 21)
    ]
    now = (start + timedelta(hours=45)).isoformat()
    return record | {"id": f"tub-{seed}", "seed": seed, "now": now, "readings": readings}


def modules() -> list[ModuleType]:
    """The modules `bench_*.py` of this folder."""
    found = []
    for path in sorted(HERE.glob("bench_*.py")):
        if path.stem not in sys.modules:
            spec = importlib.util.spec_from_file_location(path.stem, path)
            if spec is None or spec.loader is None:
                raise SystemExit(f"{path.name} cannot be loaded")
            sys.modules[path.stem] = importlib.util.module_from_spec(spec)
            spec.loader.exec_module(sys.modules[path.stem])
        found.append(sys.modules[path.stem])
    return found


def asked_for(name: str, wanted: list[str]) -> bool:
    """Whether any wanted part occurs in the name; everything is wanted if nothing is."""
    return not wanted or any(part in name for part in wanted)


if __name__ == "__main__":
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    os.environ.setdefault("OMP_NUM_THREADS", "1")
    sys.exit(main(sys.argv[1:]))
