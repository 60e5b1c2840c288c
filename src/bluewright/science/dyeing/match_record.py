"""The record of a swatch to be matched, and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.records import answer, record
from bluewright.science.colour.compare_record import Lab, Spread
from bluewright.science.colour.hues import Sign
from bluewright.science.colour.priors import Taken
from bluewright.science.dyeing.parts import Dipping, DyedCloth, DyeVat, Strength, check_room
from bluewright.science.dyeing.scores import Learned, check_fibre

Step = Literal["assay", "ladder", "both"]
"""assay: the strength known to 3 %; ladder: vat, cloth and hand known as well as they can be; both of these."""


@record
class MatchRecord:
    """A swatch, a piece of last year or any wanted colour, and what it is to be matched with."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for it, given back with the answer."""
    wanted: Lab
    """L, a and b of the swatch or of last year's piece (CIELAB, D65)."""
    wanted_sd: tuple[Spread, Spread, Spread] | None = None
    """Standard deviation of each; left out, the usual spread of how they are measured."""
    within_de00: Annotated[float, Field(ge=0.5, le=20)] = 2.0
    """How different it may come out: CIEDE2000."""
    cloth: DyedCloth
    """The piece to be dyed."""
    vat: DyeVat
    """The vat as it is now."""
    way: Dipping = Dipping()
    """How a dip is done."""
    strengths_g_per_l: Annotated[tuple[Strength, ...], Field(max_length=8)] = ()
    """Strengths that the vat may be brought to; left out, usual ones beside its own."""
    most_dips: Annotated[int, Field(ge=1, le=40)] = 16
    """So many dips at most."""
    taken: Taken = "same_card"
    """How the colours are measured."""
    learned: Learned | None = None
    """What a ladder of this fibre taught; without it all rests on guesses."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        check_room(self.cloth, self.vat)
        check_fibre(self.learned, self.cloth.fibre)


@answer
class Choice:
    """The number of dips that comes nearest at one strength."""

    active_g_per_l: float
    """The strength of the vat at the beginning."""
    dips: int
    """How many dips."""
    de00: Band
    """How different it then comes out: CIEDE2000."""
    hit_chance: float
    """Chance that it comes out within what you accept."""
    pure_g: float
    """Pure reduced indigo to be put in for it first; below 0 so much is to be used up, or water added."""


@answer
class Helps:
    """Something that raises the chance."""

    step: Step
    """What: an `assay` of the vat, a `ladder` of this cloth, or `both`."""
    hit_chance: float
    """The chance then."""


@answer
class MatchAnswer:
    """How to come to the swatch."""

    version: Literal[1] = 1
    id: str
    dips: int
    """How many dips, at the strength with the best chance."""
    active_g_per_l: float
    """That strength."""
    hit_chance: float
    """Chance that it comes out within what you accept."""
    de00: Band
    """How different it comes out: CIEDE2000."""
    now: Choice
    """The best with the vat as it is: whether this vat, jar and cloth match last year's."""
    choices: tuple[Choice, ...]
    """The best at each strength."""
    nearest_de00: float
    """The least difference that the middle of what is believed comes to, at any strength and number of dips."""
    leans: tuple[Sign, ...]
    """What even that is beside the swatch, the most striking first; empty if nothing is sure."""
    helps: tuple[Helps, ...]
    """What would raise the chance, with the vat as it is."""
    basis: Literal["prior", "readings"]
    """Guesses alone, or your own ladder too."""
    inputs: MatchRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
