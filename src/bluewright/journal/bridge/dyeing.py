"""Ladders, pieces and vats become the records of dyeing; what a person's own ladders taught goes into every forecast.

A fit is kept by what it rests on: a forecast asks for all ladders of its fibre, one folded upon the other, and only
what was written since is worked out anew.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from functools import lru_cache
from statistics import fmean
from typing import Any, Final
from uuid import UUID

import numpy as np

from bluewright.journal.bridge.stored import word
from bluewright.journal.bridge.swatches import ALIKE, beside, ground_lab, lab, shared
from bluewright.journal.bridge.vats import active, vat_answer
from bluewright.journal.models import Dip, Garden, Ladder, LadderDip, LadderRung, Measured, Piece, Swatch, Vat
from bluewright.journal.queries import ladders, vats
from bluewright.science.base.bands import Band, log_sd_of
from bluewright.science.base.errors import InputError
from bluewright.science.colour.compare_record import Lab
from bluewright.science.colour.priors import Taken
from bluewright.science.dyeing.ladder import ladder
from bluewright.science.dyeing.ladder_record import LadderAnswer, LadderRecord, Rung
from bluewright.science.dyeing.match import match
from bluewright.science.dyeing.match_record import MatchAnswer, MatchRecord
from bluewright.science.dyeing.parts import Dipping, DyedCloth, DyeVat
from bluewright.science.dyeing.scores import Learned
from bluewright.science.dyeing.shade import shade
from bluewright.science.dyeing.shade_record import ShadeAnswer, ShadeRecord
from bluewright.science.media.cloth import dry_kg

MOST_DIPS_SHOWN: Final = 12
MOST_DIP_MIN: Final = 1440.0
LEAST_SD, MOST_SD = 0.005, 1.0
"""Between these lies what a strength may be said to be off by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Own:
    """What the ladders of a garden taught of a fibre."""

    learned: Learned | None
    """To be handed on to a forecast; None without a ladder."""
    ladders: int
    swatches: int


def own(garden: Garden, fibre: str) -> Own:
    """What all standing ladders of a fibre taught, one folded upon the other. Raises InputError or ModelError."""
    return _folded(ladders.done(garden, fibre=fibre))


def learned(garden: Garden, fibre: str) -> Learned | None:
    """The same, as a forecast takes it; None without a ladder of that fibre."""
    return own(garden, fibre).learned


def before(row: Ladder) -> Own:
    """What was known when a ladder was done, by those before it; of one that is not done, by all others."""
    rows = [one for one in ladders.done(row.garden, fibre=row.fibre) if one.pk != row.pk]
    if row.done_at is not None:
        rows = [one for one in rows if one.done_at is not None and (one.done_at, one.pk) < (row.done_at, row.pk)]
    return _folded(rows)


def ladder_answer(row: Ladder) -> LadderAnswer:
    """What a ladder taught beside those before it, or which strips would teach most. Raises InputError, ModelError."""
    return fitted(ladder_record(row, measured=ladders.measured_of([row]), learned=before(row).learned))


def planned(row: Ladder) -> LadderAnswer:
    """Which strips of a new ladder would teach most, after all that were done. Raises InputError or ModelError."""
    record = LadderRecord(
        id=row.name, cloth=_cloth(row, row.strip_g), vat=_vat(row), way=_planned_way(row), most_dips=MOST_DIPS_SHOWN,
        taken=ALIKE.get(row.how, "apart"), learned=learned(row.garden, row.fibre), seed=row.seed,
    )  # fmt: skip
    return fitted(record)


@lru_cache(maxsize=128)
def fitted(record: LadderRecord) -> LadderAnswer:
    """The fit of a ladder, kept while the program runs."""
    return ladder(record, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=64)
def shaded(record: ShadeRecord) -> ShadeAnswer:
    """The forecast of a shade, kept while the program runs."""
    return shade(record, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=64)
def matched(record: MatchRecord) -> MatchAnswer:
    """How to come to a swatch, kept while the program runs."""
    return match(record, rng=np.random.default_rng(record.seed))


