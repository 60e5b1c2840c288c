"""Batches drawn from the prior, with the readings that their owner would have taken."""

from typing import Any

import numpy as np

from bluewright.science.air.endpoint import SIGNS, jar_per_cm, level_chances, probe_mg_per_l
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
    """`n` records with signs and a jar read at half of the session, signs, oxygen and a jar now; true minutes left.

    Every jar index has the heavy tails that the model gives it.
    """
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
    jar = {}
    for moment in (0.5, 1.0):
        middle, scale = jar_per_cm(path.exposure[path.row(moment)], truths, at=at, aired_h=moment * truths.done_h)
        jar[moment] = np.clip(middle + scale * rng.logistic(size=n), -10.0, 100.0)
    made = []
    for k in range(n):
        signs = [
            {name: int(rng.choice(4, p=chance[:, k])) for name, chance in chances[moment].items()}
            for moment in (0.5, 1.0)
        ]
        readings = [
            half | {"signs": signs[0], "dye_index": float(jar[0.5][k])},
            now
            | {"signs": signs[1], "dye_index": float(jar[1.0][k])}
            | {"dissolved_oxygen_mg_l": float(min(probe[k], 12.0))},
        ]
        made.append((read(AirRecord, given | {"readings": readings}), float(left_min[k])))
    return made


def jars_of_another_kind(
    rng: np.random.Generator, n: int, way: dict[str, Any], *, fade_per_h: float
) -> list[tuple[AirRecord, float]]:
    """`n` records with four jars and nothing else, whose blue fades at its own rate; and their true minutes left."""
    done_min = 1.6 * way["done_min"]
    given = {"temp_c": 20.0, "ph": 9.5, "indigo_g_per_l": 0.12} | way | {"done_min": done_min}
    minutes = [share * done_min for share in (0.0, 0.25, 0.5, 1.0)]
    blank = read(AirRecord, given | {"readings": [{"after_min": minute} for minute in minutes]})
    z = rng.standard_normal((n, len(CAUSES)))
    at, truths, fresh = scores(z), members(blank, z), np.zeros(n)
    path = course(blank, truths)
    rate, goal = rate_l_per_mmol_h(truths, float(ph_read(blank, 1.0))), exposure_for(0.95)
    ahead = onward(truths.batch, path.now, rate_l_per_mmol_h=rate, to_exposure=goal, least_h=0.3)
    none, _ = jar_per_cm(fresh, truths, at=at, aired_h=fresh)
    rows = []
    for minute in minutes:
        middle, scale = jar_per_cm(path.exposure[path.row(minute / done_min)], truths, at=at, aired_h=fresh)
        faded = none + (middle - none) * np.exp(-fade_per_h * minute / 60.0)
        rows.append(np.clip(faded + scale * rng.logistic(size=n), -10.0, 100.0))
    return [
        (
            read(
                AirRecord,
                given
                | {
                    "readings": [
                        {"after_min": m, "dye_index": float(row[k])} for m, row in zip(minutes, rows, strict=True)
                    ]
                },
            ),
            float(60.0 * ahead.reaches_h(goal)[k]),
        )
        for k in range(n)
    ]
