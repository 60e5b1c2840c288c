"""A vat in process: its recipe, its state without looks and with those of a day, and its faults."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import numpy as np

from bluewright.cli.record_command import example_text
from bluewright.science.base.records import read
from bluewright.science.vat.faults import faults
from bluewright.science.vat.faults_record import FaultRecord
from bluewright.science.vat.recipe import recipe
from bluewright.science.vat.recipe_record import VatRecipeRecord
from bluewright.science.vat.state import state
from bluewright.science.vat.state_record import VatRecord


def a_recipe() -> Callable[[], object]:
    """The example."""
    record = read(VatRecipeRecord, example_text("vat-recipe"))
    return lambda: recipe(record, rng=np.random.default_rng(record.seed))


def unseen() -> Callable[[], object]:
    """The example, nobody having looked."""
    return _ready(json.loads(example_text("vat-state")) | {"readings": []})


def seen() -> Callable[[], object]:
    """The example: three looks, three dips."""
    return _ready(json.loads(example_text("vat-state")))


def ailing() -> Callable[[], object]:
    """The example: seven signs."""
    record = read(FaultRecord, example_text("vat-fault"))
    return lambda: faults(record, rng=np.random.default_rng(record.seed))


def _ready(fields: dict[str, Any]) -> Callable[[], object]:
    record = read(VatRecord, fields)
    return lambda: state(record, rng=np.random.default_rng(record.seed))


BENCHMARKS = {
    "vat: a recipe": a_recipe,
    "vat: its state, nobody having looked": unseen,
    "vat: its state after three looks": seen,
    "vat: what ails it": ailing,
}
