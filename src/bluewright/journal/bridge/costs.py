"""A season's batches with their water, alkali and work become the record of what the blue costs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final

import numpy as np

from bluewright.journal.bridge import book as bridge
from bluewright.journal.bridge.batches import alkali_record
from bluewright.journal.bridge.book import Basket
from bluewright.journal.models import Alkali, Garden, KitItem, WorkNote
from bluewright.journal.queries import book, work
from bluewright.journal.queries.book import Begun, InJar, Key, Span
from bluewright.journal.queries.work import PartsOf, Tubful
from bluewright.science.base.bands import sd_of
from bluewright.science.cost.call import cost
from bluewright.science.cost.cost_record import AlkaliPack, AlkaliUsed, BatchMade, CostAnswer, CostRecord, Kit, WorkDone
from bluewright.science.media.purity import Known

MOST: Final = 300
"""Batches of a season that are reckoned: the newest."""
BY_CLOCK_FRAC: Final = 0.02
BY_HEART_FRAC: Final = 0.1
"""How far minutes may be off that a clock took, and that were written down afterwards."""
LEAST_SD: Final = 0.001
MOST_SD: Final = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Season:
    """What was read of a season: its batches by key, under names of which each is its own."""

    record: CostRecord
    names: Mapping[Key, str]
    left_out: int
    """Older batches that are not in it."""


def season(of: Garden, span: Span) -> Season | None:
    """The record of a season; None where no batch was begun in it."""
    within = book.begun(of, span)
    onward = work.joined_into(within)
    jarred = bridge.jarred_as_known(within)
    listed = [row for row in book.listed(within) if row.key not in onward or row.key in jarred]
    left_out, listed = max(len(listed) - MOST, 0), listed[:MOST]
    if not listed:
        return None
    names = own_names(listed)
    baskets = bridge.baskets(book.pours(of, within), [row.key for row in listed])
    held = _holders(baskets)
    tubfuls = work.tubfuls({tub.key for basket in baskets.values() for tub in basket.tubs})
    parts, alkalis = work.alkali_parts(within), work.cupboard(of)
    makes = work.makes(within)
    ended, washed = book.given_up(within), work.wash_l(within)
    packs = {one.pk: pack for one, pack in _packs(alkalis, parts)}
    record = CostRecord(
        id=str(span[0].year),
        currency=of.currency,
        money_decimals=of.money_decimals,
        wage_money_per_h=of.wage_money_per_h,
        water_money_per_m3=of.water_money_per_m3,
        price_money_per_g=of.price_money_per_g,
        margin_frac=of.margin_frac,
        allowance_frac=of.allowance_frac,
        batches=tuple(
            _batch(
                names[row.key],
                baskets[row.key],
                tubfuls,
                jarred.get(row.key, []),
                make=makes.get(row.key, "unknown"),
                failed=row.key in ended,
                wash_l=washed.get(row.key, 0.0),
            )
            for row in listed
        ),
        work=tuple(_worked(note, names, held, onward) for note in work.for_blue(of, span)),
        alkalis=tuple(packs.values()),
        kit=tuple(_kit(one, name) for one, name in _kit_named(of)),
        used=tuple(
            AlkaliUsed(name=packs[one.alkali].name, used_amount=_amount(one), batch=_named(one.batch, names, onward))
            for one in parts
        ),
    )
    return Season(record=record, names=names, left_out=left_out)


@lru_cache(maxsize=64)
def reckoned(record: CostRecord) -> CostAnswer:
    """What a record costs, kept while it stays the same."""
    return cost(record, rng=np.random.default_rng(record.seed))


def own_names(rows: Sequence[Begun]) -> dict[Key, str]:
    """A name for each that no other has: the second `Batch 3` is `Batch 3 (2)`."""
    return dict(zip((row.key for row in rows), apart(row.name for row in rows), strict=True))


def apart(names: Iterable[str]) -> list[str]:
    """Each name, with a number where it stood before."""
    found: list[str] = []
    for name in names:
        number, own = 1, name
        while own in found:
            number += 1
            own = f"{name} ({number})"
        found.append(own)
    return found


def _batch(name: str, basket: Basket, tubfuls: Mapping[Key, Tubful], jars: Sequence[InJar], **told: Any) -> BatchMade:
    failed = told.pop("failed") and not jars
    plants = [tub.plant for tub in sorted(basket.tubs, key=lambda tub: -tub.leaf_kg)]
    return BatchMade(
        id=name,
        plant=plants[0] if plants else "woad",  # type: ignore[arg-type]
        leaf_kg=basket.leaf_kg or None,
        pigment_g=sum(one.pigment_g for one in jars) or None,
        failed=failed,
        purity=_known(jars),
        steep_l=sum(_share_l(tub.leaf_kg, tubfuls.get(tub.key)) for tub in basket.tubs),
        **told,
    )


def _share_l(leaf_kg: float, tub: Tubful | None) -> float:
    """The water of a tub for so much of its leaf."""
    if tub is None:
        return 0.0
    share = min(leaf_kg / tub.leaf_kg, 1.0) if tub.leaf_kg else 1.0
    return share * (tub.water_l + tub.rinse_l)


def _known(jars: Sequence[InJar]) -> Known | None:
    """The purity of a batch's pigment as its jars tell it; None where one of them tells nothing."""
    band = bridge.purity(jars) if jars else None
    if band is None or not 0 < band.p50 < 1:
        return None
    return Known(mean_frac=band.p50, sd_frac=min(max(sd_of(band), LEAST_SD), MOST_SD))


