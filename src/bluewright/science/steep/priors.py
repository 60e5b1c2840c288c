"""What is believed of a steep before any reading: one prior a parameter, by plant.

Where several plants share a prior it stands once, in `_SHARED`. The key `steep-fit` marks values fitted so that the
model reproduces published and trade steeping times (listed in the docs, page *Steep*); a `guess` is a judgement.
"""

from __future__ import annotations

import math
from typing import Final

from bluewright.science.base.sourced import Grade, Prior
from bluewright.science.media.basket import Cut, Plant


def _log(centre: float, spread: float, unit: str, source: str, grade: Grade, note: str = "") -> Prior:
    return Prior(kind="lognormal", centre=centre, spread=spread, unit=unit, source=source, grade=grade, note=note)


def _bell(centre: float, spread: float, unit: str, source: str, grade: Grade, note: str = "") -> Prior:
    return Prior(kind="normal", centre=centre, spread=spread, unit=unit, source=source, grade=grade, note=note)


BATCH_KILL_LOG_SD: Final = 0.35
"""Log-sd of the kill rate from batch to batch of the same garden (judgement)."""


def _kill(centre_per_h: float, spread: float) -> Prior:
    note = "slow death of whole or torn leaf under water at 25 C; between-batch scatter of 0.35 included"
    return _log(centre_per_h, math.hypot(spread, BATCH_KILL_LOG_SD), "1/h", "steep-fit", "fitted", note)


_SHARED: Final[dict[str, Prior]] = {
    "kill_q10": _log(2.23, 0.13, "1", "steep-fit", "fitted", "Q10 of the slow kill below 45 C"),
    "heat_kill_48c_per_h": _log(1.4, 0.5, "1/h", "common-practice", "memory", "leaf heat tolerance near 48 C"),
    "microbe_kill_30c_per_h": _log(0.030, 0.5, "1/h", "steep-fit", "fitted", "kill helped by microbes, at 30 C"),
    "leach_25c_per_h": _log(0.9, 0.3, "1/h", "steep-fit", "fitted", "from killed tissue into the water, at 25 C"),
    "cut_scatter": _log(1.0, 0.3, "1", "common-practice", "guess", "how finely the leaf really was cut"),
    "half_mmol_per_l": _log(1.0, 0.7, "mM", "minami-1999", "memory", "Michaelis constant of the leaf's enzyme"),
    "enzyme_loss_60c_per_h": _log(1.0, 0.6, "1/h", "hu-2022", "fitted", "enzyme inactivation at 60 C"),
    "side_loss_25c_per_h": _log(0.0075, 0.45, "1/h", "steep-fit", "fitted", "chemical loss of indoxyl, 25 C, pH 6"),
    "microbe_loss_30c_per_h": _log(0.015, 0.5, "1/h", "steep-fit", "fitted", "loss to a full flora at 30 C"),
    "growth_best_per_h": _log(0.45, 0.3, "1/h", "matejcekova-2019", "measured", "growth of the flora at its best"),
    "flora_start": _log(1e-3, 1.5, "1", "common-practice", "guess", "flora in fresh water, of a full flora"),
    "acid_30c_per_h": _log(0.06, 0.5, "1/h", "steep-fit", "guess", "souring by a full flora at 30 C"),
    "acid_drop_ph": _bell(1.8, 0.5, "pH", "common-practice", "guess", "fall of pH when fully soured"),
    "water_ph": _bell(7.2, 0.4, "pH", "common-practice", "practice", "pH of the water used"),
    "surface_cm_per_h": _log(1.0, 0.7, "cm/h", "common-practice", "memory", "oxygen transfer of a still surface"),
    "leaf_breath_mmol_per_l_h": _log(1.0, 0.4, "mM/h", "common-practice", "memory", "respiration, 0.1 kg/L, 25 C"),
    "flora_breath_mmol_per_l_h": _log(3.0, 0.7, "mM/h", "common-practice", "memory", "respiration of a full flora"),
    "oxidation_ph7_per_mmol_h": _log(8.0, 0.8, "1/(mM h)", "cotson-holt-1958", "memory", "indoxyl + oxygen, 25 C"),
    "brown_25c_per_h": _log(0.006, 0.7, "1/h", "common-practice", "guess", "brown matter leaching"),
    "finish_frac": Prior(
        kind="logitnormal", centre=0.72, spread=0.45, unit="1", source="common-practice", grade="guess",
        note="share of the recoverable indoxyl that good straining, alkali and air turn into indigo",
    ),
}  # fmt: skip

_BY_PLANT: Final[dict[Plant, dict[str, Prior]]] = {
    "woad": {
        "kill_25c_per_h": _kill(0.074, 0.40),
        "enzyme_25c_mmol_per_kg_h": _log(25.0, 0.9, "mmol/(kg h)", "steep-fit", "guess", "splitting rate, 25 C"),
        "self_split_ph7_per_h": _log(0.03, 0.7, "1/h", "epstein-1967", "memory", "isatans split without enzyme"),
        "sap_drop_ph": _bell(0.7, 0.3, "pH", "common-practice", "guess", "fall of pH by the sap, 0.1 kg/L"),
    },
    "japanese_indigo": {
        "kill_25c_per_h": _kill(0.017, 0.40),
        "enzyme_25c_mmol_per_kg_h": _log(240.0, 0.7, "mmol/(kg h)", "hu-2022", "fitted", "splitting rate, 25 C"),
        "sap_drop_ph": _bell(1.2, 0.3, "pH", "common-practice", "guess", "fall of pH by the sap, 0.1 kg/L"),
    },
    "indigofera": {
        "kill_25c_per_h": _kill(0.094, 0.45),
        "enzyme_25c_mmol_per_kg_h": _log(240.0, 0.9, "mmol/(kg h)", "hu-2022", "fitted", "splitting rate, 25 C"),
        "sap_drop_ph": _bell(0.7, 0.3, "pH", "common-practice", "guess", "fall of pH by the sap, 0.1 kg/L"),
    },
}

CUT_FACTOR: Final[dict[Cut, float]] = {"whole": 0.8, "torn": 1.0, "cut": 2.0, "shredded": 4.0}
"""How much faster cut leaf dies and leaches than torn leaf (siitonen-2010: chopping helps; sizes are a guess)."""

FREED_BY_ALKALI_FRAC: Final[dict[Plant, float]] = {"woad": 0.9, "japanese_indigo": 0.0, "indigofera": 0.0}
"""Share of dissolved, unsplit precursor that alkali sets free: isatans of woad yes, indican no (epstein-1967)."""


def priors_of(plant: Plant) -> dict[str, Prior]:
    """All kinetic priors of a plant, by parameter name, in a fixed order."""
    return _SHARED | _BY_PLANT[plant]
