"""The dose of a batch, worked out once for each state of its record and kept while the program runs."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import Final

import numpy as np

from bluewright.science.alkali import dose as dosing
from bluewright.science.alkali.record import DoseAnswer, LiquorRecord
from bluewright.science.base.bands import BandAt

BEYOND: Final = 1.25
"""How far beyond the dose, or the last step of a jar, the curve is drawn."""


@lru_cache(maxsize=64)
def dose(record: LiquorRecord) -> DoseAnswer:
    """The dose for this liquor. Raises ModelError where the alkali cannot reach the wanted pH."""
    return dosing.dose(record, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=64)
def titration(record: LiquorRecord) -> tuple[BandAt, ...]:
    """The pH of the liquor against all alkali in it, to somewhat beyond the dose. Raises ModelError as `dose` does."""
    unit = record.alkali.unit
    added = (record.added_so_far[-1].added(unit) or 0.0) if record.added_so_far else 0.0
    most = BEYOND * (added + dose(record).dose.p95)
    return dosing.titration(record, until_amount=most, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=64)
def jar_titration(record: LiquorRecord) -> tuple[BandAt, ...]:
    """The pH of the jar against what is added to it, through its readings and on to the wanted pH.

    Raises ModelError where no liquor agrees with them.
    """
    jar = record.jar
    if jar is None:
        return ()
    alkali = jar.alkali or record.alkali
    sample_l = jar.sample_ml / 1000.0
    per_l = record.leaf_kg / record.liquor_l if record.leaf_kg is not None else None
    in_jar = replace(
        record, liquor_l=sample_l, alkali=alkali, added_so_far=(), leaf_kg=per_l and per_l * sample_l,
        temp_c=jar.temp_c if jar.temp_c is not None else record.temp_c,
    )  # fmt: skip
    most = jar.steps[-1].added(alkali.unit) or 0.0
    if jar.steps[-1].ph < record.target_ph:
        whole = record if alkali == record.alkali else in_jar
        most = max(most, dose(whole).dose.p95 * sample_l / whole.liquor_l)
    return dosing.titration(in_jar, until_amount=BEYOND * most, rng=np.random.default_rng(record.seed))
