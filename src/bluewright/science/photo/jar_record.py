"""The jar record: liquor in a jar against a jar of water, look by look; and what they say."""

from __future__ import annotations

from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record

Colour = tuple[
    Annotated[float, Field(ge=-130, le=130)],
    Annotated[float, Field(ge=-130, le=130)],
    Annotated[float, Field(ge=-130, le=130)],
]
"""Three numbers, in the way that the record's `colours` says."""
Channel = Literal["red", "green", "blue"]
CHANNELS: Final[tuple[Channel, ...]] = ("red", "green", "blue")
MOST_OVER_WHITE: Final = 1.05
"""Light of a point, white being 1, beyond which a number is no colour of a photo."""


@record
class JarSeen:
    """One photo: the jar of liquor beside a jar of water, lit from behind through white paper."""

    after_min: Annotated[float, Field(ge=0, le=100_000)]
    """Minutes since the alkali went into the jar; 0 for the look before it."""
    stood: Literal["settled", "shaken"] = "settled"
    """`settled` (or filtered through a coffee filter), or just `shaken`."""
    path_cm: Annotated[float, Field(ge=LEAST, le=100)]
    """How much liquor the light went through: the inner width of the jar."""
    dilution_factor: Annotated[float, Field(ge=1, le=1000)] = 1.0
    """Thinned with water so many times: 5 for one part of liquor and four of water; left out, 1 for none."""
    jar: Colour
    """Colour of the light that came through the liquor."""
    water: Colour
    """Colour of the light that came through the equal jar of water, in the same photo."""
    over_black: Colour | None = None
    """Colour of the same jar lit from the side, before black: the other half of the two-light test."""
    foam: Colour | None = None
    """Colour of the foam above the liquor."""
    foam_blue_frac: Annotated[float, Field(ge=0, le=1)] | None = None
    """Share of the foam's points that are blue (hue 220 to 290, chroma above 6)."""


@record
class JarRecord:
    """A jar test: one look, or several after a dose of alkali."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the jar, given back with the answer."""
    colours: Literal["lab", "linear"] = "lab"
    """How colours are given: `lab` (CIELAB, D65, 2 degree), or `linear` red, green and blue of sRGB, white being 1."""
    looks: Annotated[tuple[JarSeen, ...], Field(min_length=1, max_length=200)]
    """The photos, in the order of time."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        last_min = 0.0
        for index, look in enumerate(self.looks):
            if look.after_min < last_min:
                raise InputError(
                    where=f"looks[{index}].after_min",
                    what=f"{look.after_min:g} is earlier than the one before",
                    right="put the looks in order",
                )
            last_min = look.after_min
            for name in ("jar", "water", "over_black", "foam"):
                _check_colour(getattr(look, name), self.colours, where=f"looks[{index}].{name}")


def _check_colour(colour: Colour | None, notation: str, *, where: str) -> None:
    if colour is None:
        return
    if notation == "linear" and not all(0.0 <= part <= MOST_OVER_WHITE for part in colour):
        raise InputError(
            where=where,
            what=f"{_said(colour)} is no light of a photo",
            right="give red, green and blue from 0 to 1 (linear sRGB), or set colours to lab",
        )
    if notation == "lab" and not 0.0 <= colour[0] <= 101.0:
        raise InputError(
            where=where,
            what=f"{_said(colour)} is no colour: L* is {colour[0]:g}",
            right="give L*, a*, b* with L* from 0 to 100",
        )


def _said(colour: Colour) -> str:
    return ", ".join(f"{part:g}" for part in colour)


@answer
class JarFound:
    """What one look says; absent where the light that came through was too little to count."""

    after_min: float
    stood: Literal["settled", "shaken"]
    too_dark: tuple[Channel, ...]
    """Channels in which less than 2 % of white came through: not counted."""
    red: Band | None = None
    """Pseudo-absorbance in red: minus the logarithm of the light through the liquor over that through water."""
    green: Band | None = None
    """The same in green."""
    blue: Band | None = None
    """The same in blue."""
    dye_index: Band | None = None
    """Red minus green. Brown, yellow and haze never bring it above 0; blue dye does."""
    yellow_index: Band | None = None
    """Blue minus red: how yellow the liquor is."""
    dye_index_per_cm: Band | None = None
    """The dye index of undiluted liquor for each centimetre: comparable between jars, and read by the forecasts."""
    hue_deg: Band | None = None
    """Hue of the liquor in the light that comes through, against water: 90 yellow, 120 yellow-green, 240 blue."""
    over_black_hue_deg: float | None = None
    """Hue when lit from the side before black."""
    over_black_blue_factor: float | None = None
    """Blue light over red light in that look."""
    foam_hue_deg: float | None = None
    foam_chroma: float | None = None
    """How far the foam is from grey (C*ab)."""
    foam_blue_frac: float | None = None
    """Share of its points that are blue."""


@answer
class JarAnswer:
    """What the jar says: whether there is blue dye, how it goes on, and what is only haze."""

    version: Literal[1] = 1
    id: str
    verdict: Literal["blue_dye", "haze", "no_blue", "unclear", "too_dark"]
    """`blue_dye`: red is lost beyond green, which only blue dye does. `haze`: blue in light from the side, but not in
    light that comes through: not evidence of blue. `no_blue`: none to be seen. `unclear`: the spread decides."""
    blue_chance: float
    """Chance that blue dye is there: that the dye index is above 0, or has risen by 0.05 since before the alkali."""
    looks: tuple[JarFound, ...]
    """Each look."""
    turn_to_yellow: Band | None = None
    """How far the yellow index rose from before the alkali to the first look after it."""
    dye_rise: Band | None = None
    """How far the dye index has risen since the first look, in this jar."""
    dye_rise_per_h: Band | None = None
    """How fast it rose lately (a line through the last three looks)."""
    course: Literal["rising", "level", "falling", "unclear", "unknown"]
    """How the dye index goes now: `level` after a rise: the blue has formed; `unknown` with under two looks."""
    level_chance: float | None = None
    """Chance that it has come to rest: the last step was less than a tenth of the whole rise, or than 0.05."""
    turbid_frac: Band | None = None
    """Share of the absorbance in green that is turbidity: what settles out within ten minutes of a shaken look."""
    basis: Literal["readings"] = "readings"
    inputs: JarRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
