"""The invented season: believable, whole, marked, and the same every time."""

from collections import Counter
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from bluewright.journal import demo
from bluewright.journal.actions import dips as actions
from bluewright.journal.bridge import batches as bridge
from bluewright.journal.bridge import jars as jar_bridge
from bluewright.journal.models import (
    AirTemp,
    Batch,
    Bed,
    Change,
    Dip,
    Garden,
    HomeTest,
    Jar,
    JarTaken,
    LiquorLook,
    Picking,
    Poured,
    Reading,
    Steep,
    Strain,
    Weighing,
)
from bluewright.journal.queries import batches, jars, pieces
from bluewright.journal.queries.batches import stage_of
from bluewright.science.air.finish import airing
from bluewright.science.alkali.dose import dose
from bluewright.science.settle.drying import dry
from bluewright.science.settle.interface import settle
from tests.planted import Planted
from tests.web.homes import planted_at

pytestmark = pytest.mark.django_db
BEFORE_THE_CLOCKS_CHANGE = datetime(2027, 3, 28, 0, 30, tzinfo=UTC)
MOMENTS = {
    Steep: "started_at", Reading: "taken_at", Strain: "strained_at", Picking: "picked_at", Batch: "begun_at",
    LiquorLook: "taken_at", Weighing: "weighed_at", Jar: "filled_at", JarTaken: "taken_at",
    Dip: "ended_at", HomeTest: "done_at",
}  # fmt: skip


def told(garden: Garden) -> list[Any]:
    """What a person could read off the season, without keys."""
    looks = Reading.objects.filter(steep__garden=garden)
    rows = [(r.taken_at, r.limpness, r.scum, r.ph, r.temp_c) for r in looks]
    jarred = [(b.name, [part.pigment_g for part in b.jarred.all()]) for b in garden.batches.order_by("name")]
    return [sorted(rows, key=str), jarred]


def test_the_same_season_comes_out_again(season: Path, season_rows: Planted) -> None:
    first = told(season_rows.put_back())
    Garden.everything.update(invented=False)
    assert told(demo.plant(now=planted_at(season), by=None)) == first


def test_the_season_holds_every_stage(season: Path, season_rows: Planted) -> None:
    holds_every_stage(season_rows.put_back(), now=planted_at(season))


def test_so_it_does_in_the_night_when_the_clocks_change() -> None:
    holds_every_stage(demo.plant(now=BEFORE_THE_CLOCKS_CHANGE, by=None), now=BEFORE_THE_CLOCKS_CHANGE)


def holds_every_stage(garden: Garden, *, now: datetime) -> None:
    assert garden.invented
    assert Bed.objects.filter(garden=garden).count() >= 3
    whole = list(batches.batches(garden))
    assert len(whole) >= 14
    stages = Counter(stage_of(batch) for batch in whole)
    assert set(stages) == {"ended", "jar", "joined", "dry", "settle"}
    assert Steep.objects.filter(strains=None).count() == 2, "one steeps since two days, one since this morning"
    assert batches.unworked_strains(garden).count() == 1, "liquor waits for its alkali"
    assert Poured.objects.exclude(batch=None).count() == 2, "two batches were joined in one settling"
    assert any(picking.went_into.count() == 2 for picking in Picking.objects.all()), "one picking went into two tubs"
    cloth = Counter(pieces.stage_of(piece) for piece in pieces.pieces(garden))
    assert cloth == {"finished": 4, "airing": 1, "scoured": 1}
    assert all(actions.check(dip) is None for dip in Dip.objects.select_related("vat"))
    for model, column in MOMENTS.items():
        late = model.objects.filter(**{f"{column}__gt": now})
        assert not late.exists(), f"{model.__name__} in the future"
    assert AirTemp.objects.filter(forecast=True).count() == AirTemp.objects.filter(time__gt=now).count() > 0
    assert not Change.objects.filter(verb="delete").exists()


def test_the_season_stands_by_the_science(season: Path, season_rows: Planted) -> None:
    garden, now = season_rows.put_back(), planted_at(season)
    rng = np.random.default_rng(1)
    for batch in batches.batches(garden):
        parts = list(batch.alkali_parts.all())
        if parts:
            dose(bridge.liquor_record(batch, alkali=parts[0].alkali), rng=rng)
        if batch.airings.all():
            airing(bridge.air_record(batch, indigo_g=None), rng=rng)
        if batch.standings.all():
            settle(bridge.settle_record(batch.standings.all()[0], now=now + timedelta(hours=1)), rng=rng)
        for dish in batch.dryings.all():
            dry(bridge.dry_record(dish), rng=rng)
    for jar in jars.jars(garden):
        found = jars.jar(jar.pk, of=garden)
        assert found is not None
        assert 0 < jars.left_g(found) <= sum(part.pigment_g for part in found.came_from.all())
        record = jar_bridge.yield_record(found)
        assert 0.01 < record.pigment_g / record.leaf_kg < 60, "grams of pigment from a kilogram of leaf"
