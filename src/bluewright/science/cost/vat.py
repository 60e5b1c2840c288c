"""What all that went into a vat cost: its blue, its reductant and alkali."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bluewright.science.base.bands import Band, band
from bluewright.science.cost.cloth import about, money_of, off_frac, unpriced_of
from bluewright.science.cost.cloth_record import VatShare
from bluewright.science.cost.priors import BLUE_OFF_FRAC, PUT_IN_OFF_FRAC


@dataclass(frozen=True, slots=True, kw_only=True)
class Priced:
    """One thing that went in, with what so much of it cost."""

    name: str
    used_g: float
    paid_money: float


@dataclass(frozen=True, slots=True, kw_only=True)
class VatCost:
    """The money in a vat."""

    whole_money: Band | None
    """All that has a price; None where nothing has."""
    blue_money: Band | None
    """Its pure blue; None where that has no price."""
    others: tuple[Priced, ...]
    """What else has a price."""
    unpriced: tuple[str, ...]
    """What has none, and is not counted."""


def cost_of_vat(vat: VatShare, *, rng: np.random.Generator) -> VatCost:
    """What went into a vat, in money; how much a piece drew does not matter.

    Formula: put in * price of a gram + sum used * pack price / pack. The first two are log-normal about what was told.
    Raises nothing. Source: common practice.
    """
    others = tuple(
        Priced(name=one.name, used_g=one.used_g, paid_money=money_of(one))
        for one in vat.others
        if one.pack_money is not None
    )
    blue = None
    if vat.blue_money_per_g is not None and vat.put_in_g is not None:
        price = about(vat.blue_money_per_g, off_frac(vat.blue_off_frac, BLUE_OFF_FRAC), rng)
        blue = price * about(vat.put_in_g, off_frac(vat.put_in_off_frac, PUT_IN_OFF_FRAC), rng)
    fixed = sum(one.paid_money for one in others)
    whole = blue + fixed if blue is not None else np.array([fixed]) if others else None
    return VatCost(
        whole_money=None if whole is None else band(whole), blue_money=None if blue is None else band(blue),
        others=others, unpriced=tuple(dict.fromkeys(unpriced_of(vat))),
    )  # fmt: skip
