"""The garden's batches become the record that asks what many of them say of their causes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from statistics import fmean
from typing import Any, Final
from uuid import UUID
from zoneinfo import ZoneInfo

import numpy as np

from bluewright.journal.bridge import book
from bluewright.journal.bridge.book import Line
from bluewright.journal.bridge.trials import Purity, known_purity
from bluewright.journal.models import Garden
from bluewright.journal.queries import work
from bluewright.journal.queries.book import Key
from bluewright.journal.queries.trials import Leaf, leaf_in
from bluewright.journal.written import UntilWritten
from bluewright.science.base.errors import InputError
from bluewright.science.learn.mixed import batches
from bluewright.science.learn.mixed_record import LEAST_BATCHES, BatchesAnswer, BatchesRecord, NotedBatch

MOST: Final = 500
"""The latest so many batches are asked."""
MADE: Final = "made"
"""The way of all of them: what differs stands in the other columns."""
MOST_WHY: Final = 200
MOST_NAME: Final = 60
_found: Final = UntilWritten[UUID, BatchesAnswer](4)


def found(garden: Garden) -> BatchesAnswer:
    """What the batches of a garden say, kept until one of them is written. Raises as `batches_record` and `told` do."""
    return _found.got(garden.pk, lambda: told(batches_record(Garden.objects.get(pk=garden.pk))))


def batches_record(garden: Garden) -> BatchesRecord:
    """Every batch that is in a jar or was given up, with what was noted of it, in a fixed number of statements.

    Raises InputError where fewer than four are in a jar.
    """
    known = book.whole(garden)
    asked = [row for row in known.listed if row.key in known.yields or row.key in known.ended][:MOST]
    lines = list(book.lines(asked, known.came_from))
    makes = work.makes([line.key for line in lines])
    leaf = leaf_in({tub.key for line in lines for tub in line.basket.tubs})
    zone = ZoneInfo(garden.time_zone)
    worst: defaultdict[str, float] = defaultdict(float)
    purities = [known_purity(line, makes) for line in lines]
    for purity in purities:
        worst[purity.assay] = max(worst[purity.assay], purity.sd_frac)
    noted = tuple(_noted(line, purity, leaf, zone, worst) for line, purity in zip(lines, purities, strict=True))
    if sum(one.value is not None and not one.spoilt for one in noted) < LEAST_BATCHES:
        raise InputError(
            where="batches", what=f"fewer than {LEAST_BATCHES} batches are in a jar, with leaf that is known",
            right="wait for more",
        )  # fmt: skip
    return BatchesRecord(batches=noted, seed=1)


@lru_cache(maxsize=16)
def told(record: BatchesRecord) -> BatchesAnswer:
    """What they say. Raises InputError where nothing that was noted differs."""
    return batches(record, rng=np.random.default_rng(record.seed))


def _noted(
    line: Line, purity: Purity, leaf: Mapping[Key, list[Leaf]], zone: ZoneInfo, worst: Mapping[str, float]
) -> NotedBatch:  # fmt: skip
    """One batch as the record takes it."""
    parts = [part for tub in line.basket.tubs for part in leaf.get(tub.key, ())]
    value = round(line.g_per_kg * purity.frac, 6) if line.g_per_kg else None
    assay = purity.assay if value is not None else ""
    plants: set[Any] = {tub.plant for tub in line.basket.tubs}
    ages: set[Any] = {part.age for part in parts}
    return NotedBatch(
        name=line.name[:MOST_NAME], way=MADE, value=value, assay=assay, assay_sd_frac=worst[assay] if assay else 0.0,
        day=min((part.picked_at for part in parts), default=line.begun_at).astimezone(zone).date(),
        bed=_only(line.beds), temp_c=line.tub_temp_c, steep_h=line.basket.steep_h,
        held_h=_mean((part.held_h, part.leaf_kg) for part in parts),
        damaged_frac=_mean((part.damaged_frac, part.leaf_kg) for part in parts),
        plant=plants.pop() if len(plants) == 1 else None, leaf_age=ages.pop() if len(ages) == 1 else None,
        alkali=" + ".join(line.alkalis)[:MOST_NAME], spoilt=line.ended_why[:MOST_WHY],
    )  # fmt: skip


def _only(names: Iterable[str]) -> str:
    """The name, where there is one only."""
    found = set(names)
    return found.pop()[:MOST_NAME] if len(found) == 1 else ""


def _mean(pairs: Iterator[tuple[float, float]]) -> float | None:
    """The mean of values by weight; None without any."""
    known = list(pairs)
    if not known or sum(weight for _value, weight in known) <= 0:
        return None
    return round(fmean((value for value, _weight in known), weights=[weight for _value, weight in known]), 4)
