"""A batch's rows become the records of its stages: liquor to be made alkaline, aired, settled, washed, dried."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from itertools import accumulate
from typing import Any
from zoneinfo import ZoneInfo

from bluewright.journal.bridge.doses import dose
from bluewright.journal.bridge.dosing import amount, dosing
from bluewright.journal.bridge.sources import leaf_kg, liquor_l
from bluewright.journal.bridge.stored import word
from bluewright.journal.models import Airing, Alkali, Batch, Drying, JarTest, LiquorLook, Standing
from bluewright.science.air.record import AirReading, AirRecord, Bubble, Paddle, Pour, Signs, Whisk
from bluewright.science.alkali.record import Alkali as AlkaliRecord
from bluewright.science.alkali.record import Jar as JarRecord
from bluewright.science.alkali.record import LiquorRecord, Room, Step, Water
from bluewright.science.base.bands import Band, sd_of
from bluewright.science.base.errors import InputError
from bluewright.science.media.calcite import undissolved_lime_g
from bluewright.science.settle.acid_record import Acid, AcidRecord
from bluewright.science.settle.drying_record import DryRecord
from bluewright.science.settle.drying_record import Weighing as WeighingRecord
from bluewright.science.settle.interface_record import EdgeReading, SettleRecord
from bluewright.science.settle.wash_record import RinseReading, WashRecord

HARD_MG_CACO3_L = 180.0
"""Water is called hard from here on (World Health Organization, Hardness in Drinking-water, 2011; from memory)."""
MOST_POURS_PER_MIN = 60.0
"""Nobody pours faster: then the clock was not running while the pours were counted."""


def liquor_record(batch: Batch, *, alkali: Alkali) -> LiquorRecord:
    """The liquor of a batch as it stands, to be made alkaline with `alkali`: its looks, jar titration and parts so far.

    Parts of another alkali count through the pH that was read after them (`bridge.dosing`). Raises InputError where
    none was read, or where the rows cannot be such a liquor.
    """
    garden, had_l = batch.garden, liquor_l(batch)
    known = dosing(batch, alkali=alkali)
    if known.blind:
        raise InputError(
            where="ph",
            what=f"{known.settled[-1].added_typed} of {known.settled[-1].alkali} went in, and no pH was read after it",
            right="stir, wait two minutes, read the pH and write it down",
        )
    in_ml = alkali_record(alkali).unit == "ml"
    return LiquorRecord(
        id=batch.name,
        liquor_l=had_l + known.grown_l,
        alkali=alkali_record(alkali),
        temp_c=latest(batch.looks.all(), "temp_c"),
        ph=known.ph,
        target_ph=batch.target_ph,
        water=Water(
            alkalinity_mg_caco3_l=garden.water_alkalinity_mg_caco3_l,
            hardness_mg_caco3_l=garden.water_hardness_mg_caco3_l,
        ),
        leaf_kg=leaf_kg(batch) or None,
        jar=jar_record(known.jar, had_per_l=known.jar_had / had_l) if known.jar is not None else None,
        added_so_far=tuple(
            Step(added_ml=total if in_ml else None, added_g=None if in_ml else total, ph=ph)
            for total, ph in known.read.items()
        ),
        ph_sd=batch.ph_sd,
        room=room_record(batch),
        seed=batch.seed,
    )


def room_record(batch: Batch) -> Room | None:
    """The room in which alkali goes in; None outdoors."""
    if batch.room_m3 is None or batch.air_changes_per_h is None:
        return None
    return Room(volume_m3=batch.room_m3, air_changes_per_h=batch.air_changes_per_h)


def alkali_record(alkali: Alkali) -> AlkaliRecord:
    """An alkali of the cupboard."""
    return AlkaliRecord(
        kind=word(alkali.kind),
        percent_w_w=alkali.percent_w_w,
        mol_per_l=alkali.mol_per_l,
        label_as=word(alkali.label_as),
        opened=alkali.opened,
    )


def jar_record(test: JarTest, *, had_per_l: float = 0.0) -> JarRecord:
    """A jar titration with its steps, as sums up to each pH that was read; a step without a pH counts with the next.

    `had_per_l` is what a litre of its liquor held of the same alkali when the jar was drawn.
    """
    alkali, rows = alkali_record(test.alkali), list(test.steps.all())
    had = had_per_l * test.sample_ml / 1000.0
    sums = [had + total for total in accumulate(amount(row) for row in rows)]
    in_ml = alkali.unit == "ml"
    return JarRecord(
        sample_ml=test.sample_ml,
        temp_c=test.temp_c,
        alkali=alkali,
        steps=tuple(
            Step(added_ml=total if in_ml else None, added_g=None if in_ml else total, ph=row.ph)
            for row, total in zip(rows, sums, strict=True)
            if row.ph is not None
        ),
    )


def air_record(batch: Batch, *, indigo_g: Band | None) -> AirRecord:
    """The airing of a batch: the latest way, with all pours and minutes of that way, and the looks taken meanwhile.

    `indigo_g` is what the liquor is believed to hold. Raises InputError where nothing was aired or no temperature read.
    """
    airings = list(batch.airings.all())
    if not airings:
        raise InputError(where="airing", what="no airing has begun", right="begin one")
    temp_c = latest(batch.looks.all(), "temp_c")
    if temp_c is None:
        raise InputError(where="temp_c", what="the liquor's temperature is missing", right="take it and write it down")
    same = [one for one in airings if one.way == airings[0].way]
    kinds = {part.alkali.kind for part in batch.alkali_parts.all()}
    done_min, done_pours = aired_so_far(same)
    spread_g = sd_of(indigo_g) if indigo_g is not None else None
    way: dict[str, Any] = {airings[0].way: _way(airings[0], done_min, done_pours)}
    return AirRecord(
        id=batch.name,
        liquor_l=liquor_l(batch),
        temp_c=temp_c,
        ph=ph_before_air(batch),
        ph_sd=batch.ph_sd,
        indigo_g=indigo_g.p50 if indigo_g is not None else None,
        indigo_sd_g=spread_g,
        alkali=word(kinds.pop()) if len(kinds) == 1 else "unknown",
        altitude_m=batch.garden.altitude_m or 0.0,
        vessel_diameter_m=airings[0].vessel_diameter_m,
        done_min=done_min,
        done_pours=done_pours,
        readings=tuple(
            _air_reading(look, done_min=done_min, done_pours=done_pours) for look in looks_while_aired(batch)
        ),
        seed=batch.seed,
        **way,
    )


def aired_so_far(same_way: Sequence[Airing]) -> tuple[float | None, int | None]:
    """Minutes and pours of airings of one way; what was not measured, or can't be a pace of pouring, stays unknown.

    A clock that was never started beside counted pours, or pours never counted beside minutes, says nothing.
    """
    minutes, pours = _total(same_way, "done_min"), _total(same_way, "done_pours")
    if not same_way or same_way[0].way != "pour":
        return minutes, None
    if pours and (not minutes or pours / minutes > MOST_POURS_PER_MIN):
        minutes = None
    return minutes, int(pours) if pours is not None and (pours or not minutes) else None


def looks_while_aired(batch: Batch) -> list[LiquorLook]:
    """The looks taken while airing, in order of time; of a batch aired in several ways, since the last change."""
    airings = list(batch.airings.all())
    looks = [look for look in batch.looks.all() if _while_aired(look)]
    other = max((one.started_at for one in airings if one.way != airings[0].way), default=None)
    if other is None:
        return looks
    since = min(one.started_at for one in airings if one.started_at > other)
    return [look for look in looks if look.taken_at >= since]


def ph_before_air(batch: Batch) -> float | None:
    """The last pH before airing, of a look or after a part of alkali; None if the last part was not followed by one.

    Where nothing was written before airing began, what was added since.
    """
    began = min((one.started_at for one in batch.airings.all()), default=None)
    seen = [(part.added_at, part.ph) for part in batch.alkali_parts.all()]
    seen += [(look.taken_at, look.ph) for look in batch.looks.all() if look.ph is not None and not _while_aired(look)]
    before = [one for one in seen if began is None or one[0] <= began]
    return max(before or seen, key=lambda one: one[0], default=(None, None))[1]


def settle_record(standing: Standing, *, now: datetime) -> SettleRecord:
    """A vessel that stands, with the heights of its edge. Raises InputError without the depth of the liquor.

    `now` before the last height (clocks differ) counts as then.
    """
    batch = standing.batch
    if standing.depth_mm is None:
        raise InputError(where="depth_mm", what="the depth of the liquor is missing", right="measure it with a stick")
    kinds = {part.alkali.kind for part in batch.alkali_parts.all()}
    hardness = batch.garden.water_hardness_mg_caco3_l
    temp_c = latest(batch.looks.all(), "temp_c")
    known: dict[str, Any] = {} if temp_c is None else {"temp_c": temp_c}
    now = max([now, *(edge.taken_at for edge in standing.edges.all())])
    return SettleRecord(
        id=batch.name,
        depth_mm=standing.depth_mm,
        liquor_l=standing_l(standing),
        alkali=word(kinds.pop()) if len(kinds) == 1 else "unknown",
        hard_water=hardness is not None and hardness >= HARD_MG_CACO3_L,
        readings=tuple(
            EdgeReading(after_h=_hours(edge.taken_at - standing.started_at), interface_mm=edge.interface_mm)
            for edge in standing.edges.all()
        ),
        started=standing.started_at.astimezone(ZoneInfo(batch.garden.time_zone)),
        now_h=_hours(now - standing.started_at),
        seed=batch.seed,
        **known,
    )


def standing_l(standing: Standing) -> float | None:
    """What stands in the vessel: the liquor; in a wash, fresh water on what the last decant left; None if unknown."""
    if standing.refill_l is None:
        return liquor_l(standing.batch)
    earlier = [one for one in standing.batch.standings.all() if one.started_at < standing.started_at]
    left_l = latest(earlier, "left_l")
    return None if left_l is None else left_l + standing.refill_l


def acid_record(batch: Batch, *, acid: Acid, calcite_g: Band | None = None, lime_g: float | None = None) -> AcidRecord:
    """The limed pigment of a batch, to be freed with `acid`; what is not given is reckoned from its lime.

    Chalk as the dose of that lime expects it, lime as far as it did not dissolve. Raises InputError where no lime was
    given and no masses are.
    """
    parts = [part for part in batch.alkali_parts.all() if part.alkali.kind == "slaked_lime"]
    if parts:
        liquor = liquor_record(batch, alkali=parts[-1].alkali)
        calcite_g = calcite_g or dose(liquor).calcite_g
        if lime_g is None:
            added_g = sum(part.added_g or 0.0 for part in parts)
            lime_g = undissolved_lime_g(added_g, liquor_l=liquor.liquor_l, temp_c=liquor.temp_c)
    return AcidRecord(
        id=batch.name,
        calcite_g=calcite_g.p50 if calcite_g else 0.0,
        calcite_low_g=calcite_g.p5 if calcite_g else None,
        calcite_high_g=calcite_g.p95 if calcite_g else None,
        lime_g=lime_g or 0.0,
        acid=acid,
        seed=batch.seed,
    )


def wash_record(batch: Batch, *, refill_l: float | None = None) -> WashRecord:
    """The washes of a batch: the sludge as the last decant left it, the fresh water of the last wash or `refill_l`.

    Raises InputError before the first decant that tells how much stayed.
    """
    done = [one for one in batch.standings.all() if one.decanted_at is not None]
    left = [one.left_l for one in done if one.left_l is not None]
    if not left:
        raise InputError(where="left_l", what="what stayed after decanting is missing", right="say how many litres")
    washes = [one for one in done if one.refill_l is not None]
    first = [one for one in done if one.refill_l is None][-1:]
    refill = refill_l or next((one.refill_l for one in reversed(washes)), None)
    if refill is None:
        raise InputError(where="refill_l", what="no wash was planned", right="say how much fresh water you put on")
    tap = (batch.garden.tap_ph, batch.garden.tap_conductivity_us_per_cm)
    return WashRecord(
        id=batch.name,
        sludge_l=sum(left) / len(left),
        refill_l=refill,
        washes_done=len(washes),
        tap_ph=tap[0],
        tap_conductivity_us_per_cm=tap[1],
        readings=tuple(
            reading
            for number, one in [*((0, one) for one in first), *enumerate(washes, start=1)]
            if (reading := _rinse(number, one, tap)) is not None
        ),
        seed=batch.seed,
    )


def dry_record(drying: Drying) -> DryRecord:
    """A dish of paste with its weighings. Raises InputError before the first."""
    given = {"temp_c": drying.temp_c, "humidity_frac": drying.humidity_frac}
    rows = list(drying.weighings.all())
    if not rows:
        raise InputError(where="weighings", what="nothing was weighed yet", right="weigh the dish with the wet paste")
    known: dict[str, Any] = {name: value for name, value in given.items() if value is not None}
    return DryRecord(
        id=drying.batch.name,
        dish_g=drying.dish_g,
        weighings=tuple(
            WeighingRecord(after_h=max(_hours(row.weighed_at - drying.started_at), 0.0), total_g=row.total_g)
            for row in rows
        ),
        scale_sd_g=drying.scale_sd_g,
        layer_mm=drying.layer_mm,
        seed=drying.batch.seed,
        **known,
    )


def latest(rows: Iterable[Any], name: str) -> float | None:
    """The last value that was given of a column, of rows in order of time."""
    return next((value for row in reversed(list(rows)) if (value := getattr(row, name)) is not None), None)


def _while_aired(look: LiquorLook) -> bool:
    return look.after_min is not None or look.after_pours is not None


def _air_reading(look: LiquorLook, *, done_min: float | None, done_pours: int | None) -> AirReading:
    """A look, placed by pours where they are counted, else by minutes; never later than what is counted now."""
    by_pours = done_pours is not None and (look.after_pours is not None or done_min is None)
    after_pours = look.after_pours if look.after_pours is not None else done_pours
    after_min = look.after_min if look.after_min is not None else done_min
    return AirReading(
        after_min=None if by_pours else min(after_min or 0.0, done_min or 0.0),
        after_pours=min(after_pours or 0, done_pours or 0) if by_pours else None,
        dissolved_oxygen_mg_l=look.dissolved_oxygen_mg_l,
        signs=Signs(foam=look.foam, liquor=look.liquor),
        dye_index=look.dye_index,
        dye_index_sd=look.dye_index_sd,
        ph=look.ph,
    )


def _way(airing: Airing, minutes: float | None, pours: int | None) -> Pour | Whisk | Bubble | Paddle:
    if airing.way == "pour":
        per_min = pours / minutes if pours and minutes else None
        return Pour(height_m=airing.height_m, pour_l=airing.pour_l, pours_per_min=per_min)
    if airing.way == "whisk":
        return Whisk(tool=word(airing.tool))
    if airing.way == "bubble":
        if airing.air_l_per_min is None:
            raise InputError(where="air_l_per_min", what="the pump's air is missing", right="say litres a minute")
        return Bubble(air_l_per_min=airing.air_l_per_min, bubbles=word(airing.bubbles))
    return Paddle()


def _rinse(number: int, one: Standing, tap: tuple[float | None, float | None]) -> RinseReading | None:
    ph = one.ph if tap[0] is not None else None
    conductivity = one.conductivity_us_per_cm if tap[1] is not None else None
    if ph is None and conductivity is None:
        return None
    return RinseReading(wash=number, ph=ph, conductivity_us_per_cm=conductivity)


def _total(airings: Iterable[Airing], name: str) -> float | None:
    given = [value for one in airings if (value := getattr(one, name)) is not None]
    return sum(given) if given else None


def _hours(span: timedelta) -> float:
    return span / timedelta(hours=1)
