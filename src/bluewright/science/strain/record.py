"""The straining record and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.strain.priors import Squeeze


@record
class StrainRecord:
    """One tub at straining."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the tub, given back with the answer."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)]
    """Fresh leaf that was put in, weighed before washing."""
    water_l: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Water that was put in."""
    squeeze: Squeeze = "drained"
    """How the leaves are strained: `drained` in a sieve, wrung by `hand`, or in a `press`."""
    rinse_l: Annotated[float, Field(ge=0, le=1_000_000)] = 0.0
    """Water poured over the strained leaves and added to the liquor."""
    liquor_out_l: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """Liquor measured before any rinse, if it was; the forecast then starts from it."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.liquor_out_l is not None and self.liquor_out_l > self.water_l + self.leaf_kg:
            raise InputError(
                where="liquor_out_l",
                what=f"{self.liquor_out_l:g} L is more than the water and the leaf put in together",
                right=f"at most {self.water_l + self.leaf_kg:g} L can run out; was rain or the rinse counted?",
            )


@answer
class StrainAnswer:
    """Where the liquor and the blue are after straining."""

    version: Literal[1] = 1
    id: str
    liquor_out_l: Band
    """Liquor that runs out, before the rinse."""
    kept_l: Band
    """Liquor that stays in the leaves, before the rinse."""
    blue_out_frac: Band
    """Share of the dissolved blue that is in the liquor, with the rinse if there is one."""
    gain_by_hand_frac: Band
    """Share of all dissolved blue that wringing by hand would add to draining."""
    gain_by_press_frac: Band
    """Share of all dissolved blue that a press would add to draining."""
    gain_by_rinse_frac: Band
    """Share that the rinse adds, or, if the record has none, that one litre for each kilogram of leaf would add."""
    dilution_frac: float
    """How much weaker the liquor becomes by the rinse: 0.1 means a tenth weaker."""
    basis: Literal["prior", "readings"]
    """What the answer rests on: published and practice priors alone, or your own measured liquor too."""
    inputs: StrainRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
