"""A vat's rows become its record; how it stands is kept by what it rests on, while the program runs.

What is learned of a vat holds until something is written of it: as time goes on only its course is drawn anew.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import datetime, timedelta
from functools import lru_cache
from threading import Lock
from typing import Any, Final, TypeVar
from uuid import UUID
from zoneinfo import ZoneInfo

import numpy as np

from bluewright.journal.bridge.assays import LEAST, MOST, PURITY_SD_FRAC, purity
from bluewright.journal.bridge.stock import seen_g
from bluewright.journal.bridge.stored import word
from bluewright.journal.courtesy import give_way
from bluewright.journal.models import Dip, Garden, Jar, Vat, VatAddition, VatPoured, VatReading
from bluewright.journal.queries import jars
from bluewright.journal.queries.vats import standing
from bluewright.science.base.bands import Band, sd_of
from bluewright.science.base.errors import BluewrightError
from bluewright.science.media.cloth import conditioned_kg
from bluewright.science.media.dry_pigment import MOISTURE_FRAC
from bluewright.science.media.purity import Known
from bluewright.science.vat.faults import faults
from bluewright.science.vat.faults_record import FaultAnswer, FaultRecord
from bluewright.science.vat.learn import Learned, learn
from bluewright.science.vat.recipe import recipe
from bluewright.science.vat.recipe_record import Pigment, VatRecipeAnswer, VatRecipeRecord
from bluewright.science.vat.setting import setting
from bluewright.science.vat.state import active_at, state
from bluewright.science.vat.state_record import Dipped, VatAnswer, VatRecord
from bluewright.science.vat.state_record import Poured as PouredRecord
from bluewright.science.vat.state_record import VatAddition as AdditionRecord
from bluewright.science.vat.state_record import VatReading as ReadingRecord

A = TypeVar("A")
MOST_KEPT: Final = 64
FRESH_FOR: Final = timedelta(minutes=10)
"""An answer is told again for so long if nothing was written of its vat since."""
STANDS_FOR: Final = timedelta(hours=12)
"""Pages that show many vats tell an answer for so long, until the new one is there."""
LEAST_SD_FRAC, MOST_SD_FRAC = 0.001, 0.5

_learned: OrderedDict[UUID, Learned] = OrderedDict()
_answers: OrderedDict[UUID, VatAnswer] = OrderedDict()
_troubles: OrderedDict[UUID, tuple[VatRecord, BluewrightError]] = OrderedDict()
"""Of vats whose looks contradict what is believed: their pages say it; it is not tried again and again."""
_one_at_a_time = Lock()


def vat_answer(vat: Vat, now: datetime) -> VatAnswer:
    """How a vat of `queries.vats` stands at `now`. Raises InputError or ModelError as the science does."""
    record = vat_record(vat, now=now)
    before = _answers.get(vat.pk)
    if before is not None and _same(before.inputs, record):  # what is worked out already waits for no other vat
        return before
    with _one_at_a_time:
        before = _answers.get(vat.pk)
        if before is not None and _same(before.inputs, record):
            return before
        known = _learned.get(vat.pk)
        seed = [record.seed, 0 if known is None else len(record.readings)]
        found = learn(setting(record), rng=np.random.default_rng(seed), before=known)
        answer = state(record, rng=np.random.default_rng(record.seed), learned=found)
        _troubles.pop(vat.pk, None)
        _keep(_learned, vat.pk, found)
        _keep(_answers, vat.pk, answer)
        return answer


def kept_answer(vat: Vat, now: datetime) -> VatAnswer | None:
    """What `vat_answer` would say, if it costs nothing: that of the last half day, of the same story; else None."""
    found = kept_or_trouble(vat, now)
    return found if isinstance(found, VatAnswer) else None


def active(vat: Vat, now: datetime, *, at: datetime | None = None) -> Band:
    """Indigo of a vat that is reduced and dissolved, g/L: at `now`, or `at` a moment before, by all that is known now.

    Raises InputError where `at` is before its start, and as `vat_answer` does.
    """
    found = vat_answer(vat, now)
    return found.active_g_per_l if at is None else active_at(found, at)


@lru_cache(maxsize=64)
def recipe_of(record: VatRecipeRecord) -> VatRecipeAnswer:
    """A recipe, worked out once. Raises InputError and ModelError as the science does, like the others here."""
    return recipe(record, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=64)
def faults_of(record: FaultRecord) -> FaultAnswer:
    """What ails a vat."""
    return faults(record, rng=np.random.default_rng(record.seed))


def unreckoned(garden: Garden, now: datetime) -> list[Vat]:
    """The standing vats of a garden whose answer is not kept."""
    return [vat for vat in standing(garden) if kept_or_trouble(vat, now) is None]


def kept_or_trouble(vat: Vat, now: datetime) -> VatAnswer | BluewrightError | None:
    """As `kept_answer`; why there can be none; or None while it is not known."""
    try:
        record = vat_record(vat, now=now)
    except BluewrightError as error:
        return error
    before, trouble = _answers.get(vat.pk), _troubles.get(vat.pk)
    if before is not None and _same(before.inputs, record, within=STANDS_FOR):
        return before
    return trouble[1] if trouble is not None and _same(trouble[0], record, within=STANDS_FOR) else None


def reckon(garden: Garden, *, now: datetime) -> None:
    """Work out how the standing vats stand of which it is not kept, vat by vat, beside the pages."""
    for vat in unreckoned(garden, now):
        give_way()
        try:
            vat_answer(vat, now)
        except BluewrightError as error:
            with suppress(BluewrightError):
                _keep(_troubles, vat.pk, (vat_record(vat, now=now), error))


def _keep(kept: OrderedDict[UUID, A], key: UUID, one: A) -> None:
    kept[key] = one
    kept.move_to_end(key)
    if len(kept) > MOST_KEPT:
        kept.popitem(last=False)


def _same(old: VatRecord, new: VatRecord, *, within: timedelta = FRESH_FOR) -> bool:
    apart = new.now - old.now
    return timedelta(0) <= apart < within and replace(old, now=new.now, id=new.id) == new


def vat_record(vat: Vat, *, now: datetime) -> VatRecord:
    """The record of a vat as it stands at `now`, or stood at its end: what was noted up to then.

    Raises InputError where the rows cannot be a vat.
    """
    zone = ZoneInfo(vat.garden.time_zone)
    until = now if vat.ended_at is None else min(now, vat.ended_at)
    room: dict[str, Any] = {} if vat.room_c is None else {"room_c": vat.room_c}
    return VatRecord(
        id=vat.name,
        kind=word(vat.kind),
        fibre=word(vat.fibre),
        volume_l=vat.volume_l,
        started=vat.started_at.astimezone(zone),
        now=until.astimezone(zone),
        heel_g=vat.heel_g,
        heel_sd_g=vat.heel_sd_g,
        additions=tuple(addition_record(one, zone) for one in vat.additions.all() if one.added_at <= until),
        poured=tuple(_poured(one, zone) for one in vat.poured.all() if one.poured_at <= until),
        dips=tuple(_dip(one, zone) for one in vat.dips.all() if one.began_at <= until),
        readings=tuple(_reading(one, zone) for one in vat.readings.all() if one.taken_at <= until),
        hold_c=vat.hold_c,
        covered=vat.covered,
        surface_m2=vat.surface_m2,
        reductant_opened=word(vat.reductant_opened),
        seed=vat.seed,
        **room,
    )


def jar_purity(jar: Jar) -> Known | None:
    """The share of indigo in a jar's dry powder: by its assays or as typed; else by what its page told last.

    None where neither is known. The jar is one of `queries.jars.jars`.
    """
    known, put_in_g = purity(jar), jars.put_in_g(jar)
    pure_g = seen_g(jar)
    if known is not None or pure_g is None or put_in_g <= 0:
        return known
    dry_g = put_in_g * (1.0 - MOISTURE_FRAC.centre)
    sd = sd_of(pure_g) / dry_g
    return Known(mean_frac=min(max(pure_g.p50 / dry_g, LEAST), MOST), sd_frac=min(max(sd, LEAST_SD_FRAC), MOST_SD_FRAC))


def jar_pigment(jar: Jar, *, mass_g: float | None) -> Pigment:
    """A jar as a recipe takes it: what is known of its powder, and its plant and making where nothing is.

    The jar is one of `queries.jars.jars`.
    """
    return Pigment(mass_g=mass_g, purity=jar_purity(jar), plant=word(jars.plant(jar)), make=jars.make(jar))


def mixed_pigment(shares: Sequence[tuple[Jar, float]], *, mass_g: float) -> Pigment:
    """Several jars mixed, each with its share of the powder, as a recipe takes them.

    Formula: mean = sum share x purity, sd = sqrt(sum (share x sd)^2): jars are off by themselves. Where one of them is
    known by nothing, so is the mix; then it counts as the jar of which most goes in.
    """
    known = [(jar_purity(jar), share) for jar, share in shares]
    if any(one is None for one, _share in known):
        return jar_pigment(max(shares, key=lambda one: one[1])[0], mass_g=mass_g)
    mean = sum(share * one.mean_frac for one, share in known if one is not None)
    sd = float(np.sqrt(sum((share * one.sd_frac) ** 2 for one, share in known if one is not None)))
    purity = Known(mean_frac=min(max(mean, LEAST), MOST), sd_frac=min(max(sd, LEAST_SD_FRAC), MOST_SD_FRAC))
    return Pigment(mass_g=mass_g, purity=purity)


def added_purity(row: VatAddition) -> Known | None:
    """The purity of powder that was added: of its jar, or as it was told; None where nobody knows, or it is none."""
    if row.what != "powder":
        return None
    if row.taken is not None:
        return jar_purity(row.taken.jar)
    if row.purity_frac is None:
        return None
    return Known(mean_frac=row.purity_frac, sd_frac=row.purity_sd_frac or PURITY_SD_FRAC)


def addition_record(row: VatAddition, zone: ZoneInfo) -> AdditionRecord:
    """What was added, as the record of a vat has it."""
    own: dict[str, Any] = {}
    if row.taken is not None:
        own = {"plant": jars.plant(row.taken.jar), "make": jars.make(row.taken.jar)}
    return AdditionRecord(
        time=row.added_at.astimezone(zone), what=word(row.what), mass_g=row.mass_g, purity=added_purity(row), **own
    )


def _poured(row: VatPoured, zone: ZoneInfo) -> PouredRecord:
    return PouredRecord(
        time=row.poured_at.astimezone(zone),
        volume_l=row.volume_l,
        pure_g=row.pure_g,
        pure_sd_g=row.pure_sd_g,
        reduced_frac=row.reduced_frac,
        reductant_g=row.reductant_g,
        ph=row.ph,
    )


def _dip(row: Dip, zone: ZoneInfo) -> Dipped:
    piece = row.piece
    cloth_kg = conditioned_kg(piece.mass_g / 1000.0, fibre=word(piece.fibre), basis=word(piece.basis))
    return Dipped(time=row.began_at.astimezone(zone), cloth_kg=cloth_kg, fibre=word(piece.fibre))


def _reading(row: VatReading, zone: ZoneInfo) -> ReadingRecord:
    return ReadingRecord(
        time=row.taken_at.astimezone(zone),
        ph=row.ph,
        potential_mv=row.potential_mv,
        electrode=word(row.electrode),
        temp_c=row.temp_c,
        liquor_look=row.liquor_look,
        film=row.film,
        grains_seen=row.grains_seen,
        strip_s=row.strip_s,
    )
