"""What is fixed about one vat while its ensemble learns: amounts, moments, warmth, and what each score stands for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from functools import partial
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.alkalis import KINDS as ALKALIS
from bluewright.science.media.calcite import lime_water_ph
from bluewright.science.media.cloth import REDUCES_FRAC, dry_kg
from bluewright.science.media.dry_pigment import MOISTURE_FRAC
from bluewright.science.media.oxygen import OXYGEN_G_PER_MOL, saturation_mg_per_l
from bluewright.science.media.purity import PURITY, known_share
from bluewright.science.media.tub import surface_m2
from bluewright.science.vat import state_priors as priors
from bluewright.science.vat.amounts import INDIGO_G_PER_MOL
from bluewright.science.vat.balance import ROOM_C
from bluewright.science.vat.kinds import KINDS, SetPoints, family, set_points
from bluewright.science.vat.liquor import (
    STALE_PH,
    Batch,
    Now,
    Stream,
    active_frac,
    air,
    pour,
    take,
    take_known,
    towards,
    unreduced,
)
from bluewright.science.vat.priors import AIR_FILM_M_PER_H, COVERED_FRAC
from bluewright.science.vat.redox import REDUCTANTS
from bluewright.science.vat.state_record import Dipped, Poured, VatAddition, VatRecord

STRONGEST_PH: Final = 14.0
"""Which no lye that is still a vat passes."""
MAKING_H: Final = 3.0
"""Alkali that goes in within these hours of the start belongs to the setting of the vat, whose pH is believed as
such."""
EVEN_STEPS: Final = 24
HYDROXIDE_PER_MOL: Final = 3.0
"""Hydroxide that a mole of reductant given later eats: 3, by the equations, a little more or less by kind."""

Event = Callable[[Batch, Now], None]
Events = dict[float, list[Event]]
"""By the hour of each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A span of time: how much faster everything goes than at the set warmth, and oxygen by the speed of its film."""

    speed_factor: float
    film_to_mmol_factor: float
    """mmol in the whole vat for each metre in an hour: saturation x surface x time."""


Spans = dict[tuple[float, float], Span]
"""By first and last hour."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """One vat, ready for an ensemble."""

    record: VatRecord
    priors: dict[str, Prior]
    hours: Floats
    """Moments from the start on, hours; every event, every reading and now are among them."""
    points: SetPoints
    temps_c: tuple[tuple[float, float], ...]
    """Hours and degrees that are known."""
    events: Events = field(default_factory=dict)
    purities: dict[str, Prior] = field(default_factory=dict)
    spans: Spans = field(default_factory=dict)

    @property
    def names(self) -> tuple[str, ...]:
        """What each column of the scores stands for."""
        return tuple(self.priors)

    @property
    def wanted_ph(self) -> float:
        """pH at which the vat was set."""
        return self.points.ph.value

    @property
    def set_c(self) -> float:
        """Warmth to which all speeds refer, °C."""
        return KINDS[self.record.kind].reduce_c.value

    @property
    def air_gain_factor(self) -> float:
        """Electrons that the reductant gives to oxygen for one that it would give to indigo (no unit)."""
        name = KINDS[self.record.kind].reductant
        return 1.0 if name is None else REDUCTANTS[name].to_air.electrons / REDUCTANTS[name].to_indigo.electrons

    def hour(self, time: datetime) -> float:
        """Hours from the start to `time`."""
        return (time - self.record.started).total_seconds() / 3600.0

    def batch(self, z: Floats) -> Batch:
        """The members' parameters by name, at scores `z` (n, d)."""
        return {name: prior.from_z(z[:, k]) for k, (name, prior) in enumerate(self.priors.items())}

    def temp_c(self, at_h: float) -> float:
        """Warmth: between readings by straight lines, after the last by cooling towards the room, °C."""
        if self.record.hold_c is not None:
            return self.record.hold_c
        known_h = [at for at, _ in self.temps_c]
        last_h, last_c = self.temps_c[-1]
        if at_h <= last_h:
            return float(np.interp(at_h, known_h, [temp for _, temp in self.temps_c]))
        slow_h = priors.COOLING_H.value * (self.record.volume_l / 20.0) ** (1.0 / 3.0)
        return self.record.room_c + (last_c - self.record.room_c) * float(np.exp(-(at_h - last_h) / slow_h))

    def span(self, start_h: float, end_h: float) -> Span:
        """Speed and air of a span of time, which are the same for every member: reckoned once."""
        found = self.spans.get((start_h, end_h))
        if found is None:
            found = self.spans[start_h, end_h] = self._span(start_h, end_h)
        return found

    def _span(self, start_h: float, end_h: float) -> Span:
        temp_c = self.temp_c(0.5 * (start_h + end_h))
        area = self.record.surface_m2 or surface_m2(self.record.volume_l)
        held = held_mmol_per_l(temp_c)
        lid = COVERED_FRAC.value if self.record.covered else 1.0
        return Span(
            speed_factor=2.0 ** ((temp_c - self.set_c) / priors.TEMP_STEP_C.value),
            film_to_mmol_factor=held * lid * area * 1000.0 * (end_h - start_h),
        )

    def made_mmol_per_l(self, batch: Batch, start_h: float, end_h: float, speed_factor: float) -> Floats:
        """Electrons that a fermented vat makes: none at first, then steadily as long as it is fed."""
        if self.record.kind != "ferment":
            return np.zeros_like(batch["half_life_h"])
        middle = 0.5 * (start_h + end_h)
        fed_h = max((self.hour(a.time) for a in self.record.additions if a.what in {"bran", "madder"}), default=0.0)
        going = 1.0 - np.exp(-((middle / batch["wakes_h"]) ** 2))
        fading = np.exp(-((max(middle - fed_h, 0.0) / batch["fed_h"]) ** 2))
        return batch["makes_mmol_per_l_h"] * going * fading * speed_factor * (end_h - start_h)

    def beyond(self, hours: float) -> Floats:
        """Moments after now up to so many hours on."""
        start = float(self.hours[-1])
        return start + hours * np.linspace(0.0, 1.0, 13)[1:] ** 1.5


