"""The airing record: the liquor, how it is aired, how far one has got, and what was seen."""

from __future__ import annotations

import math
from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, record
from bluewright.science.media.alkali_kind import UsedAlkali
from bluewright.science.media.oxygen import pressure_at_kpa, saturation_mg_per_l

Way = Literal["pour", "whisk", "bubble", "paddle"]
WAYS: tuple[Way, ...] = ("pour", "whisk", "bubble", "paddle")

Level = Annotated[int, Field(ge=0, le=3)]


@record
class Pour:
    """Pouring from vessel to vessel, or with a jug back into the tub. What is left out is taken as ordinary, widely."""

    height_m: Annotated[float, Field(ge=LEAST, le=5)] | None = None
    """How far the liquor falls, from the lip to the surface it strikes."""
    lip_width_m: Annotated[float, Field(ge=LEAST, le=5)] | None = None
    """How wide the falling sheet is where it leaves the lip."""
    pour_l: Annotated[float, Field(ge=LEAST, le=10_000)] | None = None
    """How much is poured each time; default all the liquor up to 15 L, else a 5 L jug."""
    pour_s: Annotated[float, Field(ge=LEAST, le=3600)] | None = None
    """Seconds that one pour runs."""
    flow_l_per_s: Annotated[float, Field(ge=LEAST, le=100)] | None = None
    """How fast the pour runs, instead of `pour_s`."""
    pours_per_min: Annotated[float, Field(ge=LEAST, le=120)] | None = None
    """Pours in a minute, the way back included."""

    def __post_init__(self) -> None:
        if self.pour_s is not None and self.flow_l_per_s is not None:
            raise InputError(where="flow_l_per_s", what="pour_s is given too", right="give one of the two")
        if self.pour_s is not None and self.pours_per_min is not None and self.pour_s * self.pours_per_min > 60.5:
            raise InputError(
                where="pours_per_min",
                what=f"{self.pours_per_min:g} pours of {self.pour_s:g} s do not fit into a minute",
                right=f"at most {60 / self.pour_s:.3g} can",
            )


@record
class Whisk:
    """Whisking."""

    tool: Literal["hand", "powered"] = "hand"
    """A whisk in the `hand`, or a `powered` one (stick blender, paint mixer on a drill)."""


@record
class Bubble:
    """Blowing air in under the surface."""

    air_l_per_min: Annotated[float, Field(ge=LEAST, le=10_000)]
    """Air that really comes out (a pump's label is for no depth of water)."""
    bubbles: Literal["fine", "coarse"] = "coarse"
    """`fine` from an air stone, `coarse` from an open hose or drilled pipe."""
    depth_m: Annotated[float, Field(ge=LEAST, le=20)] | None = None
    """How deep under the surface the air comes out; default at the bottom."""


@record
class Paddle:
    """Beating with a paddle, rake or plunger."""


@record
class Signs:
    """What the eye sees, 0 to 3."""

    foam: Level | None = None
    """0 green-yellow; 1 blue on top and plenty; 2 shrinking; 3 white or grey, or none left."""
    liquor: Level | None = None
    """0 green or yellow-green; 1 blue-green; 2 dark blue; 3 a drop on paper shows blue grain in a clear straw ring."""


@record
class AirReading:
    """One look at the liquor."""

    after_min: Annotated[float, Field(ge=0, le=100_000)] | None = None
    """Minutes of airing before this reading."""
    after_pours: Annotated[int, Field(ge=0, le=1_000_000)] | None = None
    """Or: pours before this reading."""
    dissolved_oxygen_mg_l: Annotated[float, Field(ge=0, le=60)] | None = None
    """Dissolved oxygen, read in the liquor within a minute of airing."""
    signs: Signs = Signs()
    ph: Annotated[float, Field(ge=2, le=14)] | None = None
    dye_index: Annotated[float, Field(ge=-10, le=100)] | None = None
    """Of a jar of this liquor: absorbance in red minus green against a jar of water, for each centimetre, undiluted."""
    dye_index_sd: Annotated[float, Field(ge=LEAST, le=10)] | None = None
    """Standard deviation of that reading by itself; 0.02 if left out."""

    def __post_init__(self) -> None:
        if (self.after_min is None) == (self.after_pours is None):
            raise InputError(
                where="after_min",
                what="a reading needs either after_min or after_pours",
                right="say after how many minutes, or after how many pours, it was taken",
            )


