"""What the blue costs and what is left: the example, and a season of a hundred batches with all their notes."""

from __future__ import annotations

import json
from collections.abc import Callable

import numpy as np

from bluewright.cli.record_command import example_text
from bluewright.science.base.records import read
from bluewright.science.cost.call import cost
from bluewright.science.cost.cost_record import CostRecord
from bluewright.science.cost.priors import WORK_KINDS
from bluewright.science.cost.stock import stock
from bluewright.science.cost.stock_record import StockRecord


def example() -> Callable[[], object]:
    """The example of the command."""
    return _ready(json.loads(example_text("cost-blue")))


def season() -> Callable[[], object]:
    """A hundred batches, three kinds of work noted of each."""
    batches = [
        {"id": str(k), "leaf_kg": 5.0 + k % 4, "pigment_g": 20.0 + k % 7, "steep_l": 40.0, "wash_l": 30.0}
        for k in range(100)
    ]
    work = [
        {"kind": WORK_KINDS[1 + (k + j) % 8], "spent_min": 30.0 + k % 9, "batch": str(k)}
        for k in range(100)
        for j in range(3)
    ]
    return _ready({"wage_money_per_h": 12.0, "batches": batches, "work": work})


def shelf() -> Callable[[], object]:
    """The example of what is left."""
    record = read(StockRecord, example_text("stock-left"))
    return lambda: stock(record, rng=np.random.default_rng(record.seed))


def _ready(fields: dict[str, object]) -> Callable[[], object]:
    record = read(CostRecord, fields)
    return lambda: cost(record, rng=np.random.default_rng(record.seed))


BENCHMARKS = {
    "cost: three batches": example,
    "cost: a season of a hundred": season,
    "stock: two jars, two packs": shelf,
}
