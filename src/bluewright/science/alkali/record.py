"""The liquor record and the dose answer."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.alkali_kind import Kind
from bluewright.science.media.ammonia import Label

Unit = Literal["ml", "g"]
Ph = Annotated[float, Field(ge=0, le=14)]
Temperature = Annotated[float, Field(ge=0, le=95)]


@record
class Alkali:
    """An alkali as it stands on the shelf."""

    kind: Kind
    """`ammonia`, `soda_ash`, `washing_soda` (crystals), `potash`, `lye` (sodium hydroxide), `potassium_lye`,
    `slaked_lime`, or `ash_lye` (lye of wood ash)."""
    percent_w_w: Annotated[float, Field(ge=LEAST, le=100)] | None = None
    """Per cent by mass on the label: of ammonia water, or of lye bought or made as a solution."""
    mol_per_l: Annotated[float, Field(ge=LEAST, le=20)] | None = None
    """Moles in a litre of a solution that was made up or titrated; for `ash_lye` counted as potassium carbonate
    (half of the acid that a litre takes up in all)."""
    label_as: Label = "nh3"
    """Whether the label of an ammonia bottle counts `nh3`, or `nh4oh` (ammonium hydroxide, 0.486 of it ammonia)."""
    opened: bool = False
    """An ammonia bottle that has been open for weeks has lost strength."""

    def __post_init__(self) -> None:
        if self.percent_w_w is not None and self.mol_per_l is not None:
            raise InputError(
                where="mol_per_l", what="both percent_w_w and mol_per_l are given", right="give one of the two"
            )
        if self.kind == "ash_lye" and self.mol_per_l is None:
            raise InputError(
                where="mol_per_l",
                what="ash lye differs from pot to pot, and its mol_per_l is missing",
                right="titrate it with vinegar and give mol_per_l, counted as potassium carbonate",
            )
        if self.kind == "slaked_lime" and self.mol_per_l is not None:
            raise InputError(
                where="mol_per_l",
                what="slaked lime is dosed dry or as milk, in grams",
                right="leave mol_per_l out",
            )
        self._check_percent()

    def _check_percent(self) -> None:
        if self.percent_w_w is None:
            return
        highest = {"ammonia": 35.0, "lye": 52.0, "potassium_lye": 52.0}.get(self.kind)
        if highest is None:
            raise InputError(
                where="percent_w_w",
                what=f"{self.kind} has no percentage here",
                right="leave it out for the dry alkali, or give mol_per_l for a solution of it",
            )
        if self.percent_w_w > highest:
            raise InputError(
                where="percent_w_w",
                what=f"{self.percent_w_w:g} % is stronger than a solution of {self.kind} can be",
                right=f"at most {highest:g} % by mass"
                + ("" if self.kind == "ammonia" else "; leave it out for the dry alkali"),
            )

    @property
    def unit(self) -> Unit:
        """In what this alkali is measured out: `ml` of a solution or `g` of a dry one."""
        dissolved = self.kind == "ammonia" or self.percent_w_w is not None or self.mol_per_l is not None
        return "ml" if dissolved else "g"


@record
class Step:
    """One addition and the pH read after it; amounts are all that has been added up to then."""

    added_ml: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """Millilitres added so far in all, of a dissolved alkali."""
    added_g: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """Grams added so far in all, of a dry alkali."""
    ph: Ph
    """The pH read after stirring."""

    def added(self, unit: Unit) -> float | None:
        """The amount, if it is in `unit` and in that alone."""
        mine, other = (self.added_ml, self.added_g) if unit == "ml" else (self.added_g, self.added_ml)
        return mine if other is None else None


@record
class Jar:
    """A jar titration: some liquor, and alkali added in steps with a pH reading after each."""

    sample_ml: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Liquor in the jar."""
    temp_c: Temperature | None = None
    """Temperature of the jar; default: that of the tub."""
    alkali: Alkali | None = None
    """What was added to the jar; default: the alkali that is to be dosed, from the same bottle."""
    steps: Annotated[tuple[Step, ...], Field(min_length=1, max_length=60)]
    """Additions in order."""


@record
class Water:
    """From the water report."""

    alkalinity_mg_caco3_l: Annotated[float, Field(ge=0, le=5000)] | None = None
    """Alkalinity as mg of CaCO3 in a litre (one German degree of carbonate hardness is 17.85)."""
    hardness_mg_caco3_l: Annotated[float, Field(ge=0, le=5000)] | None = None
    """Total hardness as mg of CaCO3 in a litre (a German degree 17.85, a French one 10, an English one 14.25)."""


