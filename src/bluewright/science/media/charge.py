"""What is the pH of a liquor whose acids, bases and salts are known: the balance of charge.

Every quantity is counted for one litre of the liquor as it was before anything was added; `growth` is how many
litres that litre has become. Everything is an array over members (draws), so that a thousand possible liquors cost
little more than one. The liquor is closed: no CO2 or ammonia leaves it here.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.errors import ModelError
from bluewright.science.base.sourced import Floats
from bluewright.science.base.units import KELVIN_OFFSET
from bluewright.science.media.acids import FAMILIES, pkw
from bluewright.science.media.activity import davies, debye_slope
from bluewright.science.media.calcite import CALCITE, PAIR

LN10: Final = math.log(10.0)
LOW_PH, HIGH_PH = 0.0, 14.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Constants:
    """Constants of dissociation, water and calcite at one temperature for each member, at no ionic strength."""

    dissociation: Mapping[str, tuple[Floats, ...]]
    ion_product: Floats
    solubility_product: Floats
    pair_mol_per_l: Floats
    """Dissolved calcium carbonate in balance with calcite, mol/L: the same whatever the pH."""
    slope: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Liquid:
    """What is in the liquor, for each member (arrays that broadcast together)."""

    constants: Constants
    totals_mol_per_l: Mapping[str, Floats]
    """Family name -> mol/L of all its forms."""
    strong_mol_per_l: Floats
    """Charge of the ions that take no part in acid and base (potassium, sodium, calcium less chloride, ...)."""
    calcium_mol_per_l: Floats
    calcite_frac: Floats
    """How much of the calcite that could fall does fall: 0 none, 1 to equilibrium."""
    spectator_mol_per_l: float = 0.0
    """Ionic strength of neutral salts not counted elsewhere."""
    growth: Floats | float = 1.0
    """Litres that one litre of the liquor has become by what was added."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """The charge left over at a trial pH, and what came out on the way."""

    charge_mol_per_l: Floats
    """Positive: the true pH is higher than the trial."""
    per_ph_mol_per_l: Floats
    """Its derivative by pH (always negative): minus the buffer capacity."""
    ionic_mol_per_l: Floats
    calcite_mol_per_l: Floats
    """Calcite that falls (with `calcite_frac` in it)."""
    lacking_z: Floats
    """Charge that a carbonate lacks to be bare CO3: 2 for CO2, 1 for bicarbonate, 0 for carbonate."""
    calcite_product: Floats
    """Free calcium times free carbonate of all forms (mol2/L2) in balance with calcite, for the litre as grown."""


def constants(temp_c: Floats, *, families: tuple[str, ...]) -> Constants:
    """The constants at `temp_c` (shape (m,)) for the named families (`carbonic` must be among them)."""
    found = {
        name: tuple(np.exp(-LN10 * step.pk(temp_c)) for step in FAMILIES[name].steps) for name in families
    }  # fmt: skip
    absolute_k = temp_c + KELVIN_OFFSET
    logs = np.log10(absolute_k)
    solid, pair = (
        a.value + b.value * absolute_k + c.value / absolute_k + d.value * logs for a, b, c, d in (CALCITE, PAIR)
    )
    return Constants(
        dissociation=found,
        ion_product=np.exp(-LN10 * pkw(temp_c)),
        solubility_product=np.exp(LN10 * solid),
        pair_mol_per_l=np.exp(LN10 * (solid + pair)),
        slope=debye_slope(temp_c),
    )


def gamma(liquid: Liquid, ionic_mol_per_l: Floats) -> Floats:
    """Activity coefficient of a singly charged ion (Davies), no unit."""
    return np.exp(-LN10 * davies(ionic_mol_per_l, slope=liquid.constants.slope))


def balance(liquid: Liquid, *, ph: Floats, activity: Floats) -> Balance:
    """The balance of charge at a trial `ph`, with the activity coefficient `activity` of a single charge.

    Formula: strong + sum c_i z_i(pH) + [H] - [OH] - what calcium binds; K' = K g^(2z - 1) for a step from charge z.
    """
    h = np.exp(-LN10 * ph)
    inverse = 1.0 / activity
    hydrogen, hydroxide = h * inverse * liquid.growth, liquid.constants.ion_product * inverse / h * liquid.growth
    charge = liquid.strong_mol_per_l + hydrogen - hydroxide
    slope = hydrogen + hydroxide
    squares = _neutral(liquid) + 4.0 * liquid.calcium_mol_per_l + slope
    falls = bound = lacking = product = np.zeros_like(h)
    for name, total in liquid.totals_mol_per_l.items():
        top = FAMILIES[name].top_charge
        off, off_squared, last = _hydrogens_off(
            liquid.constants.dissociation[name], h=h, activity=activity, inverse=inverse, top=top
        )
        kept = total
        if name == "carbonic":
            lacking = 2.0 - off
            quarter = np.square(np.square(activity))
            product = liquid.constants.solubility_product / (np.square(quarter) * last) * np.square(liquid.growth)
            falls, bound, moves = _bound(liquid, total, product, lacking)
            charge = charge - 2.0 * bound
            slope = slope + moves * lacking
            kept = total - bound
        gone = kept * off
        gone_squared = gone if off_squared is off else kept * off_squared
        charge = charge - gone
        slope = slope + gone_squared - gone * off
        squares = squares + gone_squared
        if top:
            charge = charge + top * kept
            squares = squares + top * (top * kept - 2.0 * gone)
    return Balance(
        charge_mol_per_l=charge,
        per_ph_mol_per_l=-LN10 * slope,
        ionic_mol_per_l=np.maximum(0.5 * squares - 2.0 * bound, 0.0) / liquid.growth + liquid.spectator_mol_per_l,
        calcite_mol_per_l=falls,
        lacking_z=lacking,
        calcite_product=product,
    )


def _neutral(liquid: Liquid) -> Floats:
    """Singly charged strong ions that the calcium does not account for, mol/L."""
    return np.abs(liquid.strong_mol_per_l - 2.0 * liquid.calcium_mol_per_l)


def _hydrogens_off(
    k: tuple[Floats, ...], *, h: Floats, activity: Floats, inverse: Floats, top: int
) -> tuple[Floats, Floats, Floats]:
    """Mean number of hydrogens off, mean of its square, and the share with all off."""
    # K' = K g^(2z - 1): powers by products, since NumPy's general power costs ten times as much.
    first = activity if top == 1 else inverse if top == 0 else inverse * inverse * inverse
    if len(k) == 1:
        share = k[0] * first
        alone = share / (h + share)
        return alone, alone, alone
    step_change = inverse * inverse
    ratio = first / h
    term = k[0] * ratio
    total, mean, square = 1.0 + term, term, term
    for count, constant in enumerate(k[1:], start=2):
        ratio = ratio * step_change
        term = term * constant * ratio
        total, mean, square = total + term, mean + count * term, square + count * count * term
    return mean / total, square / total, term / total


def _bound(liquid: Liquid, carbonate: Floats, product: Floats, lacking: Floats) -> tuple[Floats, Floats, Floats]:
    """Calcite that falls, carbonate bound to calcium in all (calcite and dissolved pair), and how fast that grows.

    Calcite at equilibrium: (Ca - x - q)(CO3 - x - q) = K', q being the pair then. What is left pairs by
    (Ca - p)(CO3 - p) q = p K'. The growth is by pH, divided by ln 10.
    """
    calcium, pair = liquid.calcium_mol_per_l, liquid.constants.pair_mol_per_l * liquid.growth
    root = np.sqrt(np.square(calcium - carbonate) + 4.0 * product)
    possible = 0.5 * (calcium + carbonate - root) - pair
    falls = liquid.calcite_frac * np.maximum(possible, 0.0)
    both, looseness = calcium + carbonate - 2.0 * falls, product / pair
    left = (calcium - falls) * (carbonate - falls)
    whole = both + looseness
    paired = 2.0 * left / (whole + np.sqrt(np.square(whole) - 4.0 * left))
    free = looseness / (whole - 2.0 * paired)
    growing = np.where(possible > 0.0, liquid.calcite_frac * product * lacking / root, 0.0)
    return falls, falls + paired, free * (growing + lacking * paired)


def strong_at_ph(liquid: Liquid, *, ph: Floats) -> Floats:
    """The charge of strong ions (mol/L) that makes `ph` the pH of this liquor; its own strong ions are ignored."""
    trial = liquid
    ionic = np.full(np.shape(ph), 0.02)
    for _ in range(2):
        found = balance(trial, ph=ph, activity=gamma(trial, ionic))
        before, trial = trial, _with_strong(trial, trial.strong_mol_per_l - found.charge_mol_per_l)
        ionic = found.ionic_mol_per_l + 0.5 * (_neutral(trial) - _neutral(before)) / liquid.growth
    return trial.strong_mol_per_l


def _with_strong(liquid: Liquid, strong_mol_per_l: Floats) -> Liquid:
    return Liquid(
        constants=liquid.constants,
        totals_mol_per_l=liquid.totals_mol_per_l,
        strong_mol_per_l=strong_mol_per_l,
        calcium_mol_per_l=liquid.calcium_mol_per_l,
        calcite_frac=liquid.calcite_frac,
        spectator_mol_per_l=liquid.spectator_mol_per_l,
        growth=liquid.growth,
    )


def solve(liquid: Liquid, *, start_ph: Floats, within_ph: float = 1e-5) -> tuple[Floats, Balance]:
    """The pH of each member and the balance there: Newton's steps inside a bracket, halved where a step would leave it.

    `start_ph` has the shape of the answer; `within_ph` is the last step's largest size (the error is far smaller).
    The balance falls steadily with pH, so there is one root. Activities are taken afresh until the pH moves by less
    than 0.1. Raises ModelError if a pH lies outside 0 to 14.5.
    """
    ph = np.asarray(start_ph, dtype=float)
    ionic = balance(liquid, ph=ph, activity=gamma(liquid, np.full(ph.shape, 0.02))).ionic_mol_per_l
    for _ in range(4):
        before = ph
        ph, found = _root(liquid, ph, gamma(liquid, ionic), within_ph)
        ionic = found.ionic_mol_per_l
        if np.max(np.abs(ph - before)) < max(0.1, 50.0 * within_ph):
            break
    if not np.all((ph > LOW_PH + 0.01) & (ph < HIGH_PH - 0.01)):
        raise ModelError("the balance of charge has no pH between 0 and 14.5; is the dose or the volume mistyped?")
    return ph, found


def _root(liquid: Liquid, ph: Floats, coefficient: Floats, within_ph: float) -> tuple[Floats, Balance]:
    low, high = np.full(ph.shape, LOW_PH), np.full(ph.shape, HIGH_PH)
    for count in range(80):
        found = balance(liquid, ph=ph, activity=coefficient)
        above = found.charge_mol_per_l > 0.0
        low, high = np.where(above, ph, low), np.where(above, high, ph)
        stepped = ph - found.charge_mol_per_l / found.per_ph_mol_per_l
        halve = (stepped < low) | (stepped > high)
        if count > 6 and count % 2:  # a few may swing from side to side of a flat stretch: halve their bracket
            halve |= np.abs(stepped - ph) > within_ph
        stepped = np.where(halve, 0.5 * (low + high), stepped)
        moved, ph = np.max(np.abs(stepped - ph)), stepped
        if moved < within_ph:
            return ph, found
    raise ModelError("the pH did not settle in 80 steps")
