"""Shared by the tests of the dose: records, and true liquors with an instrument that misreads them."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from bluewright.science.alkali.dose import dose
from bluewright.science.alkali.liquor import ROW, SCORES, liquors, reading_sds
from bluewright.science.alkali.priors import JAR_VOLUME_SD, TUB_VOLUME_SD
from bluewright.science.alkali.record import DoseAnswer, LiquorRecord
from bluewright.science.alkali.titrant import titrant
from bluewright.science.base.records import read
from bluewright.science.base.sourced import Floats
from bluewright.science.media.charge import Liquid, solve
from bluewright.science.media.dosing import mol_for_ph, with_added

TUB: dict[str, Any] = {
    "liquor_l": 20.0,
    "temp_c": 18.0,
    "ph": 5.5,
    "target_ph": 9.5,
    "alkali": {"kind": "ammonia", "percent_w_w": 5.0},
    "water": {"alkalinity_mg_caco3_l": 150, "hardness_mg_caco3_l": 180},
}
STEPS = [
    {"added_ml": 0.5, "ph": 7.5},
    {"added_ml": 1.0, "ph": 8.6},
    {"added_ml": 2.0, "ph": 9.4},
    {"added_ml": 3.0, "ph": 9.7},
]
JAR: dict[str, Any] = {"sample_ml": 500, "steps": STEPS}


def record(**fields: Any) -> LiquorRecord:
    return read(LiquorRecord, TUB | fields)


def answer(**fields: Any) -> DoseAnswer:
    return dose(record(**fields), rng=np.random.default_rng(1))


@dataclass(frozen=True, slots=True)
class Truth:
    """One true tub, known to the test alone, and readings of it by one instrument."""

    fields: dict[str, Any]
    liquid: Liquid
    z: Floats
    bias_ph: float
    noise_sd: float
    rng: np.random.Generator

    @property
    def volume_l(self) -> float:
        return float(self.fields["liquor_l"] * np.exp(TUB_VOLUME_SD.value * self.z[ROW["tub_volume"], 0]))

    def mol_per_unit(self) -> Floats:
        return titrant(record(**self.fields).alkali).mol_per_unit(self.z[ROW["strength"]])

    def dose(self) -> float:
        """What truly brings the tub to the target, in the unit of the alkali."""
        made = record(**self.fields)
        used = titrant(made.alkali)
        litres = 0.001 / self.mol_per_unit() if used.dissolved else 0.0
        mol = mol_for_ph(self.liquid, kind=used.kind, ph=made.target_ph, litres_per_mol=litres)
        return float((mol / self.mol_per_unit())[0]) * self.volume_l

    def ph_with(self, amount: float) -> float:
        """The true pH of the tub with so much in it."""
        return float(self._ph(np.array([amount / self.volume_l]))[0])

    def read(self, ph: float) -> float:
        """What the instrument shows for a true pH."""
        return float(np.clip(ph + self.bias_ph + self.noise_sd * self.rng.standard_normal(), 0.0, 14.0))

    def jar(self, *, steps: int) -> dict[str, Any]:
        """A jar titration of half a litre a little past the target."""
        whole = self.dose() / self.volume_l * 0.5
        true_l = 0.5 * float(np.exp(JAR_VOLUME_SD.value * self.z[ROW["jar_volume"], 0]))
        unit = record(**self.fields).alkali.unit
        amounts = [float(v) for v in np.linspace(0.25, 1.25, steps) * whole]
        return {
            "sample_ml": 500,
            "steps": [
                {f"added_{unit}": v, "ph": self.read(ph)}
                for v, ph in zip(amounts, self._ph(np.array(amounts) / true_l), strict=True)
            ],
        }

    def _ph(self, per_l: Floats) -> Floats:
        used = titrant(record(**self.fields).alkali)
        mixed = with_added(
            self.liquid, kind=used.kind, mol_per_l=per_l[:, None] * self.mol_per_unit(),
            growth=1.0 + per_l[:, None] / 1000.0 if used.dissolved else 1.0,
        )  # fmt: skip
        return solve(mixed, start_ph=np.full((len(per_l), 1), 9.0))[0][:, 0]


def truth(rng: np.random.Generator, *, ph_sd: float, **fields: Any) -> Truth:
    """A true tub drawn from what is believed of liquors, with the pH that its instrument shows."""
    z = rng.standard_normal((len(SCORES), 1))
    true_ph = rng.uniform(4.8, 6.2)
    given = TUB | {"ph_sd": ph_sd} | fields
    shared_sd, own_sd = reading_sds(record(**given))
    noise_sd = 0.6 * ph_sd
    z[ROW["reading"]] = rng.standard_normal() * noise_sd / own_sd
    bias_ph = float(shared_sd * z[ROW["bias"], 0])
    given["ph"] = true_ph + bias_ph + own_sd * float(z[ROW["reading"], 0])
    return Truth(
        fields=given, liquid=liquors(record(**given), z).liquid, z=z, bias_ph=bias_ph, noise_sd=noise_sd, rng=rng
    )