@record
class Room:
    """The room in which the alkali goes in."""

    volume_m3: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Air in the room."""
    air_changes_per_h: Annotated[float, Field(ge=LEAST, le=1000)]
    """How often an hour the air is renewed: a closed room 0.5, a window ajar 2, a cross-draught 10 and more."""


@record
class LiquorRecord:
    """One tub of strained liquor that is to be made alkaline."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the tub, given back with the answer."""
    liquor_l: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Strained liquor in the tub."""
    alkali: Alkali
    """The alkali that is to be dosed."""
    temp_c: Temperature | None = None
    """Temperature of the liquor now; without it the answer is wider, much wider with ammonia."""
    ph: Annotated[float, Field(ge=2, le=12)] | None = None
    """pH of the liquor before any alkali."""
    target_ph: Annotated[float, Field(ge=7, le=13)] = 9.5
    """Wanted pH, read at the temperature of the tub."""
    water: Water = Water()
    """What the water brought with it."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)] | None = None
    """Leaf that was steeped in it: more leaf in a litre, more acid."""
    jar: Jar | None = None
    """A jar titration, if one was made: the best thing to have."""
    added_so_far: Annotated[tuple[Step, ...], Field(max_length=60)] = ()
    """What has already gone into the tub, with the pH read after each part; the answer is then the rest."""
    ph_sd: Annotated[float, Field(ge=LEAST, le=0.6)] = 0.2
    """Standard deviation of a pH reading: a calibrated meter 0.05 to 0.1, a cheap pen 0.2, strips 0.3."""
    room: Room | None = None
    """The room, for ammonia in its air; leave it out when you work outdoors."""
    surface_m2: Annotated[float, Field(ge=LEAST, le=10_000)] | None = None
    """Open surface of the liquor; default: that of a tub about as wide as deep."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.ph is not None and self.ph >= self.target_ph:
            raise InputError(
                where="target_ph",
                what=f"{self.target_ph:g} is not above the pH of the liquor ({self.ph:g})",
                right="an alkali only raises the pH: give a target above it, or leave the liquor as it is",
            )
        if self.leaf_kg is not None and self.leaf_kg > 2.0 * self.liquor_l:
            raise InputError(
                where="leaf_kg",
                what=f"{self.leaf_kg:g} kg of leaf does not fit into what gave {self.liquor_l:g} L of liquor",
                right=f"give at most {2.0 * self.liquor_l:g} kg, or leave it out",
            )
        if self.jar is not None:
            unit = (self.jar.alkali or self.alkali).unit
            _check_steps(self.jar.steps, unit, vessel_ml=self.jar.sample_ml, where="jar.steps")
        _check_steps(self.added_so_far, self.alkali.unit, vessel_ml=1000.0 * self.liquor_l, where="added_so_far")


MOST_PER_ML: Final[dict[Unit, float]] = {"ml": 100.0, "g": 2.0}
"""Millilitres or grams of alkali to a millilitre of liquor beyond which a unit was mistyped."""


def _check_steps(steps: tuple[Step, ...], unit: Unit, *, vessel_ml: float, where: str) -> None:
    """Every amount in the alkali's own unit, each more than the one before, and none that would drown the liquor."""
    for number, step in enumerate(steps):
        if step.added(unit) is None:
            raise InputError(
                where=f"{where}[{number}]",
                what=f"this alkali is measured in {unit}, and the step does not give added_{unit} alone",
                right=f"give added_{unit}: all that has been added up to then",
            )
    for number, (before, after) in enumerate(pairwise(step.added(unit) or 0.0 for step in steps), start=1):
        if after <= before:
            raise InputError(
                where=f"{where}[{number}].added_{unit}",
                what=f"{after:g} is not more than the {before:g} of the step before",
                right="give the sum of all that has been added up to then, in the order of adding",
            )
    most = MOST_PER_ML[unit] * vessel_ml
    if steps and (steps[-1].added(unit) or 0.0) > most:
        raise InputError(
            where=f"{where}[{len(steps) - 1}].added_{unit}",
            what=f"{steps[-1].added(unit):g} {unit} cannot go into {vessel_ml:g} mL of liquor",
            right=f"at most {most:g} {unit}; check the unit of both",
        )


@answer
class Dose:
    """An amount of alkali in the measure of its kind."""

    unit: Unit
    """`ml` of the solution or `g` of the dry alkali."""
    p5: float
    """Nineteen times in twenty more than this is needed."""
    p50: float
    """The middle: add this in parts."""
    p95: float
    """Nineteen times in twenty less than this is needed."""


@answer
class DoseAnswer:
    """How much alkali, in which parts, and what it does."""

    version: Literal[1] = 1
    id: str
    dose: Dose
    """What brings the liquor to the wanted pH; with `added_so_far`, the rest that is still to come."""
    first_part: float
    """How much of the dose to add before the next pH reading, in the unit of the dose."""
    ph_after: Band
    """pH to expect when the middle dose is in."""
    ph_if_doubled: Band
    """pH to expect if twice the middle dose goes in by mistake."""
    calcite_g: Band
    """Chalk (calcite) that falls beside the blue and adds to its mass."""
    ammonia_room_ppm: Band | None
    """Ammonia in the air of the room once it is steady, parts per million; absent without a room or ammonia."""
    limits: tuple[Caution, ...]
    """What this alkali cannot do here."""
    basis: Literal["prior", "readings"]
    """What the answer rests on: priors and the starting pH alone, or a jar titration or readings of the tub too."""
    inputs: LiquorRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