def _holders(baskets: Mapping[Key, Basket]) -> dict[Key, Key]:
    """For each tub the batch that holds most of its leaf."""
    most: dict[Key, tuple[float, Key]] = {}
    for batch, basket in baskets.items():
        for tub in basket.tubs:
            most[tub.key] = max(most.get(tub.key, (-1.0, batch)), (tub.leaf_kg, batch))
    return {tub: batch for tub, (_leaf_kg, batch) in most.items()}


def _worked(note: WorkNote, names: Mapping[Key, str], held: Mapping[Key, Key], onward: Mapping[Key, Key]) -> WorkDone:
    """A note; what is for a bed, for nothing, or for what is in no batch of the season is for the whole of it."""
    key = note.batch_id.hex if note.batch_id else held.get(note.steep_id.hex) if note.steep_id else None
    return WorkDone(
        kind=note.kind,  # type: ignore[arg-type]
        spent_min=note.spent_min or 0.0,
        batch="" if key is None else _named(key, names, onward),
        off_frac=BY_HEART_FRAC if note.spent_typed else BY_CLOCK_FRAC,
    )


def _named(key: Key, names: Mapping[Key, str], onward: Mapping[Key, Key]) -> str:
    """The name of a batch, or of the one that it was poured into; empty where neither is of the season."""
    seen: set[Key] = set()
    while key not in names and key in onward and key not in seen:
        seen.add(key)
        key = onward[key]
    return names.get(key, "")


def _kit_named(of: Garden) -> list[tuple[KitItem, str]]:
    rows = work.kit(of)
    return list(zip(rows, apart(row.name for row in rows), strict=True))


def _kit(row: KitItem, name: str) -> Kit:
    return Kit(
        name=name, paid_money=row.paid_money, left_money=row.left_money, lasts_years=row.lasts_years,
        lasts_batches=row.lasts_batches,
    )  # fmt: skip


def _packs(alkalis: Sequence[Alkali], parts: Sequence[PartsOf]) -> list[tuple[Alkali, AlkaliPack]]:
    """The alkalis that were used, with their prices."""
    used = {one.alkali for one in parts}
    rows = [one for one in alkalis if one.pk in used]
    return [
        (
            one,
            AlkaliPack(
                name=name, measure=alkali_record(one).unit, pack_amount=one.pack_amount,
                pack_money=one.pack_money if one.pack_amount else None,
            ),
        )
        for one, name in zip(rows, apart(row.name for row in rows), strict=True)
    ]  # fmt: skip


def _amount(part: PartsOf) -> float:
    return part.added_g if part.added_g is not None else part.added_ml or 0.0
