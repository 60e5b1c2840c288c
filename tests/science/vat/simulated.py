"""Vats drawn from the model itself, with looks that its own signs give: for calibration and recovery."""

from datetime import UTC, datetime, timedelta
from typing import Any

import numpy as np

from bluewright.science.base.levels import level_chance
from bluewright.science.base.records import read
from bluewright.science.base.sourced import Floats
from bluewright.science.vat.course import Course, run
from bluewright.science.vat.setting import Setting, setting
from bluewright.science.vat.signs import SIGNS, potential_mv, strip_s
from bluewright.science.vat.state_priors import MV_SD, PH_SD, STRIP_LOG_SD
from bluewright.science.vat.state_record import VatRecord

START = datetime(2026, 8, 22, 9, tzinfo=UTC)
LOOKS_H = (1.5, 3.0, 5.0)


def moment(hours: float) -> str:
    return (START + timedelta(hours=hours)).isoformat()


def vat(**fields: Any) -> dict[str, Any]:
    """A dithionite vat with 61 g of powder, two dips of wool."""
    plain: dict[str, Any] = {
        "kind": "dithionite", "fibre": "wool", "volume_l": 20.0, "started": moment(0), "now": moment(5.0),
        "hold_c": 50.0,
        "additions": [
            {"time": moment(0), "what": "powder", "mass_g": 61.0, "purity": {"mean_frac": 0.31, "sd_frac": 0.03}},
            {"time": moment(0), "what": "soda_ash", "mass_g": 30.0},
            {"time": moment(0.5), "what": "dithionite", "mass_g": 25.0},
        ],
        "dips": [
            {"time": moment(2.0), "cloth_kg": 0.4, "fibre": "wool"},
            {"time": moment(4.0), "cloth_kg": 0.4, "fibre": "wool"},
        ],
    }  # fmt: skip
    return plain | fields


def made(**fields: Any) -> Setting:
    return setting(read(VatRecord, vat(**fields)))


def one_truth(base: Setting, rng: np.random.Generator) -> tuple[Floats, Course, dict[str, Any]]:
    """Scores of a true vat, its course, and a record with three looks that it gave."""
    z = rng.standard_normal((1, len(base.names)))
    blank = made(readings=[{"time": moment(hour)} for hour in LOOKS_H])
    course, batch = run(blank, z), blank.batch(z)
    looks = []
    for hour in LOOKS_H:
        now = course.at(hour)
        look: dict[str, Any] = {"time": moment(hour)}
        for name, sign in SIGNS.items():
            cue = sign.cue(now) + batch[f"{name}_offset"]
            chances = [float(level_chance(cue, cuts=sign.cuts, slope=sign.slope, level=level)[0]) for level in range(4)]
            look[name] = int(rng.choice(4, p=np.array(chances) / sum(chances)))
        look["ph"] = float(np.clip(now.ph[0] + batch["ph_bias"][0] + PH_SD.value * rng.standard_normal(), 0, 14))
        look["potential_mv"] = float(potential_mv(now)[0] + batch["mv_bias"][0] + MV_SD.value * rng.standard_normal())
        look["electrode"] = "she"
        log_s = np.log(strip_s(now)[0]) + batch["strip_bias"][0] + STRIP_LOG_SD.value * rng.standard_normal()
        look["strip_s"] = float(max(np.exp(log_s), 1.0))
        looks.append(look)
    return z, course, vat(readings=looks)
