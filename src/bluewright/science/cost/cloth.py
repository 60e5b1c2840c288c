"""What a dyed piece costs: its blue, its share of the vat, the work on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.cost.cloth_record import (
    ClothCostAnswer,
    ClothCostPart,
    ClothCostRecord,
    ClothItem,
    IntoVat,
    VatShare,
)
from bluewright.science.cost.priors import BLUE_OFF_FRAC, DRAWN_OFF_FRAC, PUT_IN_OFF_FRAC

DRAWS: Final = 2000
SOURCE: Final = "bluewright-cost"


def cloth_cost(record: ClothCostRecord, *, rng: np.random.Generator) -> ClothCostAnswer:
    """What a piece costs in money, grams of blue and hours.

    Formula: blue = sum drawn * price of a gram; vat = sum min(drawn / put in, 1) * (used * pack price / pack);
    work = (minutes + sum share dipped * minutes of the vat) / 60 * wage;
    whole = (blue + vat + work + own) / (1 - failed). Each amount is log-normal about what was told; all is added within
    each draw. Source: common practice.
    """
    drawn = [about(vat.drawn_g, off_frac(vat.drawn_off_frac, DRAWN_OFF_FRAC), rng) for vat in record.vats]
    shared = [one for vat in record.vats if (one := vat.shared_min) is not None]
    noted = [*shared, *([] if record.spent_min is None else [record.spent_min])]
    spent = about(1.0, record.spent_off_frac, rng) if noted else None
    work_h = None if spent is None else spent * sum(noted) / 60.0
    carried = 1.0 / (1.0 - record.failed_frac)
    parts = {item: carried * money for item, money in _parts(record, drawn, work_h, rng).items()}
    whole = sum(parts.values(), np.zeros(DRAWS))
    priced = bool(parts) and bool(np.all(whole > 0))
    told = sorted(
        (
            ClothCostPart(item=item, cost_money=band(money), share_frac=significant(float(np.mean(money / whole)), 3))
            for item, money in parts.items()
        ),
        key=lambda part: -part.share_frac,
    ) if priced else []  # fmt: skip
    return ClothCostAnswer(
        id=record.id,
        cost_money=band(whole) if priced else None,
        blue_g=band(np.sum(drawn, axis=0)),
        work_h=None if work_h is None else band(work_h),
        vats_work_h=band(spent * sum(shared) / 60.0) if spent is not None and shared else None,
        parts=tuple(told),
        most=told[0].item if told else None,
        unpriced=tuple(_unpriced(record)),
        inputs=record,
        cautions=tuple(_cautions(record)),
        sources=(SOURCE, "common-practice"),
    )


def _parts(
    record: ClothCostRecord, drawn: list[Floats], work_h: Floats | None, rng: np.random.Generator
) -> dict[ClothItem, Floats]:
    """The money of each thing that has a price, by draw."""
    found: dict[ClothItem, Floats] = {}
    for vat, grams in zip(record.vats, drawn, strict=True):
        if vat.blue_money_per_g is not None:
            found["blue"] = found.get("blue", 0.0) + grams * about(
                vat.blue_money_per_g, off_frac(vat.blue_off_frac, BLUE_OFF_FRAC), rng
            )
        others_money = sum(money_of(one) for one in vat.others if one.pack_money is not None)
        if others_money and vat.put_in_g is not None:
            found["vat"] = found.get("vat", 0.0) + others_money * _share(vat, grams, rng)
    if work_h is not None and record.wage_money_per_h is not None:
        found["work"] = work_h * record.wage_money_per_h
    if record.own_money:
        found["own"] = np.full(DRAWS, record.own_money)
    return found


def _share(vat: VatShare, drawn_g: Floats, rng: np.random.Generator) -> Floats:
    """Its share of all that went into the vat: that of its blue, and never more than all."""
    assert vat.put_in_g is not None  # the caller asked
    return np.minimum(drawn_g / about(vat.put_in_g, off_frac(vat.put_in_off_frac, PUT_IN_OFF_FRAC), rng), 1.0)


def money_of(one: IntoVat) -> float:
    """What so much of a pack that has a price cost."""
    assert one.pack_g is not None and one.pack_money is not None  # a price has its pack
    return one.used_g * one.pack_money / one.pack_g


def off_frac(told_frac: float | None, usual: Sourced) -> float:
    """How far something may be off, as a share: as told, else as usual."""
    return usual.value if told_frac is None else told_frac


def about(value: float, off_frac: float, rng: np.random.Generator) -> Floats:
    """Log-normal draws about a value, off by so much of it."""
    return np.asarray(value * np.exp(np.log1p(off_frac) * rng.standard_normal(DRAWS)))


def _unpriced(record: ClothCostRecord) -> Iterator[str]:
    for vat in record.vats:
        yield from unpriced_of(vat)


def unpriced_of(vat: VatShare) -> Iterator[str]:
    """What of a vat has no price, or no share that could be told."""
    if vat.blue_money_per_g is None:
        yield f"blue of {vat.name}" if vat.name else "blue"
    for one in vat.others:
        if one.pack_money is None or vat.put_in_g is None:
            yield one.name


def _cautions(record: ClothCostRecord) -> Iterator[Caution]:
    unpriced = list(dict.fromkeys(_unpriced(record)))
    if unpriced:
        named = ", ".join(f"'{name[:40]}'" for name in unpriced[:3])
        more = f" and {len(unpriced) - 3} more" if len(unpriced) > 3 else ""
        text = f"No price is known of {named}{more}: it is not in the money."
        yield caution("alkali-unpriced", text, source=SOURCE)
    if record.spent_min is None:
        shared = any(vat.shared_min is not None for vat in record.vats)
        text = (
            "No work on the piece itself was noted, and none is guessed: only its share of the work at its vats counts."
            if shared
            else "No work on the piece was noted, and none is guessed: hours at the vat are not in these figures."
        )
        yield caution("work-not-counted", text, source=SOURCE)
    if record.wage_money_per_h is not None:
        text = (
            "This is reckoned for yourself. For taxes, grants or a business your local rules and an accountant go "
            "first."
        )
        yield caution("own-rule", text, source=SOURCE)
