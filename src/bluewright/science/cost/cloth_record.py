"""The record of what went into a dyed piece, and what it cost."""

from __future__ import annotations

from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.cost.cost_record import Money, Name

Off = Annotated[float, Field(ge=0, le=2)]
Grams = Annotated[float, Field(ge=LEAST, le=1_000_000)]
Minutes = Annotated[float, Field(ge=0, le=1_000_000)]
ClothItem = Literal["blue", "vat", "work", "own"]
"""The blue; the vat's reductant and alkali; work on the piece; what was paid for the piece alone."""
MOST_FAILED: Final = 0.9


@record
class IntoVat:
    """Reductant, alkali or food that went into a vat."""

    name: Name
    """What it is."""
    used_g: Grams
    """How much went in, from its setting on."""
    pack_g: Grams | None = None
    """What a new pack holds."""
    pack_money: Money | None = None
    """What a pack costs; left out: it is named as not counted."""

    def __post_init__(self) -> None:
        if self.pack_money is not None and self.pack_g is None:
            raise InputError(
                where="pack_g",
                what="it is missing",
                right="say how much a pack holds, so that its price says something",
            )


@record
class VatShare:
    """A vat that the piece was dipped in."""

    name: Name = ""
    """Which."""
    drawn_g: Grams
    """Pure indigo that the piece took from it, with what dripped and washed off."""
    drawn_off_frac: Off | None = None
    """How far that may be off, as a share; left out, 0.3."""
    put_in_g: Grams | None = None
    """Pure indigo that went into the vat in all; what else went in is shared as the blue is."""
    put_in_off_frac: Off | None = None
    """How far that may be off, as a share; left out, 0.15."""
    blue_money_per_g: Money | None = None
    """What a gram of its pure blue costs; left out: the blue is counted as grams."""
    blue_off_frac: Off | None = None
    """How far that may be off, as a share; left out, 0.2."""
    others: Annotated[tuple[IntoVat, ...], Field(max_length=20)] = ()
    """Reductant, alkali, bran."""
    spent_min: Minutes | None = None
    """Minutes of work that were noted for the vat itself: setting, warming, feeding it."""
    dipped_frac: Annotated[float, Field(ge=0, le=1)] | None = None
    """The piece's share of those: of all kilograms that were dipped in the vat, each as often as it went in."""

    def __post_init__(self) -> None:
        if self.spent_min is not None and self.dipped_frac is None:
            raise InputError(
                where="dipped_frac", what="work at the vat was noted and the piece's share of it is missing",
                right="give the piece's share of all that was dipped in it, by kilograms and dips",
            )  # fmt: skip

    @property
    def shared_min(self) -> float | None:
        """The piece's minutes of the work at the vat; None where none was noted."""
        return None if self.spent_min is None or self.dipped_frac is None else self.spent_min * self.dipped_frac


@record
class ClothCostRecord:
    """A dyed piece, with all that went into it."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Name = ""
    """Your own name for the piece, given back with the answer."""
    currency: Annotated[str, Field(max_length=8)] = ""
    """How your money is called, as it is to be printed: EUR, £, kr. Nothing is exchanged."""
    money_decimals: Annotated[int, Field(ge=0, le=3)] = 2
    """Decimals of that money: 2 for cents, 0 for yen."""
    wage_money_per_h: Money | None = None
    """What an hour of work is to be paid; left out: hours are told, and not counted as money."""
    vats: Annotated[tuple[VatShare, ...], Field(min_length=1, max_length=20)]
    """The vats that it was dipped in."""
    spent_min: Minutes | None = None
    """Minutes of work on it that were noted: scour, dips, finish; left out: none was, and none is guessed."""
    spent_off_frac: Off = 0.1
    """How far they may be off, as a share."""
    own_money: Money = 0.0
    """What was paid for this piece alone: the cloth, soap, thread."""
    failed_frac: Annotated[float, Field(ge=0, le=MOST_FAILED)] = 0.0
    """Share of such pieces that cannot be used: the others carry their cost."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""


@answer
class ClothCostPart:
    """One thing that the piece costs."""

    item: ClothItem
    """Which."""
    cost_money: Band
    """Money."""
    share_frac: float
    """Its mean share of the whole; the shares add up to 1."""


@answer
class ClothCostAnswer:
    """What a dyed piece costs."""

    version: Literal[1] = 1
    id: str
    cost_money: Band | None = None
    """Money in all, for one that can be used; absent where nothing has a price."""
    blue_g: Band
    """Pure indigo that it took from its vats."""
    work_h: Band | None = None
    """Hours of work on it, with its share of the work at its vats; absent where none was noted."""
    vats_work_h: Band | None = None
    """Of those its share of the work at its vats; absent where none was noted there."""
    parts: tuple[ClothCostPart, ...]
    """Where the money goes, the largest first."""
    most: ClothItem | None = None
    """What the largest share goes to."""
    unpriced: tuple[str, ...]
    """What has no price, and is not in the money."""
    basis: Literal["readings"] = "readings"
    inputs: ClothCostRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
