"""A plan in process: from a few wants with a climate and own figures, and from many wants without a place."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import numpy as np

from bluewright.cli.record_command import example_text
from bluewright.science.base.records import read
from bluewright.science.plan.chain_record import ClothPlanRecord
from bluewright.science.thread import plan_cloth


def with_a_climate() -> Callable[[], object]:
    """The example: three wants, a jar, a vat, own batches, a climate."""
    return _ready(json.loads(example_text("plan-cloth")))


def many_wants() -> Callable[[], object]:
    """Twenty wants, no place."""
    fields: dict[str, Any] = json.loads(example_text("plan-cloth"))
    fields.pop("weather")
    return _ready(fields | {"cloth": fields["cloth"] * 8, "pigment": fields["pigment"] * 4})


def _ready(fields: dict[str, Any]) -> Callable[[], object]:
    record = read(ClothPlanRecord, fields)
    return lambda: plan_cloth(record, rng=np.random.default_rng(record.seed))


BENCHMARKS = {"plan: three wants with a climate": with_a_climate, "plan: twenty wants": many_wants}
