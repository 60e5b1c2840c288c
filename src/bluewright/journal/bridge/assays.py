"""Assays become records of the science and back; all that is known of a jar's purity becomes one figure, or none."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final

import numpy as np

from bluewright import __version__
from bluewright.journal.models import Assay, Jar
from bluewright.science.assay.ash import ash
from bluewright.science.assay.ash_record import AshRecord
from bluewright.science.assay.combine import combine
from bluewright.science.assay.combine_record import CombineAnswer, CombineRecord, Result
from bluewright.science.assay.dyeing import dyeing
from bluewright.science.assay.dyeing_record import DyeingRecord
from bluewright.science.assay.led import led
from bluewright.science.assay.led_record import LedRecord
from bluewright.science.assay.powder import powder
from bluewright.science.assay.powder_record import PowderRecord
from bluewright.science.assay.spectrum import spectrum
from bluewright.science.assay.spectrum_record import SpectrumRecord
from bluewright.science.assay.titration import titration
from bluewright.science.assay.titration_record import TitrationRecord
from bluewright.science.base.bands import Band, sd_of
from bluewright.science.base.records import dump, read
from bluewright.science.media.purity import Known

PURITY_SD_FRAC: Final = 0.05
"""Standard deviation of a purity that was typed without one (a guess)."""
LEAST, MOST = 0.001, 0.999
"""Shares of indigo that a result may say."""
GIVEN: Final = "given"
"""The method of a purity that was typed with the jar."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """The science of one method."""

    record: type
    compute: Callable[..., Any]


WAYS: Final[Mapping[str, Way]] = {
    "spectrum": Way(record=SpectrumRecord, compute=spectrum),
    "led": Way(record=LedRecord, compute=led),
    "dyeing": Way(record=DyeingRecord, compute=dyeing),
    "titration": Way(record=TitrationRecord, compute=titration),
    "ash": Way(record=AshRecord, compute=ash),
    "powder": Way(record=PowderRecord, compute=powder),
}
"""By method."""


def answer(assay: Assay) -> Any:
    """What an assay says; raises InputError and ModelError as the science does."""
    return _answer(assay.method, json.dumps(assay.record, sort_keys=True))


def found_now(assay: Assay) -> Any:
    """Answer an assay's record and write the answer into its columns, to be kept; raises as the science does."""
    found = answer(assay)
    assay.answer = {name: value for name, value in dump(found).items() if name != "inputs"}
    assay.program = __version__
    share = told(found)
    assay.indigo_frac, assay.indigo_sd_frac = share if share is not None else (None, None)
    assay.at_most = assay.method == "ash" or getattr(found, "bound", "about") == "at_most"
    return found


def together(jar: Jar) -> CombineAnswer | None:
    """What all results for a jar say together; None where there is none. Its `assays` are read."""
    results = tuple(_results(jar))
    return _combined(CombineRecord(id=jar.name, results=results, seed=jar.seed)) if results else None


def purity(jar: Jar) -> Known | None:
    """The purity of a jar as far as it is known: by its assays and what was typed, if they agree; else None."""
    if not jar.assays.all():
        return typed(jar.purity_frac, jar.purity_sd_frac)
    found = together(jar)
    if found is None or found.indigo_pct is None:
        return None
    return Known(
        mean_frac=found.indigo_pct.p50 / 100,
        sd_frac=min(max(sd_of(found.indigo_pct) / 100, LEAST), 0.5),
    )


def typed(purity_frac: float | None, purity_sd_frac: float | None) -> Known | None:
    """The purity that was typed with a jar; None where none was."""
    if purity_frac is None:
        return None
    return Known(mean_frac=purity_frac, sd_frac=purity_sd_frac or PURITY_SD_FRAC)


def _results(jar: Jar) -> list[Result]:
    """What was typed with the jar, then its assays that told a figure."""
    found = []
    known = typed(jar.purity_frac, jar.purity_sd_frac)
    if known is not None:
        found.append(Result(method=GIVEN, indigo_frac=known.mean_frac, sd_frac=known.sd_frac))
    for one in jar.assays.all():
        if one.indigo_frac is not None and one.indigo_sd_frac is not None:
            frac, sd = one.indigo_frac, one.indigo_sd_frac
            found.append(Result(method=one.method, indigo_frac=frac, sd_frac=sd, at_most=one.at_most))
    return found


def told(found: Any) -> tuple[float, float] | None:
    """Middle and standard deviation of the share that an answer tells; None where it tells none."""
    pct: Band | None = found.most_pct if hasattr(found, "most_pct") else found.indigo_pct
    if pct is None:
        return None
    sd = sd_of(pct) / 100
    return min(max(pct.p50 / 100, LEAST), MOST), min(max(sd, LEAST), 0.5)


@lru_cache(maxsize=128)
def _answer(method: str, record: str) -> Any:
    made: Any = read(WAYS[method].record, record)
    return WAYS[method].compute(made, rng=np.random.default_rng(made.seed))


@lru_cache(maxsize=512)
def _combined(record: CombineRecord) -> CombineAnswer:
    return combine(record, rng=np.random.default_rng(record.seed))
