"""The record of a titration, or of nitrogen, and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.assay.common import Doubt, Milligrams, Moisture
from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record

Method = Literal["dithionite", "permanganate", "titanium", "kjeldahl"]


@record
class Standardised:
    """The same titration of pure indigo: its factor takes the place of the theory's."""

    standard_mg: Milligrams
    """Standard that was titrated."""
    standard_frac: Annotated[float, Field(ge=0.01, le=1)] = 0.95
    """Indigo in it."""
    standard_ml: Annotated[float, Field(ge=0.001, le=10_000)]
    """Titrant that it took, the blank subtracted."""
    sd_frac: Doubt = 0.03
    """How far all that may be off (standard deviation)."""


@record
class TitrationRecord:
    """A weighed sample and the titrant that it took."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the pigment, given back with the answer."""
    method: Method
    """`dithionite` and `titanium` reduce it, `permanganate` oxidises it (all sulphonated), `kjeldahl` is nitrogen."""
    sample_mg: Milligrams
    """Pigment in the portion that was titrated."""
    titre_ml: Annotated[float, Field(ge=0.001, le=10_000)]
    """Titrant used; for nitrogen, acid that the ammonia took."""
    blank_titre_ml: Annotated[float, Field(ge=0, le=10_000)] = 0.0
    """Titrant that the blank took."""
    titre_sd_ml: Annotated[float, Field(ge=0.001, le=10)] = 0.05
    """How far an end point may be off (standard deviation)."""
    titrant_mol_per_l: Annotated[float, Field(ge=LEAST, le=20)]
    """Strength of the titrant; for nitrogen, of the acid in moles of hydrogen ion."""
    titrant_sd_frac: Doubt = 0.02
    """How far that may be off; dithionite loses strength while you work."""
    standardised: Standardised | None = None
    """Pure indigo titrated the same way."""
    protein_frac: Annotated[float, Field(ge=0, le=0.6)] | None = None
    """For nitrogen: protein left in the dry pigment; default 0.03 give or take 0.03, of washed pigment."""
    moisture_frac: Moisture | None = None
    """Water in the sample as weighed; default that of air-dry pigment, 0.05; 0 after an oven."""
    scale_sd_mg: Annotated[float, Field(ge=0.0001, le=1000)] = 0.1
    """How far the weighing may be off (standard deviation)."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.blank_titre_ml >= self.titre_ml:
            raise InputError(
                where="blank_titre_ml", what=f"{self.blank_titre_ml:g} mL is as much as the sample took",
                right="a blank takes less: were the two mixed up?",
            )  # fmt: skip
        if self.protein_frac is not None and self.method != "kjeldahl":
            raise InputError(
                where="protein_frac", what="protein is only asked for nitrogen", right="leave it out, or use `kjeldahl`"
            )
        if self.standardised is not None and self.method == "kjeldahl":
            raise InputError(where="standardised", what="nitrogen needs no standard of indigo", right="leave it out")


@answer
class TitrationAnswer:
    """How much of the pigment is indigo, by titration or nitrogen."""

    version: Literal[1] = 1
    id: str
    indigo_pct: Band
    """Indigo in the dry pigment, per cent by mass."""
    apparent_pct: float
    """What the plain factor gives, of the pigment as weighed, before anything is allowed for."""
    factor_mg_per_ml: float
    """Indigo that one millilitre of titrant stands for."""
    bound: Literal["about", "at_most"]
    """`at_most` where other things are titrated too and no standard allows for them: no result to combine."""
    basis: Literal["prior", "readings"]
    """`readings` with a standard titrated the same way."""
    inputs: TitrationRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
