"""The assays of the invented season: what was read is drawn from a purity that the jar is pretended to have."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any, Final

import numpy as np

from bluewright.journal.actions import assays as actions
from bluewright.journal.bridge import assays as bridge
from bluewright.journal.models import Assay, Jar
from bluewright.science.base.sourced import Floats

NM: Final = np.arange(500.0, 751.0, 10.0)
SAMPLE_MG, VOLUME_ML, DILUTION = 24.0, 100.0, 10.0
STANDARD_MG_PER_L, STANDARD_PEAK = 5.8, 0.47
NOISE: Final = 0.002
STRENGTHS: Final = {"standard": (20.0, 40.0, 80.0), "sample": (60.0, 120.0, 240.0)}
SCATTER: Final = 0.07
DEPTH_AT_20_MG: Final = 2.2
SLOPE: Final = 0.86
STANDARD_FRAC: Final = 0.95


def assay(jar: Jar, *, method: str, indigo_frac: float, at: datetime, by: Any, rng: np.random.Generator) -> None:
    """Write one assay of a jar that holds so much indigo."""
    typed = _spectrum(indigo_frac, rng) if method == "spectrum" else _dyeing(indigo_frac, rng)
    record = {"id": jar.name, "seed": jar.seed, **_RECORDS[method](typed)}
    row = Assay(jar=jar, method=method, assayed_at=at, typed=typed, record=record)
    bridge.found_now(row)
    actions.keep(row, by=by)


def _blue() -> Floats:
    return np.exp(-0.5 * ((NM - 619.0) / np.where(NM < 619.0, 44.0, 27.0)) ** 2)


def _spectrum(indigo_frac: float, rng: np.random.Generator) -> dict[str, str]:
    """What was typed of a spectrum in DMSO beside a standard, with a little haze and indirubin."""
    mg_per_l = indigo_frac * 0.95 * SAMPLE_MG / VOLUME_ML * 1000 / DILUTION
    red = np.exp(-0.5 * ((NM - 548.0) / np.where(NM < 548.0, 50.0, 27.0)) ** 2)
    read = mg_per_l / STANDARD_MG_PER_L * STANDARD_PEAK * (_blue() + 0.05 * red) + 0.015 * (700 / NM) ** 2
    noisy = read + NOISE * rng.standard_normal(len(NM))
    return {
        "solvent": "dmso", "sample_mg": f"{SAMPLE_MG:g}", "volume": f"{VOLUME_ML:g} mL",
        "dilution_factor": f"{DILUTION:g}", "path_cm": "1", "standard.indigo_mg_per_l": f"{STANDARD_MG_PER_L:g}",
        "table": _table(noisy), "standard_table": _table(STANDARD_PEAK * _blue()),
    }  # fmt: skip


def _table(values: Floats) -> str:
    return "wavelength_nm,absorbance\n" + "".join(f"{at:g},{value:.3f}\n" for at, value in zip(NM, values, strict=True))


def _dyeing(indigo_frac: float, rng: np.random.Generator) -> dict[str, str]:
    """What was typed of twelve swatches, two at each of three amounts."""
    typed, number = {"standard": f"{100 * STANDARD_FRAC:g}%", "standard_sd": "2%"}, 0
    for of, masses in STRENGTHS.items():
        strength = 1.0 if of == "standard" else indigo_frac * 0.95 / STANDARD_FRAC
        for mass in np.repeat(masses, 2):
            depth = DEPTH_AT_20_MG * (strength * mass / 20.0) ** SLOPE * np.exp(SCATTER * rng.standard_normal())
            row = {"of": of, "pigment_mg": f"{mass:g}", "k_over_s": f"{depth:.2f}"}
            typed |= {f"swatches.{number}.{name}": text for name, text in row.items()}
            number += 1
    return typed


def _of_spectrum(typed: Mapping[str, str]) -> dict[str, Any]:
    return {
        "solvent": typed["solvent"], "sample_mg": SAMPLE_MG, "volume_ml": VOLUME_ML, "dilution_factor": DILUTION,
        "points": _points(typed["table"]),
        "standard": {"indigo_mg_per_l": STANDARD_MG_PER_L, "points": _points(typed["standard_table"])},
    }  # fmt: skip


def _points(table: str) -> list[dict[str, float]]:
    rows = [line.split(",") for line in table.splitlines()[1:]]
    return [{"wavelength_nm": float(at), "absorbance": float(value)} for at, value in rows]


def _of_dyeing(typed: Mapping[str, str]) -> dict[str, Any]:
    many = len([name for name in typed if name.endswith(".of")])
    swatches = [
        {
            "of": typed[f"swatches.{k}.of"], "pigment_mg": float(typed[f"swatches.{k}.pigment_mg"]),
            "k_over_s": float(typed[f"swatches.{k}.k_over_s"]),
        }
        for k in range(many)
    ]  # fmt: skip
    return {"standard_frac": STANDARD_FRAC, "standard_sd_frac": 0.02, "swatches": swatches}


_RECORDS: Final = {"spectrum": _of_spectrum, "dyeing": _of_dyeing}
