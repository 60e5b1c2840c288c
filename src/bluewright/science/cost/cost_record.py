"""The record of what a season's batches took, and what they cost."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.cost.amounts import Amount, Measure
from bluewright.science.cost.priors import ALLOWANCE_FRAC, WorkKind
from bluewright.science.media.basket import Plant
from bluewright.science.media.purity import Known, Make

Name = Annotated[str, Field(max_length=200)]
Money = Annotated[float, Field(ge=0, le=1e9)]
Item = Literal[WorkKind, "alkali", "water", "fuel", "kit"]
NextReading = Literal[WorkKind, "purity", "moisture"]
State = Literal["done", "failed", "underway"]
SharesOf = Literal["money", "hours"]


@record
class BatchMade:
    """One batch of the season."""

    id: Name
    """Your own name for it; work and alkali below are noted under this name."""
    plant: Plant = "woad"
    """`woad`, `japanese_indigo` or `indigofera`."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)] | None = None
    """Fresh leaf that went in; picking is estimated by it, and what serves the whole season is shared by it."""
    pigment_g: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """Dry pigment that came of it; left out while it is still on its way."""
    scale_sd_g: Annotated[float, Field(ge=LEAST, le=1000)] = 0.5
    """How far that weighing may be off (standard deviation)."""
    failed: bool = False
    """Whether it was given up: what it cost is carried by the others."""
    purity: Known | None = None
    """Indigo in the dry pigment as measured; without it a range by plant and how it was made."""
    make: Make = "unknown"
    """`unlimed`, `limed`, `acid_washed` or `unknown`."""
    moisture_frac: Annotated[float, Field(ge=0, lt=0.95)] | None = None
    """Water in the pigment as weighed, as a share; left out: that of air-dry pigment, 0.05 give or take 0.01."""
    steep_l: Annotated[float, Field(ge=0, le=1_000_000)] = 0.0
    """Water that the leaf was steeped and rinsed in."""
    wash_l: Annotated[float, Field(ge=0, le=1_000_000)] = 0.0
    """Water for washing the blue."""
    fuel_money: Money = 0.0
    """Wood, gas, current, and whatever else was paid for this batch alone."""

    def __post_init__(self) -> None:
        if self.failed and self.pigment_g is not None:
            raise InputError(where="failed", what="it was given up and gave pigment", right="leave one of the two out")


@record
class WorkDone:
    """Work that was noted."""

    kind: WorkKind
    """`bed`, `picking`, `filling`, `looking`, `straining`, `airing`, `washing`, `drying`, `grinding` or `other`."""
    spent_min: Annotated[float, Field(ge=0, le=1_000_000)]
    """Minutes of one person; of two together, both. 0 says that there was none: it is not estimated then."""
    batch: Name = ""
    """For which batch; left out: for all of them, shared by their leaf."""
    off_frac: Annotated[float, Field(ge=0, le=2)] = 0.1
    """How far it may be off, as a share: 0.02 by a clock, 0.1 noted afterwards, 0.3 from memory."""


@record
class AlkaliPack:
    """An alkali, and what a pack of it costs."""

    name: Name
    """Your own name for it."""
    measure: Measure = "g"
    """`g` if it is weighed out, `ml` if it is measured out."""
    pack_amount: Annotated[float, Field(ge=LEAST, le=10_000_000)] | None = None
    """What a new pack holds, in that measure."""
    pack_money: Money | None = None
    """What a pack costs; left out: it is counted as an amount, not as money."""

    def __post_init__(self) -> None:
        if self.pack_money is not None and self.pack_amount is None:
            raise InputError(
                where="pack_amount",
                what="it is missing",
                right="say how much a pack holds, so that its price says something",
            )

    @property
    def unit_money(self) -> float | None:
        """What a gram, or a millilitre, costs; None without a price."""
        if self.pack_money is None or self.pack_amount is None:
            return None
        return self.pack_money / self.pack_amount


