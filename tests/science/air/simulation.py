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


def batches(rng: np.random.Generator, n: int, way: dict[str, Any]) -> list[tuple[AirRecord, float]]:
    """`n` records with signs read at half of the session and signs and oxygen now, and their true minutes left."""
    half, now = {"after_min": way["done_min"] / 2}, {"after_min": way["done_min"]}
    given = {"temp_c": 20.0, "ph": 9.5, "indigo_g_per_l": 0.12} | way
    blank = read(AirRecord, given | {"readings": [half, now]})
    z = rng.standard_normal((n, len(CAUSES)))
    at, truths = scores(z), members(blank, z)
    path = course(blank, truths)
    rate = rate_l_per_mmol_h(truths, float(ph_read(blank, 1.0)))
    goal = exposure_for(0.95)
    left_min = 60.0 * onward(truths.batch, path.now, rate_l_per_mmol_h=rate, to_exposure=goal, least_h=0.3).reaches_h(
        goal
    )
    chances = {
        moment: {name: level_chances(name, path.exposure[path.row(moment)], at=at) for name in SIGNS}
        for moment in (0.5, 1.0)
    }
    shown, width = probe_mg_per_l(path.now.oxygen_mmol_per_l, at=at)
    probe = np.maximum(shown + width * rng.logistic(size=n), 0.0)
    made = []
    for k in range(n):
        signs = [
            {name: int(rng.choice(4, p=chance[:, k])) for name, chance in chances[moment].items()}
            for moment in (0.5, 1.0)
        ]
        readings = [
            half | {"signs": signs[0]},
            now | {"signs": signs[1], "dissolved_oxygen_mg_l": float(min(probe[k], 12.0))},
        ]
        made.append((read(AirRecord, given | {"readings": readings}), float(left_min[k])))
    return made
