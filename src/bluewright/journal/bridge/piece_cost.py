"""A piece with its vats, jars, batches and notes of work becomes the record of what it cost."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime
from functools import lru_cache
from math import expm1
from typing import Any, Final
from uuid import UUID
from zoneinfo import ZoneInfo

import numpy as np

from bluewright.journal.bridge import costs, dyeing
from bluewright.journal.bridge.batches import alkali_record
from bluewright.journal.bridge.vats import vat_answer
from bluewright.journal.models import Garden, JarFrom, Piece, Vat
from bluewright.journal.queries import supplies, vats, work
from bluewright.journal.queries.pieces import dips_of
from bluewright.journal.queries.supplies import Pack
from bluewright.science.base.bands import Band, log_sd_of
from bluewright.science.cost.cloth import cloth_cost
from bluewright.science.cost.cloth_record import ClothCostAnswer, ClothCostRecord, IntoVat, VatShare
from bluewright.science.cost.vat import VatCost, cost_of_vat
from bluewright.science.dyeing.shade_record import MOST_DIPS
from bluewright.science.vat.state_record import VatAnswer
from bluewright.words.vat import SUBSTANCES

MOST_OFF: Final = 2.0


@lru_cache(maxsize=128)
def reckoned(record: ClothCostRecord) -> ClothCostAnswer:
    """What a record costs, kept while it stays the same."""
    return cloth_cost(record, rng=np.random.default_rng(record.seed))


def cost_record(row: Piece, *, now: datetime) -> ClothCostRecord | None:
    """The record of a piece of `queries.pieces`; None before its first dip. Raises InputError or ModelError."""
    of: Garden = row.garden
    dipped: dict[UUID, list[datetime]] = {}
    for dip in dips_of(row):
        dipped.setdefault(dip.vat_id, []).append(dip.began_at)
    if not dipped:
        return None
    found = {vat.pk: vat for vat in vats.vats(of).filter(pk__in=dipped)}
    prices, cupboard = _blue_prices(of, found), _cupboard(of)
    spent = work.spent_on(row)
    return ClothCostRecord(
        id=row.name,
        currency=of.currency,
        money_decimals=of.money_decimals,
        wage_money_per_h=of.wage_money_per_h,
        vats=tuple(_share(row, found[key], times, prices, cupboard, now) for key, times in dipped.items()),
        spent_min=spent,
        seed=row.seed,
    )


def _share(
    row: Piece, vat: Vat, times: list[datetime], prices: Mapping[UUID, Band], cupboard: Mapping[str, Pack],
    now: datetime,
) -> VatShare:  # fmt: skip
    return _share_of(vat, vat_answer(vat, now), _drawn(row, vat, times, now), prices, cupboard)


def vat_cost(vat: Vat, *, now: datetime) -> VatCost:
    """What all that went into a vat of `queries.vats` cost. Raises InputError or ModelError as its state does."""
    stands, prices = vat_answer(vat, now), _blue_prices(vat.garden, {vat.pk: vat})
    record = _share_of(vat, stands, stands.total_g, prices, _cupboard(vat.garden))
    return cost_of_vat(record, rng=np.random.default_rng(vat.seed))


def _share_of(
    vat: Vat, stands: VatAnswer, drawn: Band, prices: Mapping[UUID, Band], cupboard: Mapping[str, Pack]
) -> VatShare:
    """A vat with all that went in, and how much of its blue is asked for."""
    whole = Band(
        p5=stands.total_g.p5 + stands.taken_g.p5, p50=stands.total_g.p50 + stands.taken_g.p50,
        p95=stands.total_g.p95 + stands.taken_g.p95,
    )  # fmt: skip
    blue = prices.get(vat.pk)
    money: dict[str, Any] = {} if blue is None else {"blue_money_per_g": blue.p50, "blue_off_frac": off_frac(blue)}
    return VatShare(
        name=vat.name, drawn_g=drawn.p50, drawn_off_frac=off_frac(drawn), put_in_g=whole.p50,
        put_in_off_frac=off_frac(whole), others=tuple(_others(vat, cupboard)), **money,
    )  # fmt: skip


def off_frac(band: Band) -> float:
    """How far a positive band may be off, as a share: that of the log-normal of its width."""
    if band.p5 <= 0:
        return MOST_OFF
    return min(expm1(log_sd_of(band)), MOST_OFF)


def _drawn(row: Piece, vat: Vat, times: list[datetime], now: datetime) -> Band:
    """Pure indigo that its dips took from a vat: the forecast of dyeing at its strength before the first of them."""
    stood = dyeing.dye_vat(vat, now=now, at=min(times))
    learned = dyeing.learned(row.garden, row.fibre)
    record = dyeing.shade_record(row, stood, dips=min(len(times), MOST_DIPS), wanted=None, learned=learned)
    return dyeing.shaded(record).drawn_g


def _others(vat: Vat, cupboard: Mapping[str, Pack]) -> Iterator[IntoVat]:
    """What went into it beside powder, each kind once, with its price where the cupboard tells one."""
    used_g: dict[str, float] = {}
    for added in vat.additions.all():
        if added.what != "powder":
            used_g[added.what] = used_g.get(added.what, 0.0) + added.mass_g
    for what, grams in used_g.items():
        pack = cupboard.get(what)
        price: dict[str, Any] = {}
        if pack is not None:
            price = pack._asdict()
        word: Any = what
        yield IntoVat(name=SUBSTANCES[word], used_g=grams, **price)


def _cupboard(of: Garden) -> dict[str, Pack]:
    """Solids of the alkali cupboard and supplies that have a price, by kind."""
    alkalis = {
        one.kind: Pack(one.pack_amount, one.pack_money)
        for one in work.cupboard(of)
        if one.pack_amount and one.pack_money is not None and alkali_record(one).unit == "g"
    }
    return alkalis | supplies.last_packs(of)


def _blue_prices(of: Garden, found: Mapping[UUID, Vat]) -> dict[UUID, Band]:
    """What a gram of pure blue cost of the batches whose powder went into each vat; without those of no price."""
    into = {
        vat: {added.taken.jar_id for added in row.additions.all() if added.taken is not None}
        for vat, row in found.items()
    }
    jars = {jar for of_vat in into.values() for jar in of_vat}
    parts = list(JarFrom.objects.filter(jar__in=jars, batch__deleted_at=None).select_related("batch"))
    zone = ZoneInfo(of.time_zone)
    known: dict[UUID, Band] = {}
    for year in {part.batch.begun_at.astimezone(zone).year for part in parts}:
        season = costs.season(of, (datetime(year, 1, 1, tzinfo=zone), datetime(year + 1, 1, 1, tzinfo=zone)))
        if season is not None:
            told = {one.id: one.cost_money_per_g for one in costs.reckoned(season.record).batches}
            known |= {UUID(key): band for key, name in season.names.items() if (band := told.get(name)) is not None}
    prices = {}
    for vat, of_vat in into.items():
        rows = [
            (part.pigment_g, known[part.batch_id]) for part in parts if part.jar_id in of_vat and part.batch_id in known
        ]
        if rows:
            prices[vat] = _mixed(rows)
    return prices


def _mixed(rows: list[tuple[float, Band]]) -> Band:
    """The price of a mixture: each batch by its grams of pigment."""
    whole = sum(grams for grams, _band in rows)
    p5, p50, p95 = (sum(grams * getattr(band, name) for grams, band in rows) / whole for name in ("p5", "p50", "p95"))
    return Band(p5=p5, p50=p50, p95=p95)