def setting(record: VatRecord) -> Setting:
    """The vat of a record with its moments and its events."""
    purities = {f"purity {row}": _purity(one) for row, one in enumerate(record.additions) if one.what == "powder"}
    shared = _shared_purity(purities)
    made = Setting(
        record=record,
        priors=_priors(record) | shared,
        hours=_hours(record),
        points=set_points(record.kind, record.fibre),
        temps_c=_temps(record),
        purities=purities,
    )
    for row, one in enumerate(record.additions):
        made.events.setdefault(made.hour(one.time), []).append(_addition(made, one, row))
    for row, dip in enumerate(record.dips):
        made.events.setdefault(made.hour(dip.time), []).append(partial(_dipped, made, dip, row))
    for row, liquid in enumerate(record.poured):
        made.events.setdefault(made.hour(liquid.time), []).append(partial(_poured, made, liquid, row))
    return made


def _shared_purity(purities: dict[str, Prior]) -> dict[str, Prior]:
    """One score for all powder: jars of one garden are wrong the same way."""
    score = Prior(kind="normal", centre=0.0, spread=1.0, unit="1", source="bluewright-vat", grade="exact")
    return {"purity_z": score} if purities else {}


def _priors(record: VatRecord) -> dict[str, Prior]:
    kind = KINDS[record.kind]
    found = {
        "reaches": REDUCES_FRAC,
        "ready_h": priors.FERMENTS_READY_H if record.kind == "ferment" else kind.ready_h,
        "half_life_h": priors.HALF_LIFE_H[record.kind],
        "film_m_per_h": AIR_FILM_M_PER_H,
        "drift_ph_per_day": priors.DRIFT_PH_PER_DAY[record.kind],
        "start_ph": priors.START_PH,
        "buffer_mmol_per_l": priors.BUFFER_MMOL_PER_L["lime" if kind.alkalis[0] == "slaked_lime" else "other"],
        "dip_air_mmol_per_l": priors.DIP_AIR_MMOL_PER_L,
        "acid_g_per_l": priors.ACID_DISSOLVES_G_PER_L,
        "heel_g": _given_g(record.heel_g, record.heel_sd_g),
        "ph_bias": priors.PH_BIAS, "mv_bias": priors.MV_BIAS, "strip_bias": priors.STRIP_BIAS,
        "liquor_look_offset": priors.OFFSET, "film_offset": priors.OFFSET, "grains_seen_offset": priors.OFFSET,
    }  # fmt: skip
    if kind.reductant is not None:
        found["kept"] = REDUCTANTS[kind.reductant].kept[record.reductant_opened]
    if record.kind == "ferment":
        found |= {
            "makes_mmol_per_l_h": priors.MAKES_MMOL_PER_L_H, "wakes_h": priors.WAKES_H, "fed_h": priors.FED_H,
        }  # fmt: skip
    for fibre in sorted({family(dip.fibre) for dip in record.dips}):
        found[f"clears_{fibre}"] = priors.TAKE_L_PER_KG[fibre]
    for row, dip in enumerate(record.dips):
        if dip.taken_g is not None:
            spread = priors.TAKEN_SD_FRAC.value * dip.taken_g if dip.taken_sd_g is None else dip.taken_sd_g
            found[f"taken {row}"] = _given_g(dip.taken_g, spread)
    for row, one in enumerate(record.poured):
        if one.pure_g > 0:
            found[f"poured {row}"] = _given_g(one.pure_g, one.pure_sd_g)
    return found