def _folded(rows: list[Ladder]) -> Own:
    """Ladders one after the other: each begins with what those before it taught."""
    measured, taught, swatches, counted = ladders.measured_of(rows), None, 0, 0
    for row in rows:
        record = ladder_record(row, measured=measured, learned=taught)
        if record.rungs:
            taught, swatches, counted = fitted(record).learned, swatches + len(record.rungs), counted + 1
    return Own(learned=taught, ladders=counted, swatches=swatches)


def ladder_record(row: Ladder, *, measured: Mapping[UUID, Measured], learned: Learned | None) -> LadderRecord:
    """The record of a ladder: its strips that were measured. Raises InputError where the rows cannot be one."""
    rungs = [rung for rung in row.rungs.all() if ladders.is_measured(rung)]
    taken = _taken(row, rungs, measured)
    most = max([MOST_DIPS_SHOWN, *(rung.dips for rung in row.rungs.all())])
    return LadderRecord(
        id=row.name, cloth=_strips(row), vat=_vat(row), way=_way(row), taken=taken, most_dips=most, seed=row.seed,
        rungs=tuple(_rung(row, rung, taken, measured) for rung in rungs), learned=learned,
    )  # fmt: skip


def _strips(row: Ladder) -> DyedCloth:
    """All strips together, as they go into the vat for the first dip."""
    return _cloth(row, sum(rung.before_g or row.strip_g for rung in row.rungs.all()) or row.strip_g)


def _cloth(row: Ladder, grams: float) -> DyedCloth:
    return DyedCloth(
        fibre=word(row.fibre), mass_kg=grams / 1000.0, basis=word(row.basis), body=word(row.body),
        thickness_mm=row.thickness_mm, ground=ground_lab(row),
    )  # fmt: skip


def _vat(row: Ladder) -> DyeVat:
    return DyeVat(
        bath_l=row.bath_l, active_g_per_l=row.active_g_per_l, active_sd_frac=row.active_sd_frac, ph=row.ph,
        temp_c=row.temp_c, run=word(row.run),
    )  # fmt: skip


def _way(row: Ladder) -> Dipping:
    """How it was dipped: by the clock where the dips were noted, else as planned."""
    return _by_the_clock(_planned_way(row), ladders.dips_done(row))


def _by_the_clock(planned: Dipping, dips: Iterable[Dip | LadderDip]) -> Dipping:
    """The same with the mean time that its dips took; as planned where none is over."""
    took = [(dip.ended_at - dip.began_at).total_seconds() / 60.0 for dip in dips if dip.ended_at is not None]
    return replace(planned, dip_min=min(max(round(fmean(took), 2), 0.1), MOST_DIP_MIN)) if took else planned


def _planned_way(row: Ladder) -> Dipping:
    return Dipping(dip_min=row.dip_min, air_min=row.air_min, after_dip=word(row.after_dip), finish=word(row.finish))


def _rung(row: Ladder, rung: LadderRung, taken: Taken, measured: Mapping[UUID, Measured]) -> Rung:
    swatch = ladders.swatch_of(rung)
    told = _typed(rung) if swatch is None else _measured(swatch, taken, measured)
    weighed = rung.before_g is not None and rung.after_g is not None
    gain: dict[str, Any] = {}
    if weighed and rung.before_g is not None and rung.after_g is not None:
        dry = dry_kg(rung.before_g / 1000.0, fibre=word(row.fibre), basis=word(row.basis)) * 1000.0
        gain = {"gain_g": round(rung.after_g - rung.before_g, 6), "dry_g": dry, "scale_sd_g": row.scale_sd_g}
    return Rung(dips=rung.dips, **told, **gain)


def _typed(rung: LadderRung) -> dict[str, Any]:
    colour = (rung.l_star, rung.a_star, rung.b_star)
    spreads = (rung.l_sd, rung.a_sd, rung.b_sd)
    return {
        "lab": None if None in colour else colour, "lab_sd": None if None in spreads else spreads,
        "k_over_s": rung.k_over_s,
    }  # fmt: skip


