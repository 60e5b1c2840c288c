"""The kinetic model: from living leaf to dissolved indoxyl, and to what is lost.

States, in mmol for each litre of liquor unless said otherwise, one value for each member of the ensemble:

    leaf -> tissue -> liquor_bound -> indoxyl -> indigo (in the tub: lost)
               \\-> tissue_indoxyl -/     \\-> lost (side reactions, microbes)

`leaf` is precursor in living cells, `tissue` in killed ones, `liquor_bound` dissolved but not yet split. Beside them:
oxygen (mM), flora (0 to 1), acid (progress, 0 to 1), enzyme (share still active), brown (0 to 1).

The flows only ever run forward, so the stiff part is integrated with a modified Patankar Runge-Kutta scheme of second
order, which keeps every state positive and the sum exact at any step; its linear system is triangular and is solved
by substitution. Flora, acid, enzyme and brown are stepped by their exact solutions with frozen rates, oxygen by the
exact root of its implicit balance. Source of the scheme: Burchard, Deleersnijder and Meister 2003 (key burchard-2003).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.base.units import GAS_CONSTANT_J_PER_MOL_K, kelvin
from bluewright.science.media.oxygen import saturation_mmol_per_l
from bluewright.science.steep.growth import flora_frac

KILL_CAP_PER_H: Final = 200.0
LEACH_CAP_PER_H: Final = 40.0
"""Heat needs time to enter a leaf: no faster than this (judgement)."""
HEAT_KILL_EA_J_PER_MOL: Final = 280e3
WATERY_EA_J_PER_MOL: Final = 45e3
"""Of leaching and of the enzyme alike."""
ENZYME_LOSS_EA_J_PER_MOL: Final = 250e3
SELF_SPLIT_EA_J_PER_MOL: Final = 80e3
SIDE_LOSS_EA_J_PER_MOL: Final = 85e3
"""Activation energies (key steep-fit: set with the rates so that the table of steeping times is reproduced)."""
BOUND_LOSS_SHARE: Final = 0.6
"""The bound precursor is lost to side reactions at this share of the rate of indoxyl (judgement)."""
LEAKED_ENZYME_SHARE: Final = 0.3
"""Share of the leaf's enzyme that works in the liquor once the leaf is dead (judgement)."""
BOUND_MICROBE_SHARE: Final = 0.3
HALF_OXYGEN_MMOL_PER_L: Final = 0.005
OXYGEN_PER_INDOXYL: Final = 0.75
"""Between 0.5 (water as by-product) and 1 (hydrogen peroxide)."""

SATURATION_C: Final = np.arange(0.0, 40.5, 0.5)
SATURATION_MMOL_PER_L: Final = saturation_mmol_per_l(SATURATION_C)
"""Read off straight lines between half degrees (good to 1e-5); hotter liquor is taken to hold as much as at 40 C."""

FIELDS: Final = ("leaf", "tissue", "tissue_indoxyl", "liquor_bound", "indoxyl", "indigo", "lost")
OTHERS: Final = ("oxygen", "flora", "acid", "enzyme", "brown", "ph")


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """Parameters of every member of an ensemble, each of shape (n,), and what all members share.

    `values` holds the parameters of `priors_of(plant)` by name and `content_mmol_per_kg`, the precursor of the leaf.
    """

    values: dict[str, Floats]
    leaf_kg_per_l: float
    """Leaf for each litre of liquor (water and sap)."""
    cut_factor: float
    area_per_depth_per_m: float
    """Open surface over volume, 1/m; a cover is already counted in."""

    @property
    def start_mmol_per_l(self) -> Floats:
        """Precursor at the start, for each litre of liquor."""
        return self.values["content_mmol_per_kg"] * self.leaf_kg_per_l


class States(Mapping[str, Floats]):
    """States by name with shape (t, n), of which each is laid together when it is asked for: few of them ever are."""

    def __init__(self, rows: Mapping[str, Sequence[Floats]]) -> None:
        self._rows = rows
        self._whole: dict[str, Floats] = {}

    def __getitem__(self, name: str) -> Floats:
        if name not in self._whole:
            rows = self._rows[name]
            self._whole[name] = rows[0][None, :] if len(rows) == 1 else np.stack(rows)
        return self._whole[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)

    def at(self, rows: Sequence[int]) -> States:
        """Those at some rows of the time grid."""
        return States({name: [values[row] for row in rows] for name, values in self._rows.items()})


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """What a steep does: `hours` (t,), and every state by name with shape (t, n)."""

    hours: Floats
    temp_c: Floats
    states: States
    start_mmol_per_l: Floats
    freed_frac: float

    def __getitem__(self, name: str) -> Floats:
        return self.states[name]

    @property
    def dead_frac(self) -> Floats:
        """Share of the leaf that is dead, (t, n)."""
        return 1.0 - self.states["leaf"] / self.start_mmol_per_l

    @property
    def recoverable_mmol_per_l(self) -> Floats:
        """Indoxyl that straining now would give, with what alkali sets free of the dissolved precursor, (t, n)."""
        return self.states["indoxyl"] + self.freed_frac * self.states["liquor_bound"]

    def at(self, rows: list[int]) -> Course:
        """The course at some rows of its time grid."""
        return Course(
            hours=self.hours[rows],
            temp_c=self.temp_c[rows],
            states=self.states.at(rows),
            start_mmol_per_l=self.start_mmol_per_l,
            freed_frac=self.freed_frac,
        )


