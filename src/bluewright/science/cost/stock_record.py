"""The record of jars and alkali as they were booked and weighed, and what is left of them."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.cost.amounts import Amount, Measure
from bluewright.science.media.alkali_kind import Kind
from bluewright.science.media.basket import Plant
from bluewright.science.media.purity import Known, Make

Name = Annotated[str, Field(max_length=200)]
Grams = Annotated[float, Field(ge=0, le=1_000_000)]


@record
class JarInStock:
    """One jar of dry pigment."""

    name: Name
    """What stands on it."""
    filled: date
    """When it was filled."""
    put_in_g: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Pigment that went in, weighed without the jar."""
    taken_g: Grams = 0.0
    """What was taken out since, as noted."""
    takings: Annotated[int, Field(ge=0, le=10_000)] = 0
    """How many times: each weighing may be off."""
    weighed_g: Grams | None = None
    """What it weighs now without the jar, if it was weighed again."""
    dried_again: bool = False
    """Whether it was dried before that as it was the first time; else the damp of the air is in it."""
    scale_sd_g: Annotated[float, Field(ge=LEAST, le=1000)] = 0.5
    """How far a weighing may be off (standard deviation)."""
    plant: Plant = "woad"
    """`woad`, `japanese_indigo` or `indigofera`."""
    make: Make = "unknown"
    """`unlimed`, `limed`, `acid_washed` or `unknown`."""
    purity: Known | None = None
    """Indigo in the dry pigment as measured; without it a range by plant and how it was made."""
    moisture_frac: Annotated[float, Field(ge=0, lt=0.95)] | None = None
    """Water in it when it was filled, as a share; left out: that of air-dry pigment, 0.05 give or take 0.01."""

    def __post_init__(self) -> None:
        most = self.put_in_g + 4 * self.scale_sd_g * (self.takings + 2) ** 0.5
        if self.taken_g > most:
            raise InputError(
                where="taken_g",
                what=f"{self.taken_g:g} g is more than went in",
                right=f"at most {self.put_in_g:g} g; what was put in later belongs into put_in_g",
            )


@record
class AlkaliInStock:
    """One pack of alkali."""

    name: Name
    """What stands on it."""
    kind: Kind
    """`ammonia`, `soda_ash`, `washing_soda`, `potash`, `lye`, `potassium_lye`, `slaked_lime` or `ash_lye`."""
    measure: Measure = "g"
    """`g` if it is weighed out, `ml` if it is measured out."""
    pack_amount: Annotated[float, Field(ge=LEAST, le=10_000_000)]
    """What was in it when it was new, in that measure."""
    used_amount: Annotated[float, Field(ge=0, le=10_000_000)] = 0.0
    """What was used of it."""
    opened: date | None = None
    """When it was opened; left out while it is closed: then it keeps."""
    batch_takes_amount: Annotated[float, Field(ge=LEAST, le=10_000_000)] | None = None
    """What one batch takes of it: the mean of yours."""
    batches_seen: Annotated[int, Field(ge=0, le=10_000)] = 0
    """Over how many batches that mean was taken."""

    def __post_init__(self) -> None:
        if self.used_amount > 1.2 * self.pack_amount:
            raise InputError(
                where="used_amount",
                what=f"{self.used_amount:g} is more than the pack held",
                right=f"at most {self.pack_amount:g}; begin a new pack as a row of its own",
            )


@record
class StockRecord:
    """All jars and packs."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Name = ""
    """Your own name for it, given back with the answer."""
    now: date
    """Today."""
    jars: Annotated[tuple[JarInStock, ...], Field(max_length=300)] = ()
    """Jars of dry pigment."""
    alkalis: Annotated[tuple[AlkaliInStock, ...], Field(max_length=50)] = ()
    """Packs of alkali."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if not self.jars and not self.alkalis:
            raise InputError(where="jars", what="there is neither a jar nor an alkali", right="give at least one")
        for rows, field in (("jars", "filled"), ("alkalis", "opened")):
            for k, row in enumerate(getattr(self, rows)):
                day = getattr(row, field)
                if day is not None and day > self.now:
                    raise InputError(where=f"{rows}[{k}].{field}", what="this lies after now", right="check the day")


@answer
class JarLeft:
    """What is left in one jar."""

    name: str
    filled: date
    booked_g: float
    """What is left by what was put in and taken."""
    left_g: Band
    """Pigment left, as it would weigh if it were as dry as when it was filled."""
    pure_g: Band
    """Pure blue in that."""
    purity_frac: Band
    """Indigo in the dry pigment."""
    difference_g: float | None = None
    """Weighed less booked; absent where it was not weighed again."""
    usual_difference_g: Band | None = None
    """Such differences as scale and damp bring by themselves."""
    explained_chance: float | None = None
    """How often scale and damp alone bring one as large: under 0.05, something was spilt, forgotten or mistaken."""


@answer
class AlkaliLeft:
    """What is left of one alkali."""

    name: str
    kind: Kind
    left_amount: Amount
    """What is left."""
    strength_factor: Band
    """Its strength now beside that of a new pack; crystals of washing soda grow stronger as they dry."""
    open_months: float | None = None
    """Months since it was opened; absent where it is closed."""
    lasts_batches: Band | None = None
    """How many batches it still serves; absent where nobody knows what one takes."""


@answer
class StockAnswer:
    """What is left of jars and alkali."""

    version: Literal[1] = 1
    id: str
    left_g: Band | None = None
    """Pigment in all jars."""
    pure_g: Band | None = None
    """Pure blue in all jars; what is wrong of one purity is taken to be wrong of all."""
    jars: tuple[JarLeft, ...]
    """Those that hold something first, each the oldest first: use them in this order."""
    unexplained_jars: tuple[str, ...]
    """Jars whose weighing differs by more than scale and damp explain."""
    alkalis: tuple[AlkaliLeft, ...]
    """The one that serves the fewest batches first."""
    basis: Literal["prior", "readings"]
    """`readings` if a purity was measured or a jar weighed again; what was booked is always read."""
    inputs: StockRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
