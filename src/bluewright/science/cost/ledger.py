"""All that went into the batches, drawn once: hours, water, alkali, money, and the pure blue that came of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.sourced import Floats
from bluewright.science.cost.blue import pure_frac, scores
from bluewright.science.cost.cost_record import BatchMade, CostRecord, Item, State
from bluewright.science.cost.hours import Hours, hours
from bluewright.science.cost.money import straight_line_money
from bluewright.science.cost.priors import ALKALI_SD, KIT_LIFE_SD, WATER_SD, WORK_KINDS

ITEMS: Final[tuple[Item, ...]] = (*WORK_KINDS, "alkali", "water", "fuel", "kit")
_ALKALI, _WATER, _FUEL, _KIT = range(len(WORK_KINDS), len(ITEMS))
LITRES_PER_M3: Final = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledger:
    """Draws of all that the batches took; n draws, B batches."""

    hours: Hours
    water_l: Floats
    """Shape (B, n)."""
    alkali_amount: dict[str, Floats]
    """Of each alkali, in its own measure, shape (B, n)."""
    cost_money: Floats
    """Shape (items, B, n), in the order of `ITEMS`."""
    pure_g: Floats
    """Shape (B, n); 0 where nothing came of it yet."""
    purity_z: Floats
    moisture_z: Floats
    state: tuple[State, ...]

    @property
    def done(self) -> NDArray[np.bool_]:
        """Which batches gave pigment."""
        return np.array([one == "done" for one in self.state])

    @property
    def failed(self) -> NDArray[np.bool_]:
        """Which batches were given up."""
        return np.array([one == "failed" for one in self.state])

    @property
    def counted(self) -> NDArray[np.bool_]:
        """Which batches the whole is of: done and failed ones; all while none is done."""
        return self.done | self.failed if self.done.any() else np.ones(len(self.state), dtype=bool)


def ledger(record: CostRecord, *, rng: np.random.Generator, n: int) -> Ledger:
    """Draw all that the record tells of `n` times."""
    shares = leaf_shares_frac(record.batches)
    worked = hours(record, shares_frac=shares, rng=rng, n=n)
    litres = np.array([batch.steep_l + batch.wash_l for batch in record.batches])
    water_l = litres[:, None] * np.exp(WATER_SD.value * rng.standard_normal((len(litres), n)))
    alkali = _alkali(record, shares, rng=rng, n=n)
    purity_z, moisture_z = scores(rng, n)
    money = np.zeros((len(ITEMS), len(record.batches), n))
    if record.wage_money_per_h is not None:
        money[: len(WORK_KINDS)] = record.wage_money_per_h * worked.work_h
    money[_WATER] = (record.water_money_per_m3 or 0.0) / LITRES_PER_M3 * water_l
    for pack in record.alkalis:
        if pack.name in alkali:
            money[_ALKALI] += (pack.unit_money or 0.0) * alkali[pack.name]
    money[_FUEL] = np.array([batch.fuel_money for batch in record.batches])[:, None]
    money[_KIT] = _kit_money(record, rng=rng, n=n)
    return Ledger(
        hours=worked, water_l=water_l, alkali_amount=alkali, cost_money=money, purity_z=purity_z, moisture_z=moisture_z,
        pure_g=_pure_g(record.batches, purity_z, moisture_z, rng=rng), state=tuple(map(state, record.batches)),
    )  # fmt: skip


def state(batch: BatchMade) -> State:
    """How far a batch is."""
    return "failed" if batch.failed else "underway" if batch.pigment_g is None else "done"


def leaf_shares_frac(batches: tuple[BatchMade, ...]) -> Floats:
    """Each batch's share of what serves them all: by its leaf, or in equal parts where that of one is not known."""
    leaf_kg = [batch.leaf_kg for batch in batches]
    by = np.ones(len(batches)) if None in leaf_kg else np.array(leaf_kg, dtype=float)
    return np.asarray(by / by.sum())


def _alkali(record: CostRecord, shares: Floats, *, rng: np.random.Generator, n: int) -> dict[str, Floats]:
    """Amounts of each alkali by batch; the errors of several parts of one batch are taken as one."""
    place = {batch.id: b for b, batch in enumerate(record.batches)}
    names = dict.fromkeys(used.name for used in record.used)
    found = {}
    for name in names:
        amounts = np.zeros(len(record.batches))
        for used in (used for used in record.used if used.name == name):
            if used.batch:
                amounts[place[used.batch]] += used.used_amount
            else:
                amounts += shares * used.used_amount
        found[name] = amounts[:, None] * np.exp(ALKALI_SD.value * rng.standard_normal((len(amounts), n)))
    return found


def _kit_money(record: CostRecord, *, rng: np.random.Generator, n: int) -> Floats:
    """What one batch takes of all kit; one life is drawn for each thing."""
    a_year = record.batches_a_year or len(record.batches)
    total = np.zeros(n)
    for one in record.kit:
        lasts_batches = one.lasts_batches if one.lasts_batches is not None else (one.lasts_years or 1) * a_year
        lasts = lasts_batches * np.exp(KIT_LIFE_SD.value * rng.standard_normal(n))
        total += straight_line_money(one.paid_money, left_money=one.left_money, lasts=lasts)
    return total


def _pure_g(
    batches: tuple[BatchMade, ...], purity_z: Floats, moisture_z: Floats, *, rng: np.random.Generator
) -> Floats:
    """Pure blue; purity and moisture have one score for all, weighing errors are each batch's own."""
    found = np.zeros((len(batches), len(purity_z)))
    for b, batch in enumerate(batches):
        if batch.pigment_g is not None:
            off = min(batch.scale_sd_g / batch.pigment_g, 0.5)
            weighed = batch.pigment_g * np.exp(off * rng.standard_normal(len(purity_z)))
            found[b] = weighed * pure_frac(batch, purity_z=purity_z, moisture_z=moisture_z)
    return found