def solve(
    batch: Batch, *, hours: Floats, temp_c: Floats, freed_frac: float, rows: Sequence[int] | None = None
) -> Course:
    """The course of every member over `hours` (t,), increasing from 0, at temperatures `temp_c` (t, n).

    With `rows`, rising places on the time grid, the course holds those times only; it is worked out to the last of
    them. Mass closes exactly: the seven states of `FIELDS` always add up to the precursor at the start.
    """
    wanted = list(range(len(hours))) if rows is None else list(rows)
    kept: dict[str, list[Floats]] = {name: [] for name in FIELDS + OTHERS}
    for moment in moments(batch, hours=hours, temp_c=temp_c, freed_frac=freed_frac, rows=wanted):
        for name, values in kept.items():
            values.append(moment[name][0])
    return Course(
        hours=hours[wanted],
        temp_c=temp_c[wanted],
        states=States(kept),
        start_mmol_per_l=batch.start_mmol_per_l,
        freed_frac=freed_frac,
    )


def moments(batch: Batch, *, hours: Floats, temp_c: Floats, freed_frac: float, rows: Sequence[int]) -> Iterator[Course]:
    """The course at some `rows` of the time grid (rising), one after the other; worked out to the last of them.

    Only the present moment is held: whoever wants little of many moments need not have all in memory.
    """
    wanted, last = frozenset(rows), rows[-1]
    for row, found in enumerate(_states(batch, hours=hours[: last + 1], temp_c=temp_c[: last + 1])):
        if row in wanted:
            yield Course(
                hours=hours[row : row + 1],
                temp_c=temp_c[row : row + 1],
                states=States({name: [values] for name, values in found.items()}),
                start_mmol_per_l=batch.start_mmol_per_l,
                freed_frac=freed_frac,
            )


def _states(batch: Batch, *, hours: Floats, temp_c: Floats) -> Iterator[dict[str, Floats]]:
    """Every state (n,) by name, at one time of the grid after the other; no step writes into those of one before."""
    heat = _Heat.of(batch, temp_c[0])
    start = batch.start_mmol_per_l
    pools = [start.copy(), *(np.zeros(len(start)) for _ in FIELDS[1:])]
    side = _Side.fresh(batch, heat)
    pace = _Pace.of(heat, side)
    for row in range(len(hours)):
        if row:
            heat_before, heat, step_h = heat, _Heat.of(batch, temp_c[row]), float(hours[row] - hours[row - 1])
            before = _rates(batch, pace, pools)
            guess = _substitute(pools, before, step_h)
            side = side.step(batch, heat_before, heat, pools, guess, step_h)
            pace = _Pace.of(heat, side)
            after = _rates(batch, pace, guess)
            pools = _substitute(pools, _patankar(before, after, pools, guess), step_h)
        yield dict(zip(FIELDS, pools, strict=True)) | {name: getattr(side, name) for name in OTHERS}


def arrhenius(per_k: Floats, *, ea_j_per_mol: float, at_c: float) -> Floats:
    """Rate at a temperature T, given as 1/T in 1/K, over the rate at `at_c`: exp(-Ea/R (1/T - 1/T0))."""
    return np.exp(ea_j_per_mol / GAS_CONSTANT_J_PER_MOL_K * (1 / kelvin(at_c) - per_k))


