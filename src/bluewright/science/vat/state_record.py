"""The record of a vat that stands: what went in, what was dyed, what was seen; and how it stands now."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Literal

from pydantic import AwareDatetime, Field

from bluewright.science.base.bands import Band, BandAtTime
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.basket import Plant
from bluewright.science.media.cloth import Fibre
from bluewright.science.media.electrodes import Electrode
from bluewright.science.media.purity import Known, Make
from bluewright.science.vat.kinds import KINDS, VatKind
from bluewright.science.vat.recipe_record import Hazard, Substance
from bluewright.science.vat.redox import Opened

Advice = Literal["dye", "wait", "sharpen", "feed", "warm", "more_alkali", "less_alkali", "rest", "add_indigo", "retire"]
Level = Annotated[int, Field(ge=0, le=3)]


@record
class VatAddition:
    """Something that went into the vat."""

    time: AwareDatetime
    """When."""
    what: Substance
    """`powder`, a reductant, an alkali, `bran` or `madder`."""
    mass_g: Annotated[float, Field(ge=0, le=1_000_000)]
    """How much of it."""
    purity: Known | None = None
    """Of powder: indigo in it, as measured; without it a wide range by plant and making."""
    plant: Plant = "woad"
    """Of powder that nobody measured: `woad`, `japanese_indigo` or `indigofera`."""
    make: Make = "unknown"
    """Of powder that nobody measured: made without lime, with it, with lime and an acid wash, or not known."""


@record
class Poured:
    """Liquid that was poured in later: the heel of another vat, or plain water."""

    time: AwareDatetime
    """When."""
    volume_l: Annotated[float, Field(ge=0, le=10_000)]
    """Litres that came in with it; 0 where only sediment did."""
    pure_g: Annotated[float, Field(ge=0, le=1_000_000)] = 0.0
    """Pure indigo in it; 0 of water."""
    pure_sd_g: Annotated[float, Field(ge=0, le=1_000_000)] = 0.0
    """How far that may be off."""
    reduced_frac: Annotated[float, Field(ge=0, le=1)] = 0.0
    """The share of that indigo that was reduced."""
    reductant_g: Annotated[float, Field(ge=0, le=1_000_000)] = 0.0
    """Reductant left in it, as pure, if it is that of this vat."""
    ph: Annotated[float, Field(ge=0, le=14)] | None = None
    """pH of a cooled sample of it; left out of water, which only thins."""


@record
class Dipped:
    """Cloth that was dyed in it: one dip."""

    time: AwareDatetime
    """When it went in."""
    cloth_kg: Annotated[float, Field(ge=LEAST, le=10_000)]
    """Cloth, weighed as it hangs in a room."""
    fibre: Fibre
    """`wool`, `silk`, `cotton`, `linen` or `other_cellulose`."""
    taken_g: Annotated[float, Field(ge=0, le=100_000)] | None = None
    """Pure indigo that it took, where that is known; else it is reckoned from the strength of the vat."""
    taken_sd_g: Annotated[float, Field(ge=0, le=100_000)] | None = None
    """How far that may be off; default a third of it."""


@record
class VatReading:
    """One look at the vat; whatever was not looked at is left out."""

    time: AwareDatetime
    """When."""
    ph: Annotated[float, Field(ge=0, le=14)] | None = None
    """pH of a sample cooled to the room."""
    potential_mv: Annotated[float, Field(ge=-1500, le=1000)] | None = None
    """Redox potential, as the meter shows it."""
    electrode: Electrode = "silver_3m_kcl"
    """What the meter's potential is against: `silver_3m_kcl`, `silver_sat_kcl`, `calomel`, or `she` if it was
    converted."""
    temp_c: Annotated[float, Field(ge=0, le=100)] | None = None
    """Warmth of the vat."""
    liquor_look: Level | None = None
    """Under the skin: 0 blue, 1 green or cloudy, 2 yellow-green, 3 clear yellow to amber."""
    film: Level | None = None
    """On top: 0 none, 1 a thin shimmer, 2 a coppery film, 3 a thick bronze flower."""
    grains_seen: Level | None = None
    """A drop run down a glass: 0 no dark grains, 1 a few, 2 many, 3 mostly grains."""
    strip_s: Annotated[float, Field(ge=0, le=3600)] | None = None
    """Seconds until a test strip that came out has turned blue; 0 if it came out blue."""


@record
class VatRecord:
    """A vat and its story."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the vat, given back with the answer."""
    kind: VatKind
    """`dithionite`, `thiourea_dioxide`, `fructose`, `iron` or `ferment`."""
    fibre: Fibre
    """What is to be dyed next: its pH and warmth are those to hold."""
    volume_l: Annotated[float, Field(ge=0.1, le=10_000)]
    """Litres in the vat when the story begins."""
    started: AwareDatetime
    """When it was set, or when this story begins."""
    now: AwareDatetime
    """The moment of the question."""
    heel_g: Annotated[float, Field(ge=0, le=1_000_000)] = 0.0
    """Pure indigo that was in it when the story begins."""
    heel_sd_g: Annotated[float, Field(ge=0, le=1_000_000)] = 0.0
    """How far that may be off."""
    additions: Annotated[tuple[VatAddition, ...], Field(max_length=400)] = ()
    """What went in, with the setting of it."""
    poured: Annotated[tuple[Poured, ...], Field(max_length=100)] = ()
    """Liquid that was poured in since: heels of other vats, water."""
    dips: Annotated[tuple[Dipped, ...], Field(max_length=400)] = ()
    """Cloth that was dyed in it, dip by dip."""
    readings: Annotated[tuple[VatReading, ...], Field(max_length=400)] = ()
    """What was seen and read. None of it is needed."""
    room_c: Annotated[float, Field(ge=-20, le=50)] = 18.0
    """Warmth of the air around it."""
    hold_c: Annotated[float, Field(ge=0, le=90)] | None = None
    """A heater keeps it at."""
    covered: bool = True
    """A lid keeps the air off between dips."""
    surface_m2: Annotated[float, Field(ge=LEAST, le=100)] | None = None
    """Open surface; default that of a vessel as deep as it is wide."""
    reductant_opened: Opened = "opened"
    """How the reductant was kept: `sealed`, `opened`, or `old` and damp."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.now < self.started:
            raise InputError(where="now", what="it is before the vat was started", right="give a later moment")
        for name in ("additions", "poured", "dips", "readings"):
            for row, one in enumerate(getattr(self, name)):
                if not self.started <= one.time <= self.now:
                    raise InputError(
                        where=f"{name}[{row}].time",
                        what="it lies before the start or after now",
                        right="give a moment from started to now",
                    )
        self._check_poured()
        allowed = {"powder", "bran", "madder", KINDS[self.kind].reductant, *KINDS[self.kind].alkalis}
        for row, one in enumerate(self.additions):
            if one.what not in allowed:
                raise InputError(
                    where=f"additions[{row}].what",
                    what=f"{one.what} does not go into a vat of {KINDS[self.kind].words}",
                    right="use " + ", ".join(sorted(name for name in allowed if name)),
                )
            if one.purity is not None and one.what != "powder":
                raise InputError(
                    where=f"additions[{row}].purity", what="only powder has a purity here", right="leave it out"
                )

    def _check_poured(self) -> None:
        for row, one in enumerate(self.poured):
            if one.reductant_g and KINDS[self.kind].reductant is None:
                raise InputError(
                    where=f"poured[{row}].reductant_g", what="what ferments is not weighed as a reductant",
                    right="leave it out",
                )  # fmt: skip
            if (one.pure_sd_g or one.reduced_frac) and not one.pure_g:
                raise InputError(
                    where=f"poured[{row}].pure_g", what="how far it is off or reduced is told, and not how much it is",
                    right="give the pure indigo in it",
                )  # fmt: skip


@answer
class SmallPart:
    """One small part to add now."""

    what: Substance
    mass_g: Band
    """Half of what the vat is thought to lack: look again before the other half."""
    hazards: tuple[Hazard, ...] = ()
    """What could hurt there."""


@answer
class VatAnswer:
    """How a vat stands, and what to do."""

    version: Literal[1] = 1
    id: str
    advice: Advice
    """`dye`, `wait`, `sharpen`, `feed`, `warm`, `more_alkali`, `less_alkali`, `rest`, `add_indigo` or `retire`."""
    parts: tuple[SmallPart, ...]
    """What to add now, in small parts; none if nothing."""
    look_again_at: datetime
    """When to look again."""
    ready_chance: float
    """Chance that it is ready: nine tenths of what can reduce has, and enough dissolves to dye."""
    ready_then_chance: float
    """Chance that it is ready when you look again, if nothing is added."""
    active_g_per_l: Band
    """Indigo that is reduced and dissolved, in a litre: the strength that a dip sees."""
    total_g: Band
    """Pure indigo in the vat in all. It is stock."""
    reduced_g: Band
    """Of it reduced."""
    unreduced_g: Band
    """Of it not reduced: afloat, or grains in the sediment."""
    taken_g: Band
    """Pure indigo that cloth has taken out so far."""
    reductant_g_per_l: Band | None = None
    """Reductant left in a litre, as pure; absent for a fermented vat."""
    short_chance: float
    """Chance that the reductant left does not suffice for the indigo that is left."""
    ph: Band
    """pH of a cooled sample."""
    low_ph_chance: float
    """Chance that it is below what the fibre and this kind of vat want."""
    high_ph_chance: float
    """Chance that it is above."""
    temp_c: Band
    """Warmth."""
    volume_l: float
    """Litres in it now."""
    total_curve_g: tuple[BandAtTime, ...]
    """Pure indigo in the vat over time."""
    reduced_curve_g: tuple[BandAtTime, ...]
    """Of it reduced."""
    active_curve_g_per_l: tuple[BandAtTime, ...]
    """Reduced and dissolved indigo in a litre over time."""
    ph_curve: tuple[BandAtTime, ...]
    """pH over time."""
    she_mv: tuple[float, ...] = ()
    """Readings of the redox potential, turned to the standard hydrogen electrode, mV."""
    sharpened: int
    """How often it has been given reductant after the setting."""
    ess: float
    """Effective sample size of the ensemble."""
    basis: Literal["prior", "readings"]
    """`readings` where something was seen or read."""
    inputs: VatRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