def _measured(swatch: Swatch, taken: Taken, measured: Mapping[UUID, Measured]) -> dict[str, Any]:
    return {"lab": lab(swatch), "lab_sd": beside(swatch, taken, measured).lab_sd, "k_over_s": swatch.k_over_s or None}


def _taken(row: Ladder, rungs: list[LadderRung], measured: Mapping[UUID, Measured]) -> Taken:
    """What the colours of its strips share by how they were measured."""
    swatches = [one for rung in rungs if (one := ladders.swatch_of(rung)) is not None]
    typed = len(swatches) < len([rung for rung in rungs if rung.l_star is not None or ladders.swatch_of(rung)])
    if swatches and not typed:
        return shared(swatches, measured)
    hows = {one.how for one in swatches} | {row.how}
    return ALIKE.get(hows.pop(), "apart") if len(hows) == 1 else "apart"


def from_its_vat(row: Ladder, *, now: datetime) -> Ladder:
    """The ladder with what it does not say itself, as its vat stands: litres, strength, pH and warmth of the moment.

    Raises InputError or ModelError where the vat cannot tell its strength and none was typed.
    """
    if row.vat is None:
        return row
    if not row.bath_l:
        row.bath_l, row.bath_typed = row.vat.volume_l, row.vat.volume_typed
    if not row.active_g_per_l:
        found = dye_vat(row.vat, now=now)
        assert found.active_g_per_l is not None  # a reckoned vat tells its strength
        row.active_g_per_l, row.active_sd_frac, row.reckoned = found.active_g_per_l, found.active_sd_frac, True
        row.ph = found.ph if row.ph is None else row.ph
        row.temp_c = found.temp_c if row.temp_c is None else row.temp_c
    return row


def dye_vat(vat: Vat, *, now: datetime, at: datetime | None = None) -> DyeVat:
    """A vat of the book as a forecast takes it: its strength as reckoned, pH and warmth as they were seen last.

    With `at` its strength is that of a moment before, by all that is known now.
    Raises InputError or ModelError where it cannot be reckoned.
    """
    whole = vats.vat(vat.pk, of=vat.garden)
    if whole is None:
        raise InputError(where="vat", what="it was taken out", right="choose another")
    band = active(whole, now, at=at)
    looks = list(whole.readings.all())
    ph = next((look.ph for look in reversed(looks) if look.ph is not None), None)
    seen_c = next((look.temp_c for look in reversed(looks) if look.temp_c is not None), None)
    return DyeVat(
        bath_l=vat_answer(whole, now).volume_l, active_g_per_l=band.p50, active_sd_frac=sd_frac(band), ph=ph,
        temp_c=whole.hold_c if whole.hold_c is not None else seen_c,
    )  # fmt: skip


def piece_cloth(row: Piece) -> DyedCloth:
    """A piece as it goes into the vat."""
    return DyedCloth(
        fibre=word(row.fibre), mass_kg=row.mass_g / 1000.0, basis=word(row.basis), body=word(row.body),
        thickness_mm=row.thickness_mm, ground=ground_lab(row),
    )  # fmt: skip


def piece_way(row: Piece) -> Dipping:
    """How a piece is dipped, by the clock once it was, and finished as it was or, before that, as usual."""
    planned = Dipping(
        dip_min=row.dip_min, air_min=row.air_min, after_dip=word(row.after_dip), finish=word(row.finish or "soaped")
    )
    return _by_the_clock(planned, row.dips.all())


def shade_record(
    row: Piece, vat: DyeVat, *, dips: int, wanted: Lab | None, learned: Learned | None, done: int = 0
) -> ShadeRecord:
    """The record of a piece's shade in a vat. Raises InputError where the vat is too small for it."""
    return ShadeRecord(
        id=row.name, cloth=piece_cloth(row), vat=vat, dips=dips, done=done, way=piece_way(row), wanted=wanted,
        learned=learned, seed=row.seed,
    )  # fmt: skip


def sd_frac(band: Band) -> float:
    """The spread of a log-normal with these 5 and 95 % points, within what a record takes."""
    spread = log_sd_of(band) if band.p5 > 0 else MOST_SD
    return min(max(round(spread, 4), LEAST_SD), MOST_SD)
