"""Rows of measured jars become a jar record; and a row of what a forecast reads."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from functools import lru_cache
from typing import Any, Final

import numpy as np

from bluewright.journal.models import JarLook, LiquorLook, Reading
from bluewright.science.base.bands import sd_of
from bluewright.science.photo.jar import jar_look
from bluewright.science.photo.jar_record import JarAnswer, JarFound, JarRecord, JarSeen

SAME_DOSE: Final = timedelta(minutes=30)
"""A jar before and after its alkali, by clocks and minutes that people note."""
"""Width of a normal distribution from its 5 to its 95 % point, in standard deviations."""


def jar_record(looks: Sequence[JarLook], *, name: str) -> JarRecord:
    """The looks at a jar, put in the order of their minutes."""
    return JarRecord(id=name, looks=tuple(sorted(map(jar_seen, looks), key=lambda seen: seen.after_min)))


def same_jar(looks: Sequence[JarLook]) -> list[JarLook]:
    """The looks of the latest jar: of a batch all; of a tub those whose alkali went in at about the same time."""
    last = looks[-1]
    if last.steep is None:
        return list(looks)
    return [look for look in looks if abs(_dosed_at(look) - _dosed_at(last)) <= SAME_DOSE]


def _dosed_at(look: JarLook) -> datetime:
    return look.seen_at - timedelta(minutes=look.after_min)


def jar_seen(look: JarLook) -> JarSeen:
    """One look."""
    colours: dict[str, Any] = {
        role: tuple(float(part) for part in sample["lab"])
        for role, sample in zip(look.measured.roles, look.measured.answer["samples"], strict=True)
    }
    return JarSeen(
        after_min=look.after_min,
        stood="shaken" if look.stood == "shaken" else "settled",
        path_cm=look.path_cm,
        dilution_factor=look.dilution_factor,
        foam_blue_frac=look.foam_blue_frac,
        **colours,
    )


@lru_cache(maxsize=64)
def looked_at(record: JarRecord) -> JarAnswer:
    """What the jar says; kept for the record that it answers."""
    return jar_look(record, rng=np.random.default_rng(record.seed))


def read_as(look: JarLook, found: JarFound, *, after_pours: int | None, after_min: float | None) -> Any:
    """The look at tub or liquor that a forecast reads: the dye index with its own spread; None if it was too dark."""
    dye = found.dye_index_per_cm
    if dye is None:
        return None
    index = {"dye_index": dye.p50, "dye_index_sd": sd_of(dye), "taken_at": look.seen_at}
    if look.steep is not None:
        return Reading(steep=look.steep, **index)
    return LiquorLook(batch=look.batch, after_pours=after_pours, after_min=after_min, **index)
