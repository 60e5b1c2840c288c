"""The garden's memory: what one batch says, a garden of 500 batches joined, and one batch more.

Batches are those of the packaged example, moved in time, bed and tub.
"""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from datetime import timedelta
from importlib import resources

from bluewright.science.base.records import read
from bluewright.science.memory.garden import answer, learned, read_batches
from bluewright.science.memory.record import Batch, GardenRecord

TEXT = resources.files("bluewright").joinpath("examples", "learned.json").read_text("utf-8")


def large(batches: int) -> GardenRecord:
    """A garden of ten seasons."""
    small = read(GardenRecord, TEXT)
    return replace(small, batches=tuple(_moved(small.batches[k % len(small.batches)], k) for k in range(batches)))


def _moved(batch: Batch, number: int) -> Batch:
    by = timedelta(days=365 * (number // 50) + number % 40)
    steep = batch.steep
    moved = replace(
        steep,
        started=steep.started + by,
        now=steep.now + by,
        temps=tuple(replace(temp, time=temp.time + by) for temp in steep.temps),
        readings=tuple(replace(reading, time=reading.time + by) for reading in steep.readings),
    )
    known = None if batch.known_at is None else batch.known_at + by
    return replace(
        batch, steep=moved, strained=batch.strained + by, known_at=known, bed=f"bed {number % 10}",
        tub=f"tub {number % 5}", left_out=None,
    )  # fmt: skip


def refit() -> Callable[[], object]:
    """All 500 from nothing, on every core, with every forecast looked back at."""
    record = large(500)

    def work() -> object:
        with ProcessPoolExecutor() as pool:
            known, _ = read_batches(record.batches, run=lambda one, batches: pool.map(one, batches, chunksize=8))
        return answer(learned(record, known=known))

    return work


def one_more() -> Callable[[], object]:
    """499 messages kept, one batch new: its message, and what is believed then."""
    record = large(500)
    few, _ = read_batches(record.batches[:5])
    known = {k: few[k % 5] for k in range(499)}
    return lambda: learned(record, known=known)


BENCHMARKS = {"memory: 500 batches from nothing": refit, "memory: one batch more beside 499": one_more}
