"""The garden's memory by the way its pages take: from the rows of 500 finished tubs, and again after one was corrected.

The garden is that of ten seasons (`large_garden.py`), of which the latest 500 tubs teach, each with a hundred looks.
Each figure is of a process of its own, as a server begins: once from nothing, then after a look was put right.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import cache
from pathlib import Path

from bench_pages import garden

NOTHING, ONE_MORE = "memory: 500 tubs of a journal from nothing", "memory: a journal's tubs after one was corrected"


@cache
def taken() -> dict[str, float]:
    """Seconds of both, of one process on a copy of the large garden."""
    with tempfile.TemporaryDirectory(prefix="bluewright-bench-") as folder:
        home = Path(folder) / "garden"
        shutil.copytree(garden(), home)
        told = subprocess.run([sys.executable, __file__, home], check=True, stdout=subprocess.PIPE, text=True)
    return {name: float(seconds) for name, seconds in json.loads(told.stdout).items()}


def main(home: Path) -> None:
    """Take both and print them."""
    from bluewright.web import home as folder

    folder.use(home)
    folder.migrate(home)
    from bluewright.journal.actions.keeping import keep
    from bluewright.journal.bridge import learned
    from bluewright.journal.models import Garden

    of = Garden.objects.get()
    found = {NOTHING: _seconds(lambda: learned.reckon(of))}
    steep_key = learned.reckon(of).tubs[-1]
    look = of.steeps.get(pk=steep_key).readings.latest("taken_at")
    look.temp_c, look.temp_typed = 17.3, "17.3 C"
    keep(look, by=None)
    found[ONE_MORE] = _seconds(lambda: learned.reckon(of))
    print(json.dumps(found))


def _seconds(work: Callable[[], object]) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


FIGURES = {NOTHING: ("seconds", lambda: taken()[NOTHING]), ONE_MORE: ("seconds", lambda: taken()[ONE_MORE])}

if __name__ == "__main__":
    main(Path(sys.argv[1]))
