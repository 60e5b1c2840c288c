"""A piece with its vats, jars, batches and notes of work becomes the record of what it cost."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import datetime
from functools import lru_cache
from math import expm1
from typing import Any, Final
from uuid import UUID

import numpy as np

from bluewright.journal.bridge import dyeing
from bluewright.journal.bridge.batches import alkali_record
from bluewright.journal.bridge.stored import word
from bluewright.journal.bridge.vat_price import WentIn, went_in
from bluewright.journal.bridge.vats import vat_answer
from bluewright.journal.models import Garden, Piece, Vat
from bluewright.journal.queries import supplies, vats, work
from bluewright.journal.queries.pieces import dips_of
from bluewright.journal.queries.supplies import Pack
from bluewright.science.base.bands import Band, log_sd_of
from bluewright.science.cost.cloth import cloth_cost
from bluewright.science.cost.cloth_record import ClothCostAnswer, ClothCostRecord, IntoVat, VatShare
from bluewright.science.cost.vat import VatCost, cost_of_vat
from bluewright.science.dyeing.shade_record import MOST_DIPS
from bluewright.science.media.cloth import conditioned_kg
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
    went, cupboard, minutes = went_in(of, dipped), _cupboard(of), work.spent_at(dipped)
    return ClothCostRecord(
        id=row.name,
        currency=of.currency,
        money_decimals=of.money_decimals,
        wage_money_per_h=of.wage_money_per_h,
        vats=tuple(
            _share(row, found[key], times, went[key], cupboard, minutes.get(key), now) for key, times in dipped.items()
        ),
        spent_min=work.spent_on(row),
        seed=row.seed,
    )


def _share(
    row: Piece, vat: Vat, times: list[datetime], went: WentIn, cupboard: Mapping[str, Pack], minutes: float | None,
    now: datetime,
) -> VatShare:  # fmt: skip
    """A vat's part in a piece; work at the vat is shared by kilograms dipped, each piece as often as it went in."""
    stands = vat_answer(vat, now)
    share = _share_of(vat, stands, _drawn(row, vat, times, now), went, cupboard)
    if minutes is None:
        return share
    all_kg = sum(dip.cloth_kg for dip in stands.inputs.dips)
    own_kg = len(times) * conditioned_kg(row.mass_g / 1000.0, fibre=word(row.fibre), basis=word(row.basis))
    return replace(share, spent_min=minutes, dipped_frac=round(min(own_kg / max(all_kg, own_kg), 1.0), 6))


def vat_cost(vat: Vat, *, now: datetime) -> VatCost:
    """What all that went into a vat of `queries.vats` cost. Raises InputError or ModelError as its state does."""
    stands, went = vat_answer(vat, now), went_in(vat.garden, [vat.pk])[vat.pk]
    record = _share_of(vat, stands, stands.total_g, went, _cupboard(vat.garden))
    return cost_of_vat(record, rng=np.random.default_rng(vat.seed))


def _share_of(vat: Vat, stands: VatAnswer, drawn: Band, went: WentIn, cupboard: Mapping[str, Pack]) -> VatShare:
    """A vat with all that went in, and how much of its blue is asked for."""
    whole = Band(
        p5=stands.total_g.p5 + stands.taken_g.p5, p50=stands.total_g.p50 + stands.taken_g.p50,
        p95=stands.total_g.p95 + stands.taken_g.p95,
    )  # fmt: skip
    blue = went.blue_money_per_g
    money: dict[str, Any] = {} if blue is None else {"blue_money_per_g": blue.p50, "blue_off_frac": off_frac(blue)}
    return VatShare(
        name=vat.name, drawn_g=drawn.p50, drawn_off_frac=off_frac(drawn), put_in_g=whole.p50,
        put_in_off_frac=off_frac(whole), others=tuple(_others(went, cupboard)), **money,
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


def _others(went: WentIn, cupboard: Mapping[str, Pack]) -> Iterator[IntoVat]:
    """What went into it beside powder, each kind once, with its price where the cupboard tells one."""
    for what, grams in went.used_g.items():
        pack = cupboard.get(what)
        price: dict[str, Any] = {}
        if pack is not None:
            price = pack._asdict()
        yield IntoVat(name=SUBSTANCES[word(what)], used_g=grams, **price)


def _cupboard(of: Garden) -> dict[str, Pack]:
    """Solids of the alkali cupboard and supplies that have a price, by kind."""
    alkalis = {
        one.kind: Pack(one.pack_amount, one.pack_money)
        for one in work.cupboard(of)
        if one.pack_amount and one.pack_money is not None and alkali_record(one).unit == "g"
    }
    return alkalis | supplies.last_packs(of)
