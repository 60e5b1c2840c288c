"""A tub's rows become a steep record."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from zoneinfo import ZoneInfo

from bluewright.journal.bridge.stored import word
from bluewright.journal.models import AirTemp, Reading, Steep, TubTemp
from bluewright.journal.models.steep import SIGN_FIELDS
from bluewright.science.media.basket import LeafState
from bluewright.science.media.tub import Tub
from bluewright.science.steep.record import Reading as ReadingRecord
from bluewright.science.steep.record import Signs, SteepRecord, Temp

MOST_HELD_H = 1000.0


def steep_record(steep: Steep, *, air: Sequence[AirTemp], logged: Sequence[TubTemp] = (), now: datetime) -> SteepRecord:
    """The record of a tub as it stands at `now`: what was noted up to then, and the weather ahead.

    What a logger read in the tub counts as its means by the hour.

    Raises InputError where the rows cannot be a steep (no leaf, a time before the start).
    """
    zone = ZoneInfo(steep.garden.time_zone)
    leaf = list(steep.leaf.all())
    return SteepRecord(
        id=steep.name,
        plant=word(steep.plant),
        method=word(steep.method),
        started=steep.started_at.astimezone(zone),
        now=now.astimezone(zone),
        leaf_kg=sum(part.leaf_kg for part in leaf),
        water_l=steep.water_l,
        leaf=leaf_state(steep),
        tub=Tub(covered=steep.covered, insulated=steep.insulated, sun=word(steep.sun)),
        temps=(*air_record(air, now=now), *tub_record(logged, since=steep.started_at, now=now)),
        readings=tuple(reading_record(r, zone) for r in steep.readings.all() if r.taken_at <= now),
        can_strain=tuple(steep.can_strain.split()) or None,
        hemisphere=word(steep.garden.hemisphere),
        seed=steep.seed,
    )


def leaf_state(steep: Steep) -> LeafState:
    """In what state the leaf went in: the mean of its pickings by mass; mixed if their ages differ."""
    leaf = list(steep.leaf.all())
    total_kg = sum(part.leaf_kg for part in leaf)
    ages = {part.picking.age for part in leaf}
    held_h = sum(
        part.leaf_kg * max((steep.started_at - part.picking.picked_at).total_seconds() / 3600, 0.0) for part in leaf
    )
    return LeafState(
        age=word(ages.pop()) if len(ages) == 1 else "mixed",
        cut=word(steep.cut),
        damaged_frac=sum(part.leaf_kg * part.picking.damaged_frac for part in leaf) / total_kg if leaf else 0.0,
        held_h=min(held_h / total_kg, MOST_HELD_H) if leaf else 0.0,
    )


def reading_record(reading: Reading, zone: ZoneInfo) -> ReadingRecord:
    """One look."""
    return ReadingRecord(
        time=reading.taken_at.astimezone(zone),
        signs=Signs(**{name: getattr(reading, name) for name in SIGN_FIELDS}),
        ph=reading.ph,
        temp_c=reading.temp_c,
        dissolved_oxygen_mg_l=reading.dissolved_oxygen_mg_l,
        dye_index=reading.dye_index,
        dye_index_sd=reading.dye_index_sd,
    )


def air_record(air: Iterable[AirTemp], *, now: datetime) -> list[Temp]:
    """The air: what was read, and for times to come the forecast; a forecast of a time that is past counts no more."""
    return [
        Temp(time=row.time, where="air", temp_c=row.temp_c, forecast=row.forecast)
        for row in air
        if (row.time > now) == row.forecast
    ]


def tub_record(logged: Iterable[TubTemp], *, since: datetime, now: datetime) -> list[Temp]:
    """What a logger read in the tub from the start of the steep up to now."""
    return [Temp(time=row.time, where="tub", temp_c=row.temp_c) for row in logged if since <= row.time <= now]
