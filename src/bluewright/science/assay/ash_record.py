"""The record of moisture, ash and acid wash, and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record

Grams = Annotated[float, Field(ge=LEAST, le=100_000)]
Share = Annotated[float, Field(ge=0.0001, le=0.9999)]


@record
class WashedWith:
    """A portion freed of chalk with dilute acid or vinegar, rinsed and dried again."""

    before_g: Grams
    """Dry pigment before."""
    after_g: Grams
    """Dry pigment after."""

    def __post_init__(self) -> None:
        if self.after_g > self.before_g:
            raise InputError(
                where="after_g", what="it weighs more than before", right="dry it as far as before, and weigh again"
            )


@record
class AshRecord:
    """What a pigment leaves when it is dried, burnt or washed with acid."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the pigment, given back with the answer."""
    sample_g: Grams
    """Pigment as weighed, air-dry."""
    dried_g: Grams | None = None
    """The same after the oven (105 C until it loses no more); left out: 0.05 of it is taken as water."""
    ash_g: Annotated[float, Field(ge=0, le=100_000)] | None = None
    """Ash of that sample."""
    ashed: Literal["dull_red", "bright_red"] = "dull_red"
    """`dull_red`: about 550 C, where chalk stays chalk; `bright_red`: above 800 C, where it becomes quicklime."""
    calcium_frac: Annotated[float, Field(ge=0, le=0.4)] | None = None
    """Calcium in the dry pigment, if a laboratory measured it."""
    washed: WashedWith | None = None
    """Acid wash of a weighed portion."""
    before_frac: Share | None = None
    """Indigo in the dry pigment before that wash, if it is known: then it is told for after it."""
    before_sd_frac: Annotated[float, Field(ge=0.001, le=0.5)] = 0.02
    """How far that may be off (standard deviation)."""
    scale_sd_g: Annotated[float, Field(ge=0.00001, le=100)] = 0.01
    """How far a weighing may be off (standard deviation)."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.dried_g is not None and self.dried_g > self.sample_g:
            raise InputError(where="dried_g", what="it weighs more than before the oven", right="check both weighings")
        dry_g = self.dried_g if self.dried_g is not None else self.sample_g
        if self.ash_g is not None and self.ash_g >= dry_g:
            raise InputError(
                where="ash_g", what=f"{self.ash_g:g} g of ash is all of the pigment", right="weigh it without the dish"
            )
        if self.ash_g is None and self.calcium_frac is None and self.washed is None:
            raise InputError(where="ash_g", what="nothing was burnt, washed or analysed", right="give one of them")
        if self.before_frac is not None and self.washed is None and self.calcium_frac is None:
            raise InputError(
                where="before_frac", what="no wash is told", right="give masses before and after, or the calcium"
            )


@answer
class AshAnswer:
    """The most indigo that can be in the pigment, and what an acid wash makes of it."""

    version: Literal[1] = 1
    id: str
    most_pct: Band
    """Upper bound of indigo in the dry pigment, per cent: what is neither ash nor chalk."""
    mineral_pct: Band
    """Mineral matter in the dry pigment, as it was before burning."""
    chalk_pct: Band | None
    """Calcium carbonate in it, by calcium or by acid wash; absent where neither is known."""
    after_wash_pct: Band | None
    """Indigo in the dry pigment once the chalk is gone; absent without the purity before."""
    enriched_factor: Band | None
    """How many times purer the wash makes it."""
    basis: Literal["readings"]
    """Always your own weighings."""
    inputs: AshRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
