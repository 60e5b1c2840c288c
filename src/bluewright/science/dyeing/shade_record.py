"""The record of a shade that is asked for, and its answer."""

from __future__ import annotations

from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.bands import Band, BandAt
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import answer, record
from bluewright.science.colour.compare_record import Lab
from bluewright.science.colour.hues import Hue, Shade
from bluewright.science.colour.priors import Taken
from bluewright.science.dyeing.parts import Dipping, DyedCloth, DyeVat, check_room
from bluewright.science.dyeing.scores import Learned

Rub = Literal["hardly", "little", "some", "much"]
"""How much blue a white rag takes up, wet."""
MOST_DIPS: Final = 60


@record
class ShadeRecord:
    """Cloth, a vat and a number of dips."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the piece, given back with the answer."""
    cloth: DyedCloth
    """The piece."""
    vat: DyeVat
    """The vat, as it is before the first dip."""
    dips: Annotated[int, Field(ge=1, le=MOST_DIPS)]
    """How many dips it gets in all."""
    done: Annotated[int, Field(ge=0, le=MOST_DIPS)] = 0
    """How many of them it has had already; the answer then tells each of the next few."""
    way: Dipping = Dipping()
    """How a dip is done."""
    wanted: Lab | None = None
    """L, a and b of the swatch that you want."""
    taken: Taken = "same_card"
    """How the cloth and the wanted swatch are measured: `same_photo`, `same_card`, `instrument` or `apart`."""
    learned: Learned | None = None
    """What a ladder of this fibre taught; without it all rests on guesses."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        check_room(self.cloth, self.vat)
        if self.done > self.dips:
            raise InputError(
                where="done", what=f"it has had {self.done} dips, and is to get {self.dips} in all",
                right="count those that it has had among `dips`",
            )  # fmt: skip


@answer
class Coloured:
    """The colour of the finished cloth as it would be measured: CIELAB, D65, 2 degree observer."""

    hue: Hue
    """The word for its hue."""
    shade: Shade
    """How deep it looks."""
    l_star: Band
    """Lightness L*."""
    a_star: Band
    """a*: above 0 redder, below 0 greener."""
    b_star: Band
    """b*: below 0 bluer."""
    k_over_s: Band
    """Depth at 660 nm, K/S, the undyed cloth in it."""


@answer
class AfterDips:
    """The finished cloth, were it stopped after so many dips."""

    dips: int
    """After so many."""
    l_star: Band
    """Lightness L*."""
    a_star: Band
    """a*."""
    b_star: Band
    """b*."""
    k_over_s: Band
    """Depth at 660 nm."""
    fixed_pct: Band
    """Pure indigo on the fibre, per cent of its dry mass."""
    de00: Band | None = None
    """How different it is from the wanted swatch: CIEDE2000."""


@answer
class ShadeAnswer:
    """How deep the cloth gets, and what the vat gives for it."""

    version: Literal[1] = 1
    id: str
    colour: Coloured
    """The finished cloth after all dips."""
    fixed_pct: Band
    """Pure indigo on the fibre, per cent of its dry mass."""
    loose_pct: Band
    """Blue that is still loose after finishing, per cent of the dry mass: the rub-off."""
    loose_frac: Band
    """Share of loose blue in all that was on the cloth before finishing."""
    wet_rub_grade: Band
    """Grade that a white rag rubbed ten times, wet, is likely to get by eye, 5 clean to 1 blue: a home test."""
    dry_rub_grade: Band
    """The same, dry."""
    rub: Rub
    """The same in a word: `hardly`, `little`, `some` or `much`."""
    drawn_g: Band
    """Pure indigo that the cloth takes from the vat, with what drips and washes off."""
    left_g_per_l: Band
    """Strength of the vat after the last dip."""
    reached_frac: Band
    """Share that each dip gets of what it would, had it no end."""
    inside_frac: Band
    """Blue in the middle of the yarn, over that at its surface: 100 % is dyed through, 0 a ring."""
    inside_frac_by_depth_mm: tuple[BandAt, ...]
    """Blue at depths below the surface of the yarn, over that at its surface."""
    steps: tuple[AfterDips, ...]
    """The finished cloth after fewer dips."""
    de00: Band | None = None
    """How different it is from the wanted swatch: CIEDE2000."""
    hit_chance: float | None = None
    """Chance that it comes out within 2 CIEDE2000 of it."""
    best_dips: int | None = None
    """Of the numbers of dips in the table, the one that is likely nearest to it."""
    basis: Literal["prior", "readings"]
    """Guesses alone, or your own ladder too."""
    inputs: ShadeRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
