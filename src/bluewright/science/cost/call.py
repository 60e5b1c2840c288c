"""What the blue costs: hours, water, alkali and money, for each batch and for a gram of pure blue."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, cast

import numpy as np

from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.sourced import Floats
from bluewright.science.cost.amounts import amount
from bluewright.science.cost.cautions import cautions
from bluewright.science.cost.cost_record import (
    AlkaliSum,
    BatchCost,
    CostAnswer,
    CostPart,
    CostRecord,
    NextReading,
    SharesOf,
)
from bluewright.science.cost.hours import Basis
from bluewright.science.cost.ledger import ITEMS, Ledger, ledger
from bluewright.science.cost.money import price_floor_money_per_g, return_money_per_h
from bluewright.science.cost.priors import WORK_KINDS, WorkKind

DRAWS: Final = 2000
A_QUARTER: Final = 0.25
NARROWS: Final = 0.02
"""A reading that takes less of the doubt than this is not worth asking for."""


def cost(record: CostRecord, *, rng: np.random.Generator) -> CostAnswer:
    """Hours, water, alkali and money of the batches, and of a gram of the pure blue that came of them.

    Formula: for a gram = (done + failed) / pure, sum over sum, in each draw; a batch carries of the failed ones in
    proportion to its pure blue. Price floor and return: `money`. Estimated hours: `hours.learned`.
    """
    found = ledger(record, rng=rng, n=DRAWS)
    counted, done = found.counted, found.done
    pure = found.pure_g[done].sum(axis=0) if done.any() else None
    work = found.hours.work_h[:, counted].sum(axis=(0, 1))
    money = found.cost_money[:, counted].sum(axis=(0, 1)) if _priced(record) else None
    paid = None if money is None else found.cost_money[len(WORK_KINDS) :, counted].sum(axis=(0, 1))
    water = found.water_l[counted].sum(axis=0)
    shares = shares_frac(record, found)
    parts, each = _parts(record, found, shares), None if money is None else per_g(money, pure)
    reading, gain = _next_reading(record, found, money if shares_of(record, found) == "money" else work, pure)
    earned = _earned(record, pure, paid, work)
    floor = None if each is None else _floor(record, each)
    return CostAnswer(
        id=record.id,
        pure_g=_band(pure),
        work_h=band(work),
        work_h_per_g=_band(per_g(work, pure)),
        water_l=band(water),
        water_l_per_g=_band(per_g(water, pure)),
        alkalis=_alkalis(record, {k: of[found.counted].sum(axis=0) for k, of in found.alkali_amount.items()}, pure),
        cost_money=_band(money),
        cost_money_per_g=_band(each),
        paid_money=_band(paid),
        failed_frac=_failed_frac(record, found),
        shares_of=shares_of(record, found),
        parts=parts,
        most=parts[0].item,
        most_saves_frac=band(A_QUARTER * shares[ITEMS.index(parts[0].item)]),
        more_blue_saves_frac=1 - 1 / (1 + A_QUARTER),
        price_floor_money_per_g=_band(floor),
        return_money_per_h=_band(earned),
        return_below_wage_chance=_below(earned, record.wage_money_per_h),
        next_reading=reading,
        next_gain_frac=significant(gain, 2),
        batches=_batches(record, found),
        estimated=tuple(kind for kind in WORK_KINDS if found.hours.basis.get(kind) in {"garden", "prior"}),
        basis=_basis(found),
        inputs=record,
        cautions=cautions(record, found),
        sources=("bluewright-cost", "bluewright-yield", "common-practice", "trade-indigo-spec"),
    )


def shares_frac(record: CostRecord, found: Ledger) -> Floats:
    """Each item's share of the whole in every draw, (items, n); of nothing at all, `other` has all."""
    if shares_of(record, found) == "money":
        sums = found.cost_money[:, found.counted].sum(axis=1)
    else:
        sums = _as_items(found.hours.work_h[:, found.counted].sum(axis=1))
    if not sums.any():
        sums[ITEMS.index("other")] = 1.0
    return np.asarray(sums / sums.sum(axis=0))


def shares_of(record: CostRecord, found: Ledger) -> SharesOf:
    """What shares are taken of: of the money if work is paid, or if there was none; else of the hours."""
    return (
        "money"
        if record.wage_money_per_h or not np.any(found.hours.work_h.sum(axis=(0, 2))[found.counted])
        else "hours"
    )


def carried(found: Ledger, values: Floats) -> Floats:
    """What failed batches cost, carried by those that are done in proportion to their pure blue, (B, n)."""
    lost = values[found.failed].sum(axis=0)
    pure = np.where(found.done[:, None], found.pure_g, 0.0)
    total = pure.sum(axis=0)
    return np.asarray(lost * np.divide(pure, total, out=np.zeros_like(pure), where=total > 0))


def _as_items(work_h: Floats) -> Floats:
    """Hours by kind as items, (items, n): what is no work takes none."""
    rest = np.zeros((len(ITEMS) - len(WORK_KINDS), work_h.shape[-1]))
    return np.concatenate([work_h, rest])


def _priced(record: CostRecord) -> bool:
    """Whether anything has a price."""
    given = (record.wage_money_per_h, record.water_money_per_m3)
    return (
        any(one is not None for one in given)
        or bool(record.kit)
        or any(pack.pack_money is not None for pack in record.alkalis)
        or any(batch.fuel_money for batch in record.batches)
    )


def per_g(values: Floats, pure_g: Floats | None) -> Floats | None:
    """What a gram takes: the sum over the pure blue of the same draws; None where there is none."""
    return None if pure_g is None else values / pure_g


