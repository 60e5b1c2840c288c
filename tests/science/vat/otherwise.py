"""A vat that is built otherwise than the model: for what its bands are worth where the model is wrong.

Reduction of an order between 0.6 and 1.4 that saturates in the reductant, in small steps; each dip takes its own share;
each look has noise in its cue instead of a chance for each level; and the reader is slanted: sees liquors bluer than
they are, and calls a strip late.
"""

from typing import Any

import numpy as np

from bluewright.science.vat.amounts import INDIGO_G_PER_MOL
from bluewright.science.vat.signs import SIGNS
from tests.science.vat.simulated import LOOKS_H, moment, vat

STEP_H = 0.01
END_H = 5.0
REDUCTANT_H = 0.5
DIPS_H = (2.0, 4.0)


def one_otherwise(rng: np.random.Generator) -> tuple[dict[str, float], dict[str, Any]]:
    """What is truly in such a vat at its end, mmol in a litre, and its record with three looks."""
    whole = 61.0 * rng.normal(0.31, 0.03) * 0.95 / INDIGO_G_PER_MOL * 1000.0 / 20.0
    reaches, kept = (1.0 / (1.0 + np.exp(-rng.normal(np.log(p / (1 - p)), sd))) for p, sd in ((0.88, 0.7), (0.75, 0.5)))
    waiting, reduced, taken, electrons, ph = whole * reaches, 0.0, 0.0, 0.0, 9.0 + rng.normal(0.0, 0.5)
    speed, order = 1.5 * np.exp(rng.normal(0.0, 0.5)), rng.uniform(0.6, 1.4)
    dies, film = np.log(2.0) / 8.0 * np.exp(rng.normal(0.0, 0.6)), 0.03 * np.exp(rng.normal(0.0, 0.8))
    slant = {"liquor_look": -0.15, "film": 0.0, "grains_seen": 0.0}
    looks = []
    for step in range(round(END_H / STEP_H) + 1):
        hour, air = round(step * STEP_H, 2), film * STEP_H
        if hour == REDUCTANT_H:
            electrons += 2.0 * 25.0 * kept / 174.1 * 1000.0 / 20.0
        if hour in DIPS_H:
            gone = reduced * rng.uniform(0.06, 0.2)
            reduced, taken, air = reduced - gone, taken + gone, air + 0.24 * np.exp(rng.normal(0.0, 0.6))
        if hour in LOOKS_H:
            cues = {
                "liquor_look": np.log10((reduced + 0.02) / (waiting + 0.02)), "film": np.log10(reduced + 0.02),
                "grains_seen": np.log10(waiting + 0.02),
            }  # fmt: skip
            seen = {
                name: int(np.searchsorted(SIGNS[name].cuts, cue + slant[name] + rng.normal(0.0, 0.28)))  # type: ignore[index]
                for name, cue in cues.items()
            }
            strip_s = 4.0 * (1.0 + 12.0 * electrons / (electrons + 2.0)) * np.exp(0.25 + rng.normal(0.0, 0.5))
            looks.append({"time": moment(hour), "ph": ph + rng.normal(0.0, 0.23), "strip_s": max(strip_s, 1.0)} | seen)
        turned = speed * max(waiting / whole, 1e-9) ** (order - 1.0) * waiting * electrons / (electrons + 1.0) * STEP_H
        turned = min(turned, waiting, electrons / 2.0)
        waiting, reduced, electrons = waiting - turned, reduced + turned, electrons - 2.0 * turned
        electrons *= np.exp(-dies * STEP_H)
        spent = min(electrons, air)
        back = min(reduced, air - spent)
        electrons, reduced, waiting, ph = electrons - spent, reduced - back, waiting + back, ph - 0.3 * STEP_H / 24.0
    grains = whole * (1.0 - reaches)
    truth = {"reduced": reduced, "unreduced": waiting + grains, "all": reduced + waiting + grains, "ph": ph}
    return truth | {"taken": taken}, vat(readings=looks)
