"""What every question about dips is told: the cloth, the vat, and how it is dyed."""

from __future__ import annotations

from typing import Annotated, Final

from pydantic import Field

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, record
from bluewright.science.colour.compare_record import Lab
from bluewright.science.dyeing.diffusion import Body
from bluewright.science.dyeing.priors import AfterDip, Finish, Run
from bluewright.science.media.cloth import Basis, Fibre

Strength = Annotated[float, Field(ge=0.001, le=50)]
Share = Annotated[float, Field(ge=0.001, le=1)]
SdShare = Annotated[float, Field(ge=0.005, le=1)]
LEAST_LIQUOR_L_PER_KG: Final = 3.0
"""Below this cloth does not move in a vat."""


@record
class DyedCloth:
    """The piece that is dyed."""

    fibre: Fibre
    """Which fibre: `wool` and other hair, `silk`, `cotton`, `linen` and other bast, or `other_cellulose` (viscose)."""
    mass_kg: Annotated[float, Field(ge=LEAST, le=10_000)]
    """What goes into the vat at a time."""
    basis: Basis = "conditioned"
    """How it was weighed: `conditioned` as it hangs in a room, or bone `dry`."""
    body: Body = "yarn"
    """`yarn` and what is woven or knitted of it; `sheet`: felt or paper; `ball`: a felted ball."""
    thickness_mm: Annotated[float, Field(ge=0.005, le=200)] | None = None
    """From side to side of the yarn or ball, or through the sheet; left out, as usual for a yarn of the fibre."""
    ground: Lab | None = None
    """L, a and b of the cloth undyed; left out, as usual for the fibre."""

    def __post_init__(self) -> None:
        if self.body != "yarn" and self.thickness_mm is None:
            raise InputError(
                where="thickness_mm", what=f"it is missing, and a {self.body} has no usual one",
                right="measure how thick it is",
            )  # fmt: skip


@record
class DyeVat:
    """The vat that it is dyed in; its strength is that of what is reduced and dissolved."""

    bath_l: Annotated[float, Field(ge=0.01, le=1_000_000)]
    """Liquor in the vat."""
    active_g_per_l: Strength | None = None
    """Pure indigo that is reduced and dissolved, in a litre. Shade goes with this, not with what was put in."""
    active_sd_frac: SdShare | None = None
    """How far that may be off; left out, as usual for a strength that was judged."""
    powder_g_per_l: Annotated[float, Field(ge=0.001, le=500)] | None = None
    """Or: powder that was put in, in a litre. What of it reduces is then guessed."""
    purity_frac: Share = 0.385
    """Pure indigo in that powder."""
    purity_sd_frac: SdShare = 0.1
    """How far that may be off, as a share of it."""
    ph: Annotated[float, Field(ge=7, le=13.9)] | None = None
    """Its pH; left out, as usual for the fibre."""
    temp_c: Annotated[float, Field(ge=5, le=70)] | None = None
    """Its temperature; left out, as usual for the fibre."""
    run: Run = "well_run"
    """`well_run`; or `over_reduced`, with so much reductant that a dip takes blue off again."""
    refill_g: Annotated[float, Field(ge=0, le=100_000)] = 0.0
    """Pure reduced indigo that is put in after each dip."""

    def __post_init__(self) -> None:
        if (self.active_g_per_l is None) == (self.powder_g_per_l is None):
            raise InputError(
                where="active_g_per_l", what="give either the strength or the powder that was put in",
                right="one of `active_g_per_l` and `powder_g_per_l`",
            )  # fmt: skip


@record
class Dipping:
    """How a dip is done, and what the cloth gets at the end."""

    dip_min: Annotated[float, Field(ge=0.1, le=1440)] = 5.0
    """How long it is in the vat each time."""
    air_min: Annotated[float, Field(ge=0, le=10_000)] = 15.0
    """How long it hangs in the air before the next dip."""
    after_dip: AfterDip = "squeezed"
    """`squeezed`: wrung and aired; `rinsed`: wrung and rinsed before it blues; `aired`: lifted out dripping."""
    finish: Finish = "soaped"
    """At the end: `none`, `rinsed` until clear, or `soaped`."""


def check_room(cloth: DyedCloth, vat: DyeVat) -> None:
    """Cloth that moves in its vat. Raises InputError for less than three litres to a kilogram."""
    if vat.bath_l < LEAST_LIQUOR_L_PER_KG * cloth.mass_kg:
        raise InputError(
            where="vat.bath_l", what=f"{vat.bath_l:g} L is too little for {cloth.mass_kg:g} kg of cloth to move in",
            right=f"take at least {LEAST_LIQUOR_L_PER_KG * cloth.mass_kg:g} L, better ten times that, or less cloth",
        )  # fmt: skip