@record
class Learned:
    """What earlier batches of this garden, aired the same way, have taught."""

    kla_per_h: Annotated[float, Field(ge=LEAST, le=10_000)] | None = None
    """Transfer of this way of airing in this vessel, from an earlier answer."""
    kla_sd_frac: Annotated[float, Field(ge=LEAST, le=2)] = 0.3
    """How uncertain it is, as a share of itself."""
    demand_factor: Annotated[float, Field(ge=1, le=100)] | None = None
    """Oxygen used by this liquor over what its indigo needs, from an earlier answer (1 is the least)."""
    demand_sd_frac: Annotated[float, Field(ge=LEAST, le=2)] = 0.3
    """How uncertain it is, as a share of itself."""


@record
class AirRecord:
    """One batch of liquor with its alkali in it, being aired."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the batch, given back with the answer."""
    liquor_l: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Strained liquor, alkali included."""
    temp_c: Annotated[float, Field(ge=-2, le=95)]
    """Temperature of the liquor."""
    ph: Annotated[float, Field(ge=2, le=14)] | None = None
    """pH when airing begins."""
    ph_sd: Annotated[float, Field(ge=LEAST, le=2)] = 0.2
    """How far your pH readings may be off (standard deviation): a meter 0.1, a strip 0.3."""
    indigo_g: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """Indigo expected (pure), for instance the middle of the strain call."""
    indigo_sd_g: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """Its standard deviation; default four tenths of it."""
    indigo_g_per_l: Annotated[float, Field(ge=LEAST, le=20)] | None = None
    """Or: indigo expected in a litre."""
    indigo_sd_g_per_l: Annotated[float, Field(ge=LEAST, le=20)] | None = None
    """Its standard deviation; default four tenths of it."""
    alkali: UsedAlkali = "unknown"
    """Which alkali was added."""
    ammonia_mol: Annotated[float, Field(ge=LEAST, le=100_000)] | None = None
    """Ammonia that was added, mol (only with `alkali` ammonia)."""
    altitude_m: Annotated[float, Field(ge=-500, le=6000)] = 0.0
    """Height above the sea: thinner air brings less oxygen."""
    salinity_g_per_kg: Annotated[float, Field(ge=0, le=100)] = 2.0
    """Dissolved salts; a liquor has a few grams in a kilogram."""
    vessel_diameter_m: Annotated[float, Field(ge=LEAST, le=100)] | None = None
    """Inner width of the vessel; default one that is as deep as wide."""
    pour: Pour | None = None
    """Poured from vessel to vessel. Exactly one of `pour`, `whisk`, `bubble`, `paddle`; `{}` if no more is known."""
    whisk: Whisk | None = None
    """Whisked."""
    bubble: Bubble | None = None
    """Air is blown in."""
    paddle: Paddle | None = None
    """Beaten with a paddle, rake or plunger."""
    done_min: Annotated[float, Field(ge=0, le=100_000)] | None = None
    """Minutes aired so far."""
    done_pours: Annotated[int, Field(ge=0, le=1_000_000)] | None = None
    """Pours so far (only with `pour`)."""
    readings: Annotated[tuple[AirReading, ...], Field(max_length=200)] = ()
    """What was read and seen, in the order of time."""
    learned: Learned = Learned()
    """What earlier batches of this garden have taught."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        _check_ways(self)
        _check_depth(self)
        _check_indigo(self)
        if self.ammonia_mol is not None and self.alkali != "ammonia":
            raise InputError(
                where="ammonia_mol",
                what=f"ammonia is given, but the alkali is {self.alkali}",
                right='set alkali to "ammonia", or leave ammonia_mol out',
            )
        _check_times(self)
        _check_oxygen(self)

    @property
    def way(self) -> Way:
        """How it is aired."""
        return next(way for way in WAYS if getattr(self, way) is not None)

    @property
    def pressure_kpa(self) -> float:
        """Mean air pressure at this height."""
        return pressure_at_kpa(self.altitude_m)

    def session_frac(self, reading: AirReading) -> float:
        """How far into the airing so far a reading was taken, 0 to 1."""
        after, done = _after_and_done(self, reading)
        return after / done if done else 1.0


def _after_and_done(whole: AirRecord, reading: AirReading) -> tuple[float, float]:
    if reading.after_min is not None:
        return reading.after_min, whole.done_min or 0.0
    return float(reading.after_pours or 0), float(whole.done_pours or 0)


