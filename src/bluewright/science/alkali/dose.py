"""The dose: how much alkali, in which parts, and what it does beside."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from bluewright.science.alkali import hazards, limits, priors
from bluewright.science.alkali.jar import MISFIT_SD, fit
from bluewright.science.alkali.liquor import ROW, Liquors, latin_scores, liquors
from bluewright.science.alkali.record import Dose, DoseAnswer, LiquorRecord
from bluewright.science.alkali.room import above_liquor_ppm, room_ppm
from bluewright.science.alkali.titrant import Titrant, titrant
from bluewright.science.base.bands import Band, BandAt, band, curve, quantiles, significant
from bluewright.science.base.sourced import Floats
from bluewright.science.media.alkalis import KINDS
from bluewright.science.media.ammonia import GAS_FILM_MM_PER_S
from bluewright.science.media.calcite import CALCITE_G_PER_MOL, lime_water_ph
from bluewright.science.media.charge import Liquid, solve
from bluewright.science.media.dosing import mol_for_ph, with_added
from bluewright.science.media.tub import surface_m2 as open_surface_m2

DRAWS: Final = 320
TITRATION_POINTS: Final = 36
SAFE_SHARE: Final = 2.0 / 3.0
"""Share of the dose that goes in before the next reading (common practice: most of it, never all)."""
SMALL_REST: Final = 0.2
"""A rest smaller than this share of what is in already goes in at once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tub:
    """The possible tubs, ready to be dosed; arrays of shape (members,)."""

    possible: Liquors
    titrant: Titrant
    mol_per_unit: Floats
    volume_l: Floats

    def dosed(self, amount: float) -> Liquid:
        """The liquors with so many millilitres or grams in them in all."""
        per_l = amount / self.volume_l
        growth = 1.0 + per_l / 1000.0 if self.titrant.dissolved else 1.0
        return with_added(
            self.possible.liquid, kind=self.titrant.kind, mol_per_l=per_l * self.mol_per_unit, growth=growth
        )


def dose(record: LiquorRecord, *, rng: np.random.Generator) -> DoseAnswer:
    """The dose that brings the liquor to the target pH, its safe first part, and its side effects.

    Formula: for each of 320 possible liquors the moles follow from the balance of charge at the target
    (`dosing.mol_for_ph`); dose = moles * litres / moles in a millilitre or gram, less what is in already.
    Studied for liquors of pH 4 to 8, 2 to 50 C and targets up to 11.5; beyond, the answer carries a caution.
    Raises InputError (from the record) for impossible values and ModelError where the alkali cannot reach the target.
    Sources: those of the pK curves (`media.acids`), Davies 1962; the liquor's acids are judgements (`priors`).
    """
    z, misfit = _scores(record, rng)
    tub = _tub(record, z)
    added = (record.added_so_far[-1].added(record.alkali.unit) or 0.0) if record.added_so_far else 0.0
    total = _total(record, tub)
    ceiling = limits.ceiling(record)
    limits.check_reachable(record, total, ceiling)
    rest = quantiles(np.maximum(np.minimum(total, ceiling) - added, 0.0), [0.05, 0.5, 0.95])
    amount = Dose(unit=record.alkali.unit, p5=_round(rest[0]), p50=_round(rest[1]), p95=_round(rest[2]))
    after, balanced = solve(tub.dosed(added + amount.p50), start_ph=np.full(DRAWS, record.target_ph), within_ph=1e-3)
    doubled, _ = solve(tub.dosed(added + 2.0 * amount.p50), start_ph=after + 0.3, within_ph=1e-3)
    after, doubled = _undissolved(tub, after), _undissolved(tub, doubled)
    after_ph, doubled_ph = band(after), band(doubled)
    chalk = band(balanced.calcite_mol_per_l * tub.volume_l * CALCITE_G_PER_MOL.value)
    above_ppm, in_room = _ammonia(record, tub, added + amount.p50, after, z)
    return DoseAnswer(
        id=record.id,
        dose=amount,
        first_part=_first_part(amount, added, runaway=tub.titrant.kind.runaway),
        ph_after=after_ph,
        ph_if_doubled=doubled_ph,
        calcite_g=chalk,
        ammonia_room_ppm=in_room,
        limits=limits.limits(record, total, ceiling),
        basis="readings" if record.jar is not None or record.added_so_far else "prior",
        inputs=record,
        cautions=hazards.cautions(
            record,
            hazards.Effects(
                dose=amount, after_ph=after_ph, doubled_ph=doubled_ph, calcite_g=chalk, misfit_sd=misfit,
                above_ppm=above_ppm, room_ppm=in_room,
            ),
        ),
        sources=_sources(record),
    )  # fmt: skip


