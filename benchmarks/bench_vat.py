"""A vat in process: its recipe, its state without looks and with those of a day, and its faults."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any, Final

import numpy as np

from bluewright.cli.record_command import example_text
from bluewright.science.base.records import read
from bluewright.science.vat.faults import faults
from bluewright.science.vat.faults_record import FaultRecord
from bluewright.science.vat.learn import learn
from bluewright.science.vat.recipe import recipe
from bluewright.science.vat.recipe_record import VatRecipeRecord
from bluewright.science.vat.setting import setting
from bluewright.science.vat.state import state
from bluewright.science.vat.state_record import VatAddition, VatReading, VatRecord

LOOKS: Final = 60


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


def looked_at_daily() -> Callable[[], object]:
    """A fermented vat after a look a day for two months, from nothing."""
    record = _daily(LOOKS)
    return lambda: state(record, rng=np.random.default_rng(1))


def one_look_more() -> Callable[[], object]:
    """The same, sixty looks being known: how it stands after the last one."""
    before = learn(setting(_daily(LOOKS - 1)), rng=np.random.default_rng(1))
    record = _daily(LOOKS)

    def told() -> object:
        learned = learn(setting(record), rng=np.random.default_rng(2), before=before)
        return state(record, rng=np.random.default_rng(1), learned=learned)

    return told


def _daily(looks: int) -> VatRecord:
    start = datetime(2026, 6, 1, 9, tzinfo=UTC)
    added = tuple(
        VatAddition(time=start, what=what, mass_g=grams)
        for what, grams in (("powder", 120.0), ("bran", 40.0), ("madder", 40.0), ("soda_ash", 100.0))
    )
    readings = tuple(
        VatReading(
            time=start + timedelta(days=day + 1), ph=9.3 + 0.1 * (day % 3), liquor_look=min(3, day // 4),
            film=min(2, day // 6), strip_s=12.0 + day % 7,
        )
        for day in range(looks)
    )  # fmt: skip
    return VatRecord(
        kind="ferment", fibre="wool", volume_l=40.0, started=start, now=start + timedelta(days=LOOKS + 1),
        additions=added, readings=readings, hold_c=37.0,
    )  # fmt: skip


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
    "vat: its state after sixty looks, from nothing": looked_at_daily,
    "vat: its state after one look more": one_look_more,
    "vat: what ails it": ailing,
}