def _check_ways(whole: AirRecord) -> None:
    given = [way for way in WAYS if getattr(whole, way) is not None]
    if len(given) != 1:
        raise InputError(
            where=given[1] if given else "pour",
            what=f"{' and '.join(given)} are given" if given else "no way of airing is given",
            right='give exactly one of pour, whisk, bubble, paddle, for instance "whisk": {}',
        )
    if whole.done_pours is not None and whole.pour is None:
        raise InputError(where="done_pours", what=f"this batch is aired by {given[0]}", right="use done_min")
    both = (whole.done_min, whole.done_pours)
    if None not in both and (both[0] == 0) != (both[1] == 0):
        raise InputError(
            where="done_pours",
            what=f"{both[1]} pours in {both[0]:g} minutes",
            right="give both as 0, both above 0, or only one of them",
        )
    if whole.pour is not None and whole.pour.pour_l is not None and whole.pour.pour_l > whole.liquor_l:
        raise InputError(
            where="pour.pour_l",
            what=f"{whole.pour.pour_l:g} L is more than the liquor",
            right=f"at most {whole.liquor_l:g} L can be poured",
        )


DEEPEST_M: Final = 30.0
"""Nobody airs liquor that stands deeper: the volume or the width is mistyped."""


def _check_depth(whole: AirRecord) -> None:
    if whole.vessel_diameter_m is None:
        return
    deep_m = 4.0 * whole.liquor_l / 1000.0 / (math.pi * whole.vessel_diameter_m**2)
    if deep_m > DEEPEST_M:
        raise InputError(
            where="vessel_diameter_m",
            what=f"{whole.liquor_l:g} L would stand {deep_m:.2g} m deep in it",
            right="give the inner width in metres: a bucket has 0.3, a tub 0.4 to 1",
        )
    if whole.bubble is not None and (whole.bubble.depth_m or 0.0) > 1.2 * deep_m:
        raise InputError(
            where="bubble.depth_m",
            what=f"{whole.liquor_l:g} L in this vessel stand only {deep_m:.2g} m deep",
            right=f"give at most {deep_m:.2g}, or check vessel_diameter_m",
        )


def _check_indigo(whole: AirRecord) -> None:
    if whole.indigo_g is not None and whole.indigo_g_per_l is not None:
        raise InputError(where="indigo_g_per_l", what="indigo_g is given too", right="give one of the two")
    for spread, of in (("indigo_sd_g", "indigo_g"), ("indigo_sd_g_per_l", "indigo_g_per_l")):
        if getattr(whole, spread) is not None and getattr(whole, of) is None:
            raise InputError(where=spread, what=f"it belongs to {of}, which is missing", right=f"give {of} too")
    per_l = (whole.indigo_g or 0.0) / whole.liquor_l
    if per_l > 20:
        raise InputError(
            where="indigo_g",
            what=f"{whole.indigo_g:g} g in {whole.liquor_l:g} L is {per_l:.3g} g/L",
            right="a liquor holds at most a few grams in a litre; is it milligrams?",
        )


def _check_times(whole: AirRecord) -> None:
    last_min = last_pours = 0.0
    for index, reading in enumerate(whole.readings):
        in_minutes = reading.after_min is not None
        field, unit = ("after_min", "done_min") if in_minutes else ("after_pours", "done_pours")
        after, done = _after_and_done(whole, reading)
        where = f"readings[{index}].{field}"
        if after > done:
            raise InputError(where=where, what=f"{after:g} is after now", right=f"at most {unit}, which is {done:g}")
        if after < (last_min if in_minutes else last_pours):
            raise InputError(where=where, what=f"{after:g} is earlier than the one before", right="put them in order")
        last_min, last_pours = (after, last_pours) if in_minutes else (last_min, after)


def _check_oxygen(whole: AirRecord) -> None:
    most = saturation_mg_per_l(whole.temp_c, pressure_kpa=whole.pressure_kpa, salinity_g_per_kg=whole.salinity_g_per_kg)
    for index, reading in enumerate(whole.readings):
        found = reading.dissolved_oxygen_mg_l
        if found is not None and found > 1.3 * most + 1.0:
            raise InputError(
                where=f"readings[{index}].dissolved_oxygen_mg_l",
                what=f"{found:g} mg/L is more than this liquor can hold ({most:.3g} mg/L)",
                right="give mg/L (not percent), and calibrate the probe in air",
            )
