"""The record of an ailing vat: what was seen, and what was not; and what may ail it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.records import answer, record
from bluewright.science.media.cloth import Fibre
from bluewright.science.vat.kinds import VatKind
from bluewright.science.vat.recipe_record import Hazard

Cause = Literal[
    "reductant_spent", "reductant_dead", "too_cold", "little_alkali", "much_alkali", "little_indigo", "coarse_powder",
    "air_in", "over_reduced", "putrid", "stalled", "sediment_stirred", "poor_scour", "too_strong",
]  # fmt: skip
SignName = Literal[
    "liquor_blue", "white_cloud", "grains", "no_film", "blues_at_once", "stays_yellow", "pale", "gets_paler", "streaks",
    "rubs_off", "slimy", "harsh", "foul", "lifeless", "ph_high", "ph_low", "cold", "cup_clears", "cup_alkali_clears",
    "cup_warm_clears", "fresh_tin_clears",
]  # fmt: skip
Cure = Literal[
    "sharpen", "fresh_tin", "warm", "alkali_parts", "thin_and_stand", "sour_gently", "add_indigo", "grind_and_wait",
    "still_hands", "rest_and_scrap", "lime_and_rake", "feed_and_warm", "settle_and_net", "scour", "weaker_and_longer",
]  # fmt: skip
Seen = bool | None


@record
class FaultRecord:
    """What is wrong with a vat. Whatever was not looked at is left out; a `no` tells as well as a `yes`."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the vat, given back with the answer."""
    kind: VatKind
    """`dithionite`, `thiourea_dioxide`, `fructose`, `iron` or `ferment`."""
    fibre: Fibre
    """`wool`, `silk`, `cotton`, `linen` or `other_cellulose`."""
    ph: Annotated[float, Field(ge=0, le=14)] | None = None
    """pH of a cooled sample."""
    temp_c: Annotated[float, Field(ge=0, le=100)] | None = None
    """Warmth of the vat."""
    liquor_blue: Seen = None
    """The liquor under the skin is blue, or green and cloudy."""
    white_cloud: Seen = None
    """It is cloudy and greenish white."""
    grains: Seen = None
    """A drop run down a glass shows dark grains."""
    no_film: Seen = None
    """No coppery film, no bronze flower on top."""
    blues_at_once: Seen = None
    """Cloth is blue as soon as it comes out."""
    stays_yellow: Seen = None
    """Cloth comes out very yellow and is slow to turn."""
    pale: Seen = None
    """Cloth stays pale after several dips."""
    gets_paler: Seen = None
    """Cloth that was dipped again came out paler than before."""
    streaks: Seen = None
    """Cloth is streaked or spotted."""
    rubs_off: Seen = None
    """Much blue washes or rubs off."""
    slimy: Seen = None
    """The liquor feels slimy between gloved fingers."""
    harsh: Seen = None
    """Wool or silk came out harsh or dull."""
    foul: Seen = None
    """It stinks of rot, or has turned reddish."""
    lifeless: Seen = None
    """A fermented vat without bubbles, film or smell."""
    cup_clears: Seen = None
    """A cup of it, warm, with a pinch of reductant, has cleared in half an hour."""
    cup_alkali_clears: Seen = None
    """A cup of it with a drop of alkali has cleared."""
    cup_warm_clears: Seen = None
    """A cup of it, covered and kept warm for an hour, has cleared."""
    fresh_tin_clears: Seen = None
    """A cup with a pinch from a fresh tin has cleared, and one from the old tin has not."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""


@answer
class CauseFound:
    """A cause and how probable it is."""

    cause: Cause
    at_work_chance: float
    """Chance that this is at work, alone or beside others."""
    chance_range_frac: Band
    """Its range over what the table of judgements leaves open."""
    cure: Cure
    """What helps against it in this kind of vat."""
    hazards: tuple[Hazard, ...] = ()
    """What could hurt there."""


@answer
class NextTest:
    """A look that has not been taken yet."""

    sign: SignName
    tells_frac: float
    """Share of the doubt about the causes that it is expected to take away."""


@answer
class FaultAnswer:
    """What probably ails a vat, and which look would tell the causes apart."""

    version: Literal[1] = 1
    id: str
    causes: tuple[CauseFound, ...]
    """The causes, the most probable first. Their chances need not add up to one: two may be at work, or none."""
    nothing_chance: float
    """Chance that none of them is at work."""
    next_tests: tuple[NextTest, ...]
    """What to look at next, the most telling first."""
    doubt_bits: float
    """How much doubt is left about the causes, in bits: 0 none, 1 as of a coin."""
    basis: Literal["prior", "readings"]
    """`readings` where something was seen."""
    inputs: FaultRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