@record
class AlkaliUsed:
    """Alkali that went into a batch."""

    name: Name
    """Which, by its name among the alkalis."""
    used_amount: Annotated[float, Field(ge=0, le=10_000_000)]
    """How much, in the measure of that alkali."""
    batch: Name = ""
    """Into which batch; left out: for all of them, shared by their leaf."""


@record
class Kit:
    """A tub, a sieve, a pump: paid once, used for years."""

    name: Name
    """What it is."""
    paid_money: Money
    """What was paid for it."""
    left_money: Money = 0.0
    """What it will still be worth in the end."""
    lasts_years: Annotated[int, Field(ge=1, le=100)] | None = None
    """Years that it is expected to last."""
    lasts_batches: Annotated[int, Field(ge=1, le=100_000)] | None = None
    """Or: batches that it is expected to last."""

    def __post_init__(self) -> None:
        if (self.lasts_years is None) == (self.lasts_batches is None):
            raise InputError(
                where="lasts_years", what="give lasts_years or lasts_batches, one of them", right="your best guess"
            )
        if self.left_money > self.paid_money:
            raise InputError(where="left_money", what="it is more than was paid", right=f"at most {self.paid_money:g}")


@record
class CostRecord:
    """The batches of a season, or one of them, with all that went into them."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Name = ""
    """Your own name for it, given back with the answer."""
    currency: Annotated[str, Field(max_length=8)] = ""
    """How your money is called, as it is to be printed: EUR, £, kr. Nothing is exchanged."""
    money_decimals: Annotated[int, Field(ge=0, le=3)] = 2
    """Decimals of that money: 2 for cents, 0 for yen."""
    wage_money_per_h: Money | None = None
    """What an hour of work is to be paid; left out: hours are told, and not counted as money."""
    water_money_per_m3: Money | None = None
    """Price of a cubic metre of water; left out: it costs nothing, or you do not know."""
    price_money_per_g: Money | None = None
    """What you ask for a gram of pure blue; the hourly return is told for it."""
    margin_frac: Annotated[float, Field(ge=0, le=0.95)] = 0.0
    """Share of a price that is to be left over once all is paid."""
    allowance_frac: Annotated[float, Field(ge=0, le=0.95)] = ALLOWANCE_FRAC.value
    """Share of the blue that is never sold: spilt, given as swatches, kept back. Usual are 0.05 to 0.15."""
    batches: Annotated[tuple[BatchMade, ...], Field(min_length=1, max_length=300)]
    """The batches."""
    work: Annotated[tuple[WorkDone, ...], Field(max_length=5000)] = ()
    """Work that was noted. What is not noted of a batch is estimated, from your other notes where there are some."""
    alkalis: Annotated[tuple[AlkaliPack, ...], Field(max_length=50)] = ()
    """Alkalis, with the prices of their packs."""
    used: Annotated[tuple[AlkaliUsed, ...], Field(max_length=5000)] = ()
    """Alkali that went in."""
    kit: Annotated[tuple[Kit, ...], Field(max_length=100)] = ()
    """What was bought for years: its price is shared over them in equal parts."""
    batches_a_year: Annotated[int, Field(ge=1, le=10_000)] | None = None
    """Batches that share a year of the kit; left out: as many as are told of here."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        names = [batch.id for batch in self.batches]
        _once(names, where="batches[{}].id")
        _once([pack.name for pack in self.alkalis], where="alkalis[{}].name")
        for rows in ("work", "used"):
            for k, row in enumerate(getattr(self, rows)):
                if row.batch and row.batch not in names:
                    raise InputError(
                        where=f"{rows}[{k}].batch",
                        what=f"there is no batch '{row.batch[:60]}'",
                        right="give it the name of one of the batches, or leave it out",
                    )
        for k, used in enumerate(self.used):
            if used.name not in [pack.name for pack in self.alkalis]:
                raise InputError(
                    where=f"used[{k}].name",
                    what=f"there is no alkali '{used.name[:60]}'",
                    right="give it a row among the alkalis; its price may be left out",
                )