@dataclass(slots=True)
class _Heat:
    """Every factor that depends on temperature alone, each (n,)."""

    kill: Floats
    microbe_kill: Floats
    leach: Floats
    enzyme: Floats
    enzyme_loss: Floats
    self_split: Floats
    side_loss: Floats
    microbe_loss: Floats
    growth: Floats
    flora: Floats
    doubling: Floats
    saturation: Floats

    @classmethod
    def of(cls, batch: Batch, temp_c: Floats) -> _Heat:
        v = batch.values
        cut = batch.cut_factor * v["cut_scatter"]
        flora, per_k = flora_frac(temp_c), 1 / (temp_c + 273.15)
        slow = v["kill_25c_per_h"] * v["kill_q10"] ** ((np.minimum(temp_c, 45) - 25) / 10)
        hot = v["heat_kill_48c_per_h"] * arrhenius(per_k, ea_j_per_mol=HEAT_KILL_EA_J_PER_MOL, at_c=48)
        doubling = np.exp2((temp_c - 25) / 10)
        watery = arrhenius(per_k, ea_j_per_mol=WATERY_EA_J_PER_MOL, at_c=25)
        return cls(
            kill=np.minimum(cut * slow + hot, KILL_CAP_PER_H),
            microbe_kill=cut * v["microbe_kill_30c_per_h"] * flora,
            leach=np.minimum(cut * v["leach_25c_per_h"] * watery, LEACH_CAP_PER_H),
            enzyme=v["enzyme_25c_mmol_per_kg_h"] * watery,
            enzyme_loss=v["enzyme_loss_60c_per_h"] * arrhenius(per_k, ea_j_per_mol=ENZYME_LOSS_EA_J_PER_MOL, at_c=60),
            self_split=v["self_split_ph7_per_h"] * arrhenius(per_k, ea_j_per_mol=SELF_SPLIT_EA_J_PER_MOL, at_c=25)
            if "self_split_ph7_per_h" in v
            else np.zeros_like(temp_c),
            side_loss=v["side_loss_25c_per_h"] * arrhenius(per_k, ea_j_per_mol=SIDE_LOSS_EA_J_PER_MOL, at_c=25),
            microbe_loss=v["microbe_loss_30c_per_h"] * np.exp2((np.minimum(temp_c, 40) - 30) / 10),
            growth=v["growth_best_per_h"] * flora,
            flora=flora,
            doubling=doubling,
            saturation=np.interp(temp_c, SATURATION_C, SATURATION_MMOL_PER_L),
        )


@dataclass(slots=True)
class _Side:
    """The states beside the pools, each (n,)."""

    oxygen: Floats
    flora: Floats
    acid: Floats
    enzyme: Floats
    brown: Floats
    ph: Floats
    oxidation: Floats
    """Of indoxyl for each mM of oxygen, 1/(mM h)."""

    @classmethod
    def fresh(cls, batch: Batch, heat: _Heat) -> _Side:
        n = len(batch.values["flora_start"])
        return cls(
            oxygen=heat.saturation.copy(),
            flora=np.minimum(batch.values["flora_start"], 0.5),
            acid=np.zeros(n),
            enzyme=np.ones(n),
            brown=np.zeros(n),
            ph=batch.values["water_ph"].copy(),
            oxidation=_oxidation(batch.values, batch.values["water_ph"], heat.doubling),
        )

    def step(
        self, batch: Batch, before: _Heat, heat: _Heat, pools: list[Floats], guess: list[Floats], step_h: float
    ) -> _Side:
        v = batch.values
        start = batch.start_mmol_per_l
        dead = 1 - 0.5 * (pools[0] + guess[0]) / start
        dead_end = 1 - guess[0] / start
        flora_mid_frac = 0.5 * (before.flora + heat.flora)
        grown = np.exp(step_h * 0.5 * (before.growth + heat.growth) * (0.2 + 0.8 * dead))
        flora = self.flora * grown / (1 + self.flora * (grown - 1))
        flora_mid = 0.5 * (self.flora + flora)
        acid = 1 - (1 - self.acid) * np.exp(-step_h * v["acid_30c_per_h"] * flora_mid_frac * flora_mid)
        enzyme = self.enzyme * np.exp(-step_h * 0.5 * (before.enzyme_loss + heat.enzyme_loss))
        browning = v["brown_25c_per_h"] * 0.5 * (before.doubling + heat.doubling) * dead
        brown = 1 - (1 - self.brown) * np.exp(-step_h * browning * (1 + 2 * flora_mid))
        sap = v["sap_drop_ph"] * dead_end * min(1.5, batch.leaf_kg_per_l / 0.1)
        ph = v["water_ph"] - sap - v["acid_drop_ph"] * acid
        breath = v["leaf_breath_mmol_per_l_h"] * (1 - dead_end) * batch.leaf_kg_per_l / 0.1
        breath = breath + v["flora_breath_mmol_per_l_h"] * flora * heat.flora**0.7
        oxidation = _oxidation(v, ph, heat.doubling)
        taken_up = OXYGEN_PER_INDOXYL * oxidation * guess[4]
        transfer = v["surface_cm_per_h"] / 100 * batch.area_per_depth_per_m
        oxygen = _oxygen_root(self.oxygen, heat.saturation, transfer, breath, taken_up, step_h)
        return _Side(oxygen, flora, acid, enzyme, brown, ph, oxidation)


