"""The acid-wash record and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record

Grams = Annotated[float, Field(ge=0, le=1_000_000)]


@record
class Acid:
    """The acid as its label says it."""

    kind: Literal["vinegar", "hydrochloric"] = "vinegar"
    """`vinegar` (acetic acid) or `hydrochloric` acid."""
    percent_w_v: Annotated[float, Field(ge=LEAST, le=100)] | None = None
    """Vinegar: grams of acetic acid in 100 mL, which is what labels call percent acidity; default 5."""
    percent_w_w: Annotated[float, Field(ge=LEAST, le=38)] | None = None
    """Hydrochloric acid: grams of HCl in 100 g, from the label; required for it."""

    def __post_init__(self) -> None:
        if self.kind == "hydrochloric" and self.percent_w_w is None:
            raise InputError(
                where="percent_w_w",
                what="the strength of the hydrochloric acid is missing",
                right="give the percent that stands on its label; bottles differ from 7 to 37",
            )
        wrong = "percent_w_w" if self.kind == "vinegar" else "percent_w_v"
        if getattr(self, wrong) is not None:
            raise InputError(
                where=wrong,
                what=f"{self.kind} is not counted so",
                right=f"use {'percent_w_v' if self.kind == 'vinegar' else 'percent_w_w'}",
            )


@record
class AcidRecord:
    """Limed pigment to be freed of lime and calcite."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the batch, given back with the answer."""
    calcite_g: Grams = 0.0
    """Calcium carbonate in the pigment; the middle, if it is known as a range."""
    calcite_low_g: Grams | None = None
    """The 5 % point of it; default about two thirds of the middle."""
    calcite_high_g: Grams | None = None
    """The 95 % point of it; default about one and a half times the middle."""
    lime_g: Grams = 0.0
    """Slaked lime still there as such."""
    acid: Acid = Acid()
    """The acid that is at hand."""
    pigment_g: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """Dry mass of the pigment before the acid, if known; the answer then says what is left."""
    indigo_frac: Annotated[float, Field(ge=0, le=1)] | None = None
    """Purity before the acid, if known."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.calcite_g + self.lime_g <= 0:
            raise InputError(
                where="calcite_g",
                what="there is neither calcite nor lime to wash out",
                right="give calcite_g or lime_g above 0; without lime no acid wash is needed",
            )
        low = self.calcite_g if self.calcite_low_g is None else self.calcite_low_g
        high = self.calcite_g if self.calcite_high_g is None else self.calcite_high_g
        if not low <= self.calcite_g <= high:
            raise InputError(
                where="calcite_low_g" if low > self.calcite_g else "calcite_high_g",
                what=f"{self.calcite_g:g} g is not between {low:g} and {high:g} g",
                right="the range must hold calcite_g",
            )
        if self.pigment_g is not None and self.calcite_g + self.lime_g >= self.pigment_g:
            raise InputError(
                where="pigment_g",
                what=f"{self.pigment_g:g} g is not more than the calcite and lime in it",
                right=f"more than {self.calcite_g + self.lime_g:g} g; was it weighed dry?",
            )


@answer
class AcidPart:
    """One part of the acid."""

    add_ml: float
    """What to pour in, slowly, stirring."""
    total_ml: float
    """What is in then."""
    then: str
    """What to wait and look for."""


@answer
class AcidAnswer:
    """How much acid, in which parts, and what it does."""

    version: Literal[1] = 1
    id: str
    acid_mol_per_l: Band
    """Strength of the acid."""
    exact_ml: Band
    """Acid that the lime and calcite use up."""
    total_low_ml: float
    """With a fifth more than the middle needs: where the wash usually ends."""
    total_high_ml: float
    """With half more: if it takes more than this there was more calcite than thought, or the acid is weaker."""
    parts: tuple[AcidPart, ...]
    """The acid in parts, each after the fizz of the one before."""
    done_below_ph: float
    """The wash is over when the pH stays below this for ten minutes and nothing fizzes."""
    co2_l: Band
    """Carbon dioxide given off, litres at 20 C and 1 atm."""
    pigment_after_g: Band | None
    """Dry pigment left, if `pigment_g` is known."""
    indigo_after_frac: Band | None
    """Its purity, if `indigo_frac` is known too."""
    basis: Literal["prior", "readings"]
    """`prior`: the calcite is an estimate with its range; nothing here was read at the tub."""
    inputs: AcidRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