def _once(names: list[str], *, where: str) -> None:
    for k, name in enumerate(names):
        if name in names[:k]:
            raise InputError(where=where.format(k), what=f"'{name[:60]}' stands twice", right="give each its own name")


@answer
class CostPart:
    """One thing that the blue costs."""

    item: Item
    """Which."""
    work_h: Band | None = None
    """Hours, where it is work."""
    cost_money: Band | None = None
    """Money, wages included; absent where no price is known."""
    share_frac: float
    """Its mean share of the whole; the shares add up to 1."""
    share_band_frac: Band
    """That share with its range."""
    basis: Literal["readings", "garden", "prior"]
    """`readings` if all of it was noted, `garden` if some was estimated from your other notes, else `prior`."""


@answer
class AlkaliSum:
    """One alkali over all batches, or in one of them."""

    name: str
    used_amount: Amount
    """How much."""
    used_amount_per_g: Amount | None = None
    """How much for a gram of pure blue."""
    cost_money: Band | None = None
    """What it cost; absent without a price."""


@answer
class BatchCost:
    """What one batch took."""

    id: str
    state: State
    """`done`, `failed`, or `underway`: still on its way, and counted so far."""
    work_h: Band
    """Hours of work."""
    water_l: Band
    """Water."""
    alkalis: tuple[AlkaliSum, ...] = ()
    """Each alkali that went into it."""
    cost_money: Band | None = None
    """Its own money, without what failed batches cost."""
    carried_money: Band | None = None
    """Its part of what failed batches cost."""
    pure_g: Band | None = None
    """Pure blue that came of it."""
    work_h_per_g: Band | None = None
    """Hours for a gram of pure blue, failed batches included."""
    cost_money_per_g: Band | None = None
    """Money for a gram of pure blue, failed batches included."""


@answer
class CostAnswer:
    """What the blue costs, over all batches and for a gram of it."""

    version: Literal[1] = 1
    id: str
    pure_g: Band | None = None
    """Pure blue of the batches that are done; absent where none is."""
    work_h: Band
    """Hours of work, failed batches included, those underway left out; of all where none is done."""
    work_h_per_g: Band | None = None
    """Hours for a gram of pure blue."""
    water_l: Band
    """Water, of the same batches."""
    water_l_per_g: Band | None = None
    """Water for a gram of pure blue."""
    alkalis: tuple[AlkaliSum, ...]
    """Each alkali, of the same batches."""
    cost_money: Band | None = None
    """Money, wages included if one is given; absent where nothing has a price."""
    cost_money_per_g: Band | None = None
    """Money for a gram of pure blue."""
    paid_money: Band | None = None
    """The part of it that is no wage."""
    failed_frac: Band | None = None
    """Share of the whole that went into failed batches; absent where none failed."""
    shares_of: SharesOf
    """What the shares below are taken of: `money` if work is paid, else `hours`."""
    parts: tuple[CostPart, ...]
    """Where it goes, the largest first."""
    most: Item
    """What the largest share goes to."""
    most_saves_frac: Band
    """How much less a gram would cost if that took a quarter less."""
    more_blue_saves_frac: float
    """How much less a gram would cost with a quarter more blue of the same leaf and work."""
    price_floor_money_per_g: Band | None = None
    """Least price of a gram of pure blue that pays for all, margin and allowance included."""
    return_money_per_h: Band | None = None
    """What an hour of work earns at the price that is asked, once all else is paid."""
    return_below_wage_chance: float | None = None
    """Chance that this is less than the wage."""
    next_reading: NextReading | None = None
    """What would narrow the cost of a gram most, were it measured or noted; absent where nothing would."""
    next_gain_frac: float
    """About how much of the doubt (variance of the logarithm) it would take away."""
    batches: tuple[BatchCost, ...]
    """Each batch."""
    estimated: tuple[WorkKind, ...]
    """Kinds of work that were estimated for some batch."""
    basis: Literal["prior", "garden", "readings"]
    """`readings` if all work was noted, `garden` if what is estimated rests on your own notes too, else `prior`."""
    inputs: CostRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
