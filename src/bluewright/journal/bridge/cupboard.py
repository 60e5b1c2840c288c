"""The cupboard as the record of its stock; a jar weighed again beside its book."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from math import hypot
from zoneinfo import ZoneInfo

import numpy as np

from bluewright.journal.bridge.batches import alkali_record
from bluewright.journal.bridge.costs import apart
from bluewright.journal.models import Alkali, Garden, Jar
from bluewright.journal.queries import jars, stock
from bluewright.science.base.bands import NINETY_Z
from bluewright.science.cost.stock import booked_sd_g, explained_chance, weighed_sd_g
from bluewright.science.cost.stock import stock as reckon
from bluewright.science.cost.stock_record import AlkaliInStock, AlkaliLeft, JarInStock, StockAnswer, StockRecord

MOST_OVER_FACTOR = 1.2
"""More than this of a pack cannot have gone out of it: another one was opened."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cupboard:
    """What is left of each alkali, and of which nothing can be said."""

    left: tuple[AlkaliLeft, ...]
    answer: StockAnswer | None
    without_pack: tuple[str, ...]
    """Those of which nobody wrote what a pack holds."""
    overdrawn: tuple[str, ...]
    """Those of which more went than the pack held."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A jar weighed again: what the scale says less the book, and what scale and damp bring by themselves."""

    weighed_g: float
    difference_g: float
    usual_g: float
    """Nineteen in twenty such differences are smaller, if nothing was lost."""
    chance: float


def cupboard(of: Garden, *, today: date) -> Cupboard:
    """What is left of the alkalis at hand."""
    rows, used = stock.at_hand(of), stock.uses(of)
    nothing = stock.Use(used_amount=0.0, into_batches_amount=0.0, batches=0)
    known, without_pack, overdrawn = [], [], []
    for row, name in zip(rows, apart(one.name for one in rows), strict=True):
        use = used.get(row.pk, nothing)
        if not row.pack_amount:
            without_pack.append(name)
        elif use.used_amount > MOST_OVER_FACTOR * row.pack_amount:
            overdrawn.append(name)
        else:
            known.append(_in_stock(row, name, use, row.pack_amount, today))
    if not known:
        return Cupboard(left=(), answer=None, without_pack=tuple(without_pack), overdrawn=tuple(overdrawn))
    answer = _reckoned(StockRecord(now=today, alkalis=tuple(known)))
    return Cupboard(left=answer.alkalis, answer=answer, without_pack=tuple(without_pack), overdrawn=tuple(overdrawn))


def _in_stock(row: Alkali, name: str, use: stock.Use, pack_amount: float, today: date) -> AlkaliInStock:
    takes = use.into_batches_amount / use.batches if use.batches and use.into_batches_amount > 0 else None
    return AlkaliInStock(
        name=name, kind=row.kind, measure=alkali_record(row).unit,  # type: ignore[arg-type]
        pack_amount=pack_amount, used_amount=use.used_amount,
        opened=row.opened_on if row.opened_on is None or row.opened_on <= today else today,
        batch_takes_amount=takes, batches_seen=use.batches,
    )  # fmt: skip


@lru_cache(maxsize=64)
def _reckoned(record: StockRecord) -> StockAnswer:
    return reckon(record, rng=np.random.default_rng(record.seed))


def weighed(jar: Jar, *, weighed_g: float, dried_again: bool) -> Weighed:
    """What a weighing says beside what is booked of a jar of `queries.jars`."""
    zone = ZoneInfo(jar.garden.time_zone)
    takings = len(jar.taken.all())
    beside = JarInStock(
        name=jar.name, filled=jar.filled_at.astimezone(zone).date(), put_in_g=max(jars.put_in_g(jar), 1e-6),
        taken_g=min(max(jars.put_in_g(jar) - jars.left_g(jar), 0.0), jars.put_in_g(jar)), takings=takings,
        weighed_g=weighed_g, dried_again=dried_again, scale_sd_g=jar.scale_sd_g,
    )  # fmt: skip
    sd_g = hypot(booked_sd_g(beside), weighed_sd_g(beside))
    difference_g = weighed_g - jars.left_g(jar)
    return Weighed(
        weighed_g=weighed_g, difference_g=difference_g, usual_g=NINETY_Z * sd_g,
        chance=explained_chance(difference_g, sd_g=sd_g),
    )  # fmt: skip