def _band(samples: Floats | None) -> Band | None:
    return None if samples is None else band(samples)


def _floor(record: CostRecord, cost_money_per_g: Floats) -> Floats:
    return price_floor_money_per_g(
        cost_money_per_g, margin_frac=record.margin_frac, allowance_frac=record.allowance_frac
    )


def _earned(record: CostRecord, pure_g: Floats | None, paid: Floats | None, work_h: Floats) -> Floats | None:
    """The return of an hour at the price asked; None without a price, blue or work."""
    if record.price_money_per_g is None or pure_g is None or not work_h.min() > 0:
        return None
    sold, spent = (1 - record.allowance_frac) * pure_g, np.zeros_like(work_h) if paid is None else paid
    return return_money_per_h(record.price_money_per_g, sold_g=sold, paid_money=spent, work_h=work_h)


def _below(earned: Floats | None, wage: float | None) -> float | None:
    return None if earned is None or wage is None else significant(float(np.mean(earned < wage)))


def _failed_frac(record: CostRecord, found: Ledger) -> Band | None:
    if not found.failed.any() or not found.done.any():
        return None
    by_batch = (found.cost_money if shares_of(record, found) == "money" else found.hours.work_h).sum(axis=0)
    total = by_batch[found.counted].sum(axis=0)
    return band(by_batch[found.failed].sum(axis=0) / total) if total.min() > 0 else None


def _parts(record: CostRecord, found: Ledger, shares: Floats) -> tuple[CostPart, ...]:
    """What the whole is made of, the largest share first; what takes nothing is left out."""
    rows = []
    priced = _priced(record)
    for k, item in enumerate(ITEMS):
        work = found.hours.work_h[k][found.counted].sum(axis=0) if k < len(WORK_KINDS) else None
        money = found.cost_money[k][found.counted].sum(axis=0) if priced else None
        mean = float(np.mean(shares[k]))
        if mean <= 0 and not any(one is not None and one.max() > 0 for one in (work, money)):
            continue
        part = CostPart(
            item=item, work_h=_band(work), cost_money=_band(money), share_frac=significant(mean, 6),
            share_band_frac=band(shares[k]),
            basis=found.hours.basis.get(cast(WorkKind, item), "readings"),
        )  # fmt: skip
        rows.append((mean, part))
    rows.sort(key=lambda row: -row[0])
    return tuple(part for _mean, part in rows)


def _alkalis(record: CostRecord, amounts: Mapping[str, Floats], pure_g: Floats | None) -> tuple[AlkaliSum, ...]:
    """Each alkali of which there is any; `amounts` of shape (n,)."""
    rows = []
    for pack in record.alkalis:
        total = amounts.get(pack.name)
        if total is None or total.max() <= 0:
            continue
        price, each = pack.unit_money, per_g(total, pure_g)
        rows.append(
            AlkaliSum(
                name=pack.name,
                used_amount=amount(total, unit=pack.measure),
                used_amount_per_g=None if each is None else amount(each, unit=pack.measure),
                cost_money=None if price is None else band(price * total),
            )
        )
    return tuple(rows)


def _batches(record: CostRecord, found: Ledger) -> tuple[BatchCost, ...]:
    """Each batch, and what it carries of the failed ones."""
    work, money = found.hours.work_h.sum(axis=0), found.cost_money.sum(axis=0)
    more_h, more_money, priced = carried(found, work), carried(found, money), _priced(record)
    rows = []
    for b, batch in enumerate(record.batches):
        pure = found.pure_g[b] if found.done[b] else None
        rows.append(
            BatchCost(
                id=batch.id,
                state=found.state[b],
                work_h=band(work[b]),
                water_l=band(found.water_l[b]),
                alkalis=_alkalis(record, {name: of[b] for name, of in found.alkali_amount.items()}, pure),
                cost_money=band(money[b]) if priced else None,
                carried_money=band(more_money[b]) if priced and pure is not None else None,
                pure_g=_band(pure),
                work_h_per_g=_band(per_g(work[b] + more_h[b], pure)),
                cost_money_per_g=_band(per_g(money[b] + more_money[b], pure)) if priced else None,
            )
        )
    return tuple(rows)


def _next_reading(
    record: CostRecord, found: Ledger, total: Floats | None, pure_g: Floats | None
) -> tuple[NextReading | None, float]:
    """What is not known and goes most with the cost of a gram: squared correlation of the logarithms."""
    if total is None or pure_g is None or not total.min() > 0:
        return None, 0.0
    each = np.log(total / pure_g)
    done = [batch for batch in record.batches if batch.pigment_g is not None]
    open_things: dict[NextReading, Floats] = {}
    if any(batch.purity is None for batch in done):
        open_things["purity"] = found.purity_z
    if any(batch.moisture_frac is None for batch in done):
        open_things["moisture"] = found.moisture_z
    for k, kind in enumerate(WORK_KINDS):
        if (worked := found.hours.work_h[k][found.counted].sum(axis=0)).min() > 0:
            open_things[kind] = np.log(worked)
    gains = {name: _r2(values, each) for name, values in open_things.items()}
    best = max(gains, key=lambda name: gains[name], default=None)
    return (best, gains[best]) if best is not None and gains[best] >= NARROWS else (None, 0.0)


def _r2(a: Floats, b: Floats) -> float:
    return float(np.corrcoef(a, b)[0, 1] ** 2) if np.ptp(a) > 0 and np.ptp(b) > 0 else 0.0


def _basis(found: Ledger) -> Basis:
    kinds = set(found.hours.basis.values())
    return "prior" if "prior" in kinds else "garden" if "garden" in kinds else "readings"
