"""The record of a ladder of dips, and what it teaches."""

from __future__ import annotations

from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.bands import Band, BandAt
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import answer, record
from bluewright.science.colour.compare_record import Lab, Spread
from bluewright.science.colour.priors import Taken
from bluewright.science.dyeing.parts import Dipping, DyedCloth, DyeVat, check_room
from bluewright.science.dyeing.scores import Learned, check_fibre

MOST_RUNG: Final = 40
Unknown = Literal[
    "first_dip_pct", "strip_frac", "loose_frac", "yield", "through_frac", "surface_frac", "turn_nm", "blue_frac"
]
"""What is told of the unknowns, before and after."""


@record
class Rung:
    """One swatch of the ladder, finished and dry: its colour, its depth or its gain in mass; one of them at least."""

    dips: Annotated[int, Field(ge=1, le=MOST_RUNG)]
    """How many dips it got."""
    lab: Lab | None = None
    """Its L, a and b (CIELAB, D65)."""
    lab_sd: tuple[Spread, Spread, Spread] | None = None
    """Standard deviation of each; left out, the usual spread of how it was taken."""
    k_over_s: Annotated[float, Field(ge=0.01, le=120)] | None = None
    """Its depth K/S at 660 nm by an instrument, the undyed cloth in it."""
    k_over_s_sd_frac: Annotated[float, Field(ge=0.005, le=1)] = 0.05
    """How far that may be off, as a share of it."""
    gain_g: Annotated[float, Field(ge=-10, le=10_000)] | None = None
    """How much heavier it is than before the vat, dry and finished: all blue on it, fixed and loose."""
    dry_g: Annotated[float, Field(ge=0.01, le=100_000)] | None = None
    """Its dry mass before the vat; needed with a gain."""
    scale_sd_g: Annotated[float, Field(ge=0.00001, le=100)] = 0.005
    """How far each of the two weighings may be off."""

    def __post_init__(self) -> None:
        if self.lab is None and self.k_over_s is None and self.gain_g is None:
            raise InputError(
                where="lab", what="nothing was measured of this swatch", right="give its colour, its depth or its gain"
            )
        if self.gain_g is not None and self.dry_g is None:
            raise InputError(where="dry_g", what="it is missing", right="give the dry mass that the gain belongs to")


@record
class LadderRecord:
    """A ladder: swatches of one cloth from one vat, each with another number of dips."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the ladder, given back with the answer."""
    cloth: DyedCloth
    """The cloth; its mass is that of all swatches together."""
    vat: DyeVat
    """The vat before the first dip."""
    way: Dipping = Dipping()
    """How a dip is done."""
    rungs: Annotated[tuple[Rung, ...], Field(max_length=40)] = ()
    """The swatches; without any, the ladder is planned."""
    taken: Taken = "same_card"
    """How the colours were taken."""
    most_dips: Annotated[int, Field(ge=2, le=MOST_RUNG)] = 12
    """Further rungs are looked for up to so many dips."""
    learned: Learned | None = None
    """What an earlier ladder of the same fibre taught."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        check_room(self.cloth, self.vat)
        check_fibre(self.learned, self.cloth.fibre)


@answer
class Told:
    """One thing that the ladder is about, before and after it."""

    name: Unknown
    """Which."""
    before: Band
    """What was believed."""
    after: Band
    """What is believed now."""
    learned_frac: float
    """By how much its spread has shrunk, 0 nothing, 1 all."""


@answer
class Fitted:
    """A swatch beside what is now believed of it."""

    dips: int
    """Its dips."""
    l_star: Band
    """Lightness that is now believed of such a swatch, without its own scatter."""
    off_de00: float | None
    """How far its colour lies from the middle of that: CIEDE2000."""
    off_factor: float | None = None
    """Its depth K/S over the middle of what is believed."""


@answer
class NextRung:
    """A further swatch, and what it would do."""

    dips: int
    """With so many dips."""
    bits: float
    """What it teaches: each bit halves the room of what may be."""
    half_range_l_star: float
    """With it and those above it done, L* of cloth with up to `most_dips` dips is known to about plus or minus this."""


@answer
class LadderAnswer:
    """What the ladder taught, and what would teach more."""

    version: Literal[1] = 1
    id: str
    per_dip_pct: Band
    """Pure indigo that the first dip puts on the fibre, per cent of its dry mass, in this vat."""
    told: tuple[Told, ...]
    """What was believed and what is now."""
    rungs: tuple[Fitted, ...]
    """Each swatch beside what is now believed."""
    l_star_by_dips: tuple[BandAt, ...]
    """Lightness against dips, as now believed."""
    k_over_s_by_dips: tuple[BandAt, ...]
    """Depth at 660 nm against dips, as now believed."""
    half_range_l_star: float
    """L* of cloth with up to `most_dips` dips is known to about plus or minus this, but for measuring and scatter."""
    before_half_range_l_star: float
    """What it was before the ladder."""
    next_rungs: tuple[NextRung, ...]
    """Further swatches, the one that teaches most first; each counts on those above it."""
    misfit_factor: float
    """By what the stated errors had to be widened; 1 when the swatches follow the model."""
    learned: Learned | None
    """To be handed on to a forecast; absent without swatches."""
    basis: Literal["prior", "readings"]
    """Guesses alone, or your own swatches too."""
    inputs: LadderRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
