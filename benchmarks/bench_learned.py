"""The garden's memory by the way its pages take: from the rows of 500 finished tubs, and again after one was corrected.

The garden is that of ten seasons (`large_garden.py`), of which the latest 500 tubs teach; of its looks every half hour
those stay that tell signs, ten a tub, as people look.
Each figure is of a process of its own, as a server begins: once from nothing, then after a look was put right. On a
busy machine seconds tell little: what of the processor it took, its workers' too, is told in brackets.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import cache
from pathlib import Path

from bench_pages import Taken, garden

NOTHING, ONE_MORE = "memory: 500 tubs of a journal from nothing", "memory: a journal's tubs after one was corrected"


@cache
def taken() -> dict[str, Taken]:
    """Both, of one process on a copy of the large garden."""
    with tempfile.TemporaryDirectory(prefix="bluewright-bench-") as folder:
        home = Path(folder) / "garden"
        shutil.copytree(garden(), home)
        told = subprocess.run([sys.executable, __file__, home], check=True, stdout=subprocess.PIPE, text=True)
    found = {name: Taken(*took) for name, took in json.loads(told.stdout).items()}
    print(*(f"{name}: {took}" for name, took in found.items()), sep="\n")
    return found


def main(home: Path) -> None:
    """Take both and print them."""
    from bluewright.web import home as folder

    folder.use(home)
    folder.migrate(home)
    from bluewright.journal.actions.keeping import keep
    from bluewright.journal.bridge import learned
    from bluewright.journal.models import Garden, Reading

    Reading.objects.filter(limpness=None)._raw_delete("default")
    of = Garden.objects.get()
    found = {NOTHING: _taken(lambda: learned.reckon(of))}
    steep_key = learned.reckon(of).tubs[-1]
    look = of.steeps.get(pk=steep_key).readings.latest("taken_at")
    look.temp_c, look.temp_typed = 17.3, "17.3 C"
    keep(look, by=None)
    found[ONE_MORE] = _taken(lambda: learned.reckon(of))
    print(json.dumps(found))


def _taken(work: Callable[[], object]) -> tuple[float, float]:
    """Seconds by the clock and of the processor."""
    began, used = time.perf_counter(), _processor_s()
    work()
    return time.perf_counter() - began, _processor_s() - used


def _processor_s() -> float:
    """What this process and its workers, once they ended, took."""
    spent = os.times()
    return spent.user + spent.system + spent.children_user + spent.children_system


FIGURES = {
    NOTHING: ("seconds", lambda: taken()[NOTHING].seconds),
    ONE_MORE: ("seconds", lambda: taken()[ONE_MORE].seconds),
}

if __name__ == "__main__":
    main(Path(sys.argv[1]))
