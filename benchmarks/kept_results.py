"""Results of a study kept one a line while it runs, so that hours of work can be stopped and gone on with."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from concurrent.futures import as_completed
from pathlib import Path
from typing import Any

from bluewright.workers import cores, workers

Plain = dict[str, Any]


def gathered(work: Callable[..., Plain], asked: Sequence[tuple[Any, ...]], *, keep: Path) -> list[Plain]:
    """The result of each piece of work, from the file where it is kept already, else made on every core and kept."""
    done: dict[str, Plain] = {}
    if keep.exists():
        for line in keep.read_text("utf-8").splitlines():
            one = json.loads(line)
            done[json.dumps(one["asked"])] = one["found"]
    missing = [each for each in asked if json.dumps(each) not in done]
    with workers(cores()) as pool, keep.open("a", encoding="utf-8") as file:
        running = {pool.submit(work, *each): each for each in missing}
        for one in as_completed(running):
            done[json.dumps(running[one])] = one.result()
            file.write(json.dumps({"asked": running[one], "found": one.result()}) + "\n")
            file.flush()
    return [done[json.dumps(each)] for each in asked]
