"""The answers of the work from airing to dry paste, each kept for the record it answers: many pages ask the same."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from bluewright.science.air.answer import AirAnswer
from bluewright.science.air.finish import airing
from bluewright.science.air.record import AirRecord
from bluewright.science.settle.acid import acid_wash
from bluewright.science.settle.acid_record import AcidAnswer, AcidRecord
from bluewright.science.settle.drying import dry
from bluewright.science.settle.drying_record import DryAnswer, DryRecord
from bluewright.science.settle.interface import settle
from bluewright.science.settle.interface_record import SettleAnswer, SettleRecord
from bluewright.science.settle.wash import plan
from bluewright.science.settle.wash_record import WashAnswer, WashRecord


@lru_cache(maxsize=64)
def aired(record: AirRecord) -> AirAnswer:
    """How long to air. Raises InputError and ModelError as the science does, like the others here."""
    return airing(record, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=128)
def settled(record: SettleRecord) -> SettleAnswer:
    """When to decant."""
    return settle(record, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=128)
def washed(record: WashRecord) -> WashAnswer:
    """How many washes."""
    return plan(record, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=128)
def freed(record: AcidRecord) -> AcidAnswer:
    """How much acid."""
    return acid_wash(record, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=128)
def dried(record: DryRecord) -> DryAnswer:
    """When it is dry."""
    return dry(record, rng=np.random.default_rng(record.seed))