def titration(record: LiquorRecord, *, until_amount: float, rng: np.random.Generator) -> tuple[BandAt, ...]:
    """The pH of the tub against the alkali in it, from none to `until_amount` in the unit of the dose.

    The same possible liquors as in `dose`, each solved along the way. Raises InputError and ModelError as `dose` does.
    """
    tub = _tub(record, _scores(record, rng)[0])
    amounts = np.linspace(0.0, until_amount, TITRATION_POINTS)
    ph = np.full(DRAWS, record.ph or 6.0)
    rows = []
    for amount in amounts:
        ph, _ = solve(tub.dosed(float(amount)), start_ph=ph, within_ph=1e-3)
        rows.append(_undissolved(tub, ph))
    return curve(amounts, np.stack(rows, axis=1))


def _undissolved(tub: _Tub, ph: Floats) -> Floats:
    """The pH with the rest of the lime on the bottom: more than dissolves raises it no further."""
    if not tub.titrant.kind.calcium:
        return ph
    return np.minimum(ph, lime_water_ph(float(np.mean(tub.possible.temp_c))))


def _scores(record: LiquorRecord, rng: np.random.Generator) -> tuple[Floats, float]:
    """Scores of the possible liquors after all readings, and the misfit of those."""
    z = latin_scores(rng, DRAWS)
    return _fitted(record, z, rng) if record.jar is not None or record.added_so_far else (z, 0.0)


def _fitted(record: LiquorRecord, prior_z: Floats, rng: np.random.Generator) -> tuple[Floats, float]:
    """Scores that agree with the readings, and their misfit; if they disagree, with the tub's last reading alone."""
    z, misfit = fit(record, prior_z=prior_z, rng=rng)
    if misfit > MISFIT_SD and record.added_so_far and (record.jar or len(record.added_so_far) > 1):
        z, _ = fit(replace(record, jar=None, added_so_far=record.added_so_far[-1:]), prior_z=prior_z, rng=rng)
    return z, misfit


def _tub(record: LiquorRecord, z: Floats) -> _Tub:
    made = titrant(record.alkali)
    return _Tub(
        possible=liquors(record, z),
        titrant=made,
        mol_per_unit=made.mol_per_unit(z[ROW["strength"]]),
        volume_l=record.liquor_l * np.exp(priors.TUB_VOLUME_SD.value * z[ROW["tub_volume"]]),
    )


def _total(record: LiquorRecord, tub: _Tub) -> Floats:
    """Millilitres or grams that bring each liquor from no alkali to the target; infinite where none can."""
    litres_per_mol = 0.001 / tub.mol_per_unit if tub.titrant.dissolved else 0.0
    mol = mol_for_ph(
        tub.possible.liquid, kind=tub.titrant.kind, ph=record.target_ph, litres_per_mol=litres_per_mol
    )  # fmt: skip
    return mol * tub.volume_l / tub.mol_per_unit


def _round(amount: float) -> float:
    return significant(amount, 3)


def _first_part(amount: Dose, added: float, *, runaway: bool) -> float:
    """Two thirds; of lye and lime never more than the amount that is enough in one case of twenty."""
    if 0.0 < amount.p50 <= SMALL_REST * added:
        return amount.p50
    part = SAFE_SHARE * amount.p50
    return _round(min(part, amount.p5) if runaway else part)


def _ammonia(record: LiquorRecord, tub: _Tub, amount: float, ph: Floats, z: Floats) -> tuple[float | None, Band | None]:
    """Ammonia just above the liquor (middle), and in the room if one is given, ppm; nothing for other alkalis."""
    if record.alkali.kind != "ammonia":
        return None, None
    in_liquor = amount * tub.mol_per_unit / (tub.volume_l + amount / 1000.0)
    above = above_liquor_ppm(in_liquor, ph=ph, temp_c=tub.possible.temp_c)
    middle = float(np.median(above))
    if record.room is None:
        return middle, None
    surface_m2 = record.surface_m2 or open_surface_m2(record.liquor_l)
    return middle, band(room_ppm(above, room=record.room, surface_m2=surface_m2, z=z[ROW["transfer"]]), digits=3)


def _sources(record: LiquorRecord) -> tuple[str, ...]:
    alkali = record.alkali
    own = {"sander-2023", "laliberte-2009"} if alkali.kind == "ammonia" else set()
    if KINDS[alkali.kind].solute is not None and alkali.percent_w_w is not None:
        own |= {"laliberte-2009"}
    if alkali.kind == "slaked_lime" or (alkali.unit == "g" and KINDS[alkali.kind].solubility_by_c):
        own |= {"seidell-1940"}
    if alkali.kind == "ammonia" and record.room is not None:
        own |= {GAS_FILM_MM_PER_S.source}
    fitted = ("emerick-reynolds-2013",) if record.jar is not None or record.added_so_far else ()
    acids = ("bates-pinching-1949", "plummer-busenberg-1982", "goldberg-2002", "davies-1962")
    return (*acids, *sorted(own), *fitted, "common-practice")
