"""Colours to be compared, and the answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import answer, record
from bluewright.science.colour.hues import Hue, Shade, Sign
from bluewright.science.colour.priors import Size, Taken

Lab = tuple[
    Annotated[float, Field(ge=0, le=100)], Annotated[float, Field(ge=-130, le=130)],
    Annotated[float, Field(ge=-130, le=130)],
]  # fmt: skip
"""L*, a*, b*."""
Spread = Annotated[float, Field(ge=0, le=30)]
White = Literal["d65_2", "d65_10", "d50_2"]
"""Light and observer that Lab is told for: D65 and 2 degree everywhere here."""


@record
class Colour:
    """One colour as it was measured."""

    name: Annotated[str, Field(max_length=80)] = ""
    """What it is of."""
    lab: Lab
    """Its L, a and b (CIELAB)."""
    lab_sd: tuple[Spread, Spread, Spread] | None = None
    """Standard deviation of each, if known; left out, the usual spread of the way it was taken."""


@record
class CompareRecord:
    """Two or more colours; the first is the standard that the others are told by."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the comparison, given back with the answer."""
    colours: Annotated[tuple[Colour, ...], Field(min_length=2, max_length=40)]
    """The standard first, then what is compared with it."""
    taken: Taken = "same_card"
    """How they were taken: `same_photo`, `same_card`, `instrument` or `apart`; the less they share, the less a small
    difference means."""
    white: White = "d65_2"
    """Light and observer that the instrument tells Lab for: `d65_2` as photos and screens do, `d65_10` is answered with
    a note, `d50_2` (print) is refused."""
    ground: Lab | None = None
    """The same cloth undyed: depth is then told of the dye alone."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.white == "d50_2":
            raise InputError(
                where="white",
                what="Lab under D50 is another colour than under D65, by 2 to 3 CIEDE2000 on middle and deep blues",
                right="set the instrument to D65 and 2 degree, or give its spectrum to `colour spectrum`",
            )


@answer
class ToldColour:
    """One colour in words and numbers; Lab of D65, 2 degree observer."""

    name: str
    """What it is of."""
    hue: Hue
    """The word for its hue."""
    shade: Shade
    """How deep it looks."""
    hue_deg: Band
    """Its hue h_ab in degrees; a range across 0 goes on beyond 360 or below 0."""
    chroma: Band
    """How far from grey it is, C*ab."""
    k_over_s: Band
    """Depth: K/S of its red light against white; of the dye alone where a ground was given."""


@answer
class Difference:
    """A colour beside the standard."""

    name: str
    """What it is of."""
    de00: Band
    """How different it is: CIEDE2000."""
    de76: float
    """The plain distance, CIE76."""
    cmc_2_1: float
    """CMC(2:1), as mills judge whether cloth is accepted."""
    size: Size
    """What the difference is to the eye."""
    told_apart: bool
    """Whether it is more than the colours' own spread explains (95 %)."""
    lightness: Band
    """L* more than the standard; below 0 it is darker."""
    chroma: Band
    """C* more than the standard; below 0 it is duller."""
    hue: Band
    """Difference of hue: which way its words say."""
    signs: tuple[Sign, ...]
    """What it is beside the standard, the most striking first; empty if nothing is sure."""
    depth_factor: Band | None = None
    """How many times as deep it is as the standard, by K/S; None where the standard has no depth to speak of."""
    change_grade: Band
    """Grade of a change of colour in the manner of ISO 105-A05, 5 none to 1 great: an estimate, no test report."""
    stain_grade: Band | None = None
    """Grade of staining in the manner of ISO 105-A04, where the standard is white: an estimate, no test report."""


@answer
class CompareAnswer:
    """How colours differ."""

    version: Literal[1] = 1
    id: str
    colours: tuple[ToldColour, ...]
    """Each colour, in the order of the record."""
    against: tuple[Difference, ...]
    """Each but the first beside the first."""
    basis: Literal["prior", "readings"]
    """Whether all spreads are your own."""
    inputs: CompareRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