def _oxidation(values: dict[str, Floats], ph: Floats, doubling: Floats) -> Floats:
    """Oxidation of indoxyl for each mM of oxygen, 1/(mM h): ten to the 0.35 for each pH, doubling in 10 C."""
    return np.asarray(values["oxidation_ph7_per_mmol_h"] * np.exp(0.35 * np.log(10) * (ph - 7)) * doubling)


def _oxygen_root(
    oxygen: Floats, saturation: Floats, transfer: Floats, breath: Floats, oxidation: Floats, step_h: float
) -> Floats:
    """The positive root of the implicit oxygen balance over a step.

    o = o0 + h (k (os - o) - b o / (o + K) - x o), a quadratic in o once multiplied by (o + K).
    """
    half = HALF_OXYGEN_MMOL_PER_L
    a = 1 + step_h * (transfer + oxidation)
    known = oxygen + step_h * transfer * saturation
    b = a * half + step_h * breath - known
    return np.asarray((np.sqrt(b * b + 4 * a * known * half) - b) / (2 * a))


Rates = Floats
"""First-order rates, 1/h, of the ten flows in the order of `_substitute`, (10, n)."""


@dataclass(slots=True)
class _Pace:
    """What the rates hang on beside the pools: heat and the other states, at the end of a step as at the next start."""

    kill: Floats
    leach: Floats
    active: Floats
    split_alone: Floats
    trapped_loss: Floats
    tissue_loss: Floats
    bound_loss: Floats
    loss: Floats
    oxidation: Floats

    @classmethod
    def of(cls, heat: _Heat, side: _Side) -> _Pace:
        side_loss = heat.side_loss * np.exp(np.log(10) * 0.25 * (side.ph - 6))
        microbes = heat.microbe_loss * side.flora
        return cls(
            kill=np.minimum(heat.kill + heat.microbe_kill * side.flora, KILL_CAP_PER_H),
            leach=heat.leach,
            active=heat.enzyme * side.enzyme,
            split_alone=heat.self_split * np.exp(np.log(10) * 0.7 * (side.ph - 7)),
            trapped_loss=side_loss,
            tissue_loss=BOUND_LOSS_SHARE * side_loss,
            bound_loss=BOUND_LOSS_SHARE * side_loss + BOUND_MICROBE_SHARE * microbes,
            loss=side_loss + microbes,
            oxidation=side.oxidation * side.oxygen,
        )


def _rates(batch: Batch, pace: _Pace, pools: list[Floats]) -> Rates:
    v, load = batch.values, batch.leaf_kg_per_l
    leaf, tissue, _, bound, _, _, _ = pools
    dead = 1 - leaf / batch.start_mmol_per_l
    rates = (
        pace.kill,
        pace.leach,
        pace.active / (v["half_mmol_per_l"] + tissue / load) + pace.split_alone,
        pace.tissue_loss,
        pace.leach,
        pace.trapped_loss,
        pace.active * load * LEAKED_ENZYME_SHARE * dead / (v["half_mmol_per_l"] + bound) + pace.split_alone,
        pace.bound_loss,
        pace.loss,
        pace.oxidation,
    )
    return np.array(rates)


def _substitute(pools: list[Floats], rates: Rates, step_h: float) -> list[Floats]:
    """One implicit step with frozen rates; forward flows make it plain substitution. The sum is kept exactly."""
    kill, leach, split, tissue_loss, escape, trapped_loss, split_liquor, bound_loss, loss, oxidation = step_h * rates
    leaf = pools[0] / (1 + kill)
    tissue = (pools[1] + kill * leaf) / (1 + leach + split + tissue_loss)
    trapped = (pools[2] + split * tissue) / (1 + escape + trapped_loss)
    bound = (pools[3] + leach * tissue) / (1 + split_liquor + bound_loss)
    indoxyl = (pools[4] + escape * trapped + split_liquor * bound) / (1 + loss + oxidation)
    indigo = pools[5] + oxidation * indoxyl
    lost = pools[6] + tissue_loss * tissue + trapped_loss * trapped + bound_loss * bound + loss * indoxyl
    return [leaf, tissue, trapped, bound, indoxyl, indigo, lost]


_DRAINED: Final = (0, 1, 1, 1, 2, 2, 3, 3, 4, 4)
"""The pool that each of the ten flows drains."""


def _patankar(before: Rates, after: Rates, pools: list[Floats], guess: list[Floats]) -> Rates:
    """Rates of the corrector: half the flow at the start weighted to the guess, half the rate at its end."""
    tiny = 1e-300
    weights = [pool / np.maximum(g, tiny) for pool, g in zip(pools[:5], guess[:5], strict=True)]
    mean = np.array([weights[drained] for drained in _DRAINED])
    mean *= before
    mean += after
    mean *= 0.5
    return mean
