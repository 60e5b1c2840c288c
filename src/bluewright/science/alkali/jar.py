"""A jar titration, or the tub's own readings while it is dosed: which liquors agree with them.

The fit is the balance of charge with amounts of acid at fixed pK that cannot be negative (each is the exponential of
a score), so that a jar titrated with lye foretells a dose of ammonia. The instrument's shared error, the noise of
each reading, the measured volumes and the strength of the bottle are fitted beside the acids: the spread of the
answer then is what the readings leave open.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.alkali import priors
from bluewright.science.alkali.liquor import (
    FAMILIES,
    HIGHEST_PH,
    LOWEST_PH,
    ROW,
    Liquors,
    at_temperature,
    liquors,
    reading_sds,
    temp_draws,
)
from bluewright.science.alkali.posterior import condition
from bluewright.science.alkali.record import LiquorRecord, Step
from bluewright.science.alkali.titrant import Titrant, titrant
from bluewright.science.base.errors import ModelError
from bluewright.science.base.sourced import Floats
from bluewright.science.media.charge import balance, constants, gamma
from bluewright.science.media.dosing import FIRST_IONIC_MOL_PER_L, charge_of_mole, with_added

MISFIT_SD: Final = 3.5
"""A reading farther off than this has been misread, or the alkali was not what it was said to be."""
WIDER: Final = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Titration:
    """Readings in one vessel: amounts added for each litre, and the pH read."""

    titrant: Titrant
    added_per_l: Floats
    ph: Floats
    strength_row: int
    volume_row: int
    volume_sd: float
    temp_c: float | None


def fit(record: LiquorRecord, *, prior_z: Floats, rng: np.random.Generator) -> tuple[Floats, float]:
    """Scores of liquors that agree with the readings of the jar and of the tub (shape (18, members)), and the misfit.

    Formula: the alkali that a liquor needs to reach the pH that was read (less the instrument's errors) is what was
    added. This is linear in the acids where the pH itself is not. The misfit is that of the worst reading, in
    standard deviations of a reading's own noise; beyond `MISFIT_SD` every reading is taken as `WIDER` times as
    uncertain. Raises ModelError where no liquor can be made to agree even so.
    """
    _, own_sd = reading_sds(record)
    try:
        z, misfit = _fit(record, prior_z, rng, own_sd)
    except ModelError:
        misfit = np.inf
    if misfit > MISFIT_SD:
        z, wide = _fit(record, prior_z, rng, WIDER * own_sd)
        misfit = max(WIDER * wide, 2.0 * MISFIT_SD) if misfit == np.inf else misfit
    return z, misfit


def _fit(record: LiquorRecord, prior_z: Floats, rng: np.random.Generator, own_sd: float) -> tuple[Floats, float]:
    titrations = _titrations(record)
    ends = np.cumsum([len(t.ph) for t in titrations])[:-1]
    ionic = [np.full((len(t.ph), prior_z.shape[1]), FIRST_IONIC_MOL_PER_L) for t in titrations]

    def foretell(z: Floats, noise_z: Floats) -> Floats:
        found = liquors(record, z)
        ratios = []
        for number, (titration, error) in enumerate(zip(titrations, np.split(noise_z, ends), strict=True)):
            # Activities from the call before: they hardly change, and the first call moves the members least.
            ratio, ionic[number] = _needed(record, titration, found, z, own_sd * error, ionic[number])
            ratios.append(_stretched(ratio))
        return np.concatenate(ratios)

    value = _stretched(np.ones(sum(len(t.ph) for t in titrations)))
    return condition(foretell, prior_z=prior_z, value=value, rng=rng)


def _stretched(ratio: Floats) -> Floats:
    """Nearly the logarithm above 0.5, straight through 0: needs spread over decades, and may be negative."""
    stretched: Floats = np.arcsinh(ratio / 0.2)
    return stretched


def _titrations(record: LiquorRecord) -> list[_Titration]:
    found = []
    if record.jar is not None:
        alkali = record.jar.alkali or record.alkali
        same = alkali == record.alkali
        found.append(
            _Titration(
                titrant=titrant(alkali),
                added_per_l=_amounts(record.jar.steps) / (record.jar.sample_ml / 1000.0),
                ph=np.array([step.ph for step in record.jar.steps]),
                strength_row=ROW["strength" if same else "jar_strength"],
                volume_row=ROW["jar_volume"],
                volume_sd=priors.JAR_VOLUME_SD.value,
                temp_c=record.jar.temp_c if record.jar.temp_c is not None else record.temp_c,
            )
        )
    if record.added_so_far:
        found.append(
            _Titration(
                titrant=titrant(record.alkali),
                added_per_l=_amounts(record.added_so_far) / record.liquor_l,
                ph=np.array([step.ph for step in record.added_so_far]),
                strength_row=ROW["strength"],
                volume_row=ROW["tub_volume"],
                volume_sd=priors.TUB_VOLUME_SD.value,
                temp_c=record.temp_c,
            )
        )
    return found


def _amounts(steps: tuple[Step, ...]) -> Floats:
    return np.array([step.added_ml if step.added_ml is not None else step.added_g for step in steps], dtype=float)


def _needed(
    record: LiquorRecord, titration: _Titration, found: Liquors, z: Floats, noise_ph: Floats, ionic_mol_per_l: Floats
) -> tuple[Floats, Floats]:
    """Alkali needed to reach the pH that was read, over the alkali added; and the ionic strength then.

    Shapes: (readings, members).
    """
    liquid = found.liquid
    if titration.temp_c != record.temp_c:
        jar_c = temp_draws(z, nominal_c=titration.temp_c)
        liquid = at_temperature(liquid, constants(jar_c, families=FAMILIES))
    kind = titration.titrant.kind
    per_l = titration.added_per_l[:, None] / np.exp(titration.volume_sd * z[titration.volume_row])
    mol = per_l * titration.titrant.mol_per_unit(z[titration.strength_row])
    growth = 1.0 + per_l / 1000.0 if titration.titrant.dissolved else 1.0
    mixed = with_added(liquid, kind=kind, mol_per_l=mol, growth=growth)
    # An error that would carry a reading off the scale of any water is no error of reading.
    ph = np.clip(titration.ph[:, None] - found.bias_ph - noise_ph, LOWEST_PH, HIGHEST_PH)
    activity = gamma(mixed, ionic_mol_per_l)
    there = balance(mixed, ph=ph, activity=activity)
    own = charge_of_mole(kind, mixed, lacking_z=there.lacking_z, ph=ph, activity=activity)
    return 1.0 - there.charge_mol_per_l / (own * mol), there.ionic_mol_per_l