def _given_g(centre: float, spread: float) -> Prior:
    return Prior(
        kind="normal", centre=centre, spread=spread, unit="g", source="bluewright-vat", grade="guess",
        note="given in the record",
    )  # fmt: skip


def _purity(one: VatAddition) -> Prior:
    return PURITY[one.make][one.plant] if one.purity is None else known_share(one.purity)


def held_mmol_per_l(temp_c: float) -> float:
    """Oxygen that water of this warmth holds in air, mmol/L; warmer than 60 °C as at 60."""
    return saturation_mg_per_l(min(max(temp_c, 0.0), 60.0)) / OXYGEN_G_PER_MOL.value


def _hours(record: VatRecord) -> Floats:
    """Moments of the course. Up to the last thing that was noted they are the same whenever one asks."""

    def hour(time: datetime) -> float:
        return (time - record.started).total_seconds() / 3600.0

    end = hour(record.now)
    times = [one.time for one in record.additions] + [one.time for one in record.dips]
    times += [one.time for one in record.poured] + [one.time for one in record.readings]
    marks = [hour(time) for time in times]
    last = max(marks, default=0.0)
    even = np.linspace(0.0, 1.0, EVEN_STEPS + 1)
    fresh = [mark + after for mark in marks for after in (0.25, 1.0, 3.0)] if len(marks) <= EVEN_STEPS else []
    every = [0.0, end, *marks, *(last * even), *(last + (end - last) * even), *(at for at in fresh if at < end)]
    return np.unique(np.array(every))


def _temps(record: VatRecord) -> tuple[tuple[float, float], ...]:
    read = {(one.time - record.started).total_seconds() / 3600.0: one.temp_c for one in record.readings}
    known = sorted((at, temp) for at, temp in read.items() if temp is not None)
    if known and known[0][0] <= MAKING_H:
        return tuple(known)
    return ((0.0, KINDS[record.kind].reduce_c.value), *known)


