"""Batches drawn from the prior, with the readings that their owner would have taken."""

from typing import Any

import numpy as np

from bluewright.science.air.endpoint import SIGNS, level_chances, probe_mg_per_l
from bluewright.science.air.members import CAUSES, course, members, ph_read, rate_l_per_mmol_h, scores
from bluewright.science.air.oxidation import exposure_for, onward
from bluewright.science.air.record import AirRecord
from bluewright.science.base.records import read

WAYS: list[dict[str, Any]] = [
    {"whisk": {}, "liquor_l": 20.0, "done_min": 14.0},
    {"pour": {"height_m": 0.6}, "liquor_l": 10.0, "done_min": 18.0},
    {"bubble": {"air_l_per_min": 10.0, "bubbles": "fine"}, "liquor_l": 20.0, "done_min": 25.0},
    {"paddle": {}, "liquor_l": 40.0, "done_min": 20.0},
]


def batch(rng: np.random.Generator, way: int) -> tuple[AirRecord, float]:
    """A record with simulated readings at a third, two thirds and all of the session, and the true minutes left."""
    done_min = WAYS[way]["done_min"]
    blank = {"temp_c": 20.0, "ph": 9.5, "indigo_g_per_l": 0.12} | WAYS[way]
    blank["readings"] = [{"after_min": done_min * part} for part in (1 / 3, 2 / 3, 1.0)]
    record = read(AirRecord, blank)
    z = rng.standard_normal((1, len(CAUSES)))
    at, truth = scores(z), members(record, z)
    path = course(record, truth)
    for reading, made in zip(record.readings, blank["readings"], strict=True):
        row = path.row(record.session_frac(reading))
        made["signs"] = {
            name: int(rng.choice(4, p=level_chances(name, path.exposure[row], at=at)[:, 0])) for name in SIGNS
        }
        shown, width = probe_mg_per_l(path.oxygen_mmol_per_l[row], at=at)
        made["dissolved_oxygen_mg_l"] = float(max(0.0, shown[0] + width[0] * rng.logistic()))
    future = onward(
        truth.batch,
        path.now,
        rate_l_per_mmol_h=rate_l_per_mmol_h(truth, float(ph_read(record, 1.0))),
        to_exposure=exposure_for(0.95),
        least_h=0.3,
    )
    return read(AirRecord, blank), float(60.0 * future.reaches_h(exposure_for(0.95))[0])