def _addition(made: Setting, one: VatAddition, row: int) -> Event:
    if one.what == "powder":
        return partial(_powder, one.mass_g, made.purities[f"purity {row}"])
    if one.what in ALKALIS:
        late = made.hour(one.time) > MAKING_H
        kind = ALKALIS[one.what]
        mmol = 1000.0 * one.mass_g * kind.purity.centre / kind.molar.value * kind.charge
        most_ph = lime_water_ph(ROOM_C) if one.what == "slaked_lime" else STRONGEST_PH
        return partial(_alkali, mmol if late else 0.0, most_ph)
    name = KINDS[made.record.kind].reductant
    if name is not None and one.what == name:
        mmol = 1000.0 * one.mass_g / REDUCTANTS[name].molar_g_per_mol
        eats = HYDROXIDE_PER_MOL * mmol if made.hour(one.time) > MAKING_H else 0.0
        return partial(_reductant, mmol, REDUCTANTS[name].to_indigo.electrons, eats)
    return lambda _batch, _now: None  # bran and madder: `made_mmol_per_l` reads when they came


def _powder(mass_g: float, purity: Prior, batch: Batch, now: Now) -> None:
    share = purity.from_z(batch["purity_z"]) * (1.0 - MOISTURE_FRAC.centre)
    unreduced(now, mass_g * share, reaches_frac=batch["reaches"])


def _alkali(mmol: float, most_ph: float, batch: Batch, now: Now) -> None:
    moved = towards(now.ph, end_ph=most_ph, by=mmol / now.volume_l / batch["buffer_mmol_per_l"])
    now.ph = np.where(now.ph < most_ph, moved, now.ph)


def _reductant(mmol: float, electrons: int, eats: float, batch: Batch, now: Now) -> None:
    brought = mmol / now.volume_l * electrons * batch["kept"]
    now.electrons_mmol = now.electrons_mmol + brought
    now.book.given_mmol = now.book.given_mmol + brought
    now.ph = towards(now.ph, end_ph=STALE_PH, by=eats / now.volume_l / batch["buffer_mmol_per_l"])


def _poured(made: Setting, one: Poured, row: int, batch: Batch, now: Now) -> None:
    """It falls through the air, and brings as much of it as water holds."""
    nothing = np.zeros_like(now.ph)
    pure_g = np.maximum(batch[f"poured {row}"], 0.0) if one.pure_g > 0 else nothing
    reduced_g = one.reduced_frac * pure_g
    name = KINDS[made.record.kind].reductant
    given = 0.0 if name is None else one.reductant_g / REDUCTANTS[name].molar_g_per_mol * 1000.0
    electrons = 0 if name is None else REDUCTANTS[name].to_indigo.electrons
    blue_g = pure_g - reduced_g
    stream = Stream(
        volume_l=one.volume_l, reduced_g=reduced_g, waiting_g=blue_g * batch["reaches"],
        grains_g=blue_g * (1.0 - batch["reaches"]), electrons_all_mmol=nothing + given * electrons, ph=one.ph,
    )  # fmt: skip
    pour(now, stream)
    temp_c = made.temp_c(made.hour(one.time))
    oxygen = held_mmol_per_l(temp_c) * one.volume_l / now.volume_l
    air(now, nothing + oxygen, gain_factor=made.air_gain_factor)


def _dipped(made: Setting, dip: Dipped, row: int, batch: Batch, now: Now) -> None:
    grams = now.reduced_mmol * INDIGO_G_PER_MOL / 1000.0
    dry = dry_kg(dip.cloth_kg, fibre=dip.fibre)
    if dip.taken_g is None:
        active = active_frac(now.ph, reduced_g_per_l=grams, acid_g_per_l=batch["acid_g_per_l"])
        clears = batch[f"clears_{family(dip.fibre)}"]
        take(now, active_frac=active, clears_l_per_kg=clears, litres_per_kg=now.volume_l / dry)
    else:
        take_known(now, now.mmol_per_l(batch[f"taken {row}"]))
    air(now, batch["dip_air_mmol_per_l"], gain_factor=made.air_gain_factor)
