"""The jars of a garden and its jobs, as the question which of them to mix takes them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from zoneinfo import ZoneInfo

import numpy as np

from bluewright.journal.bridge import planning
from bluewright.journal.bridge.vats import jar_purity
from bluewright.journal.models import Garden, Jar
from bluewright.journal.queries import jars, plan
from bluewright.science.dyeing.lots import lots
from bluewright.science.dyeing.lots_record import MOST_JARS, LotJar, LotsAnswer, LotsRecord
from bluewright.science.media.dry_pigment import MOISTURE_FRAC

MOST_LOOKED_AT = 60
"""So many jars, the newest, are asked for their indigo."""
LEAST_G = 0.01
"""A jar with less pigment is empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """The jars that hold something."""

    known: tuple[LotJar, ...]
    """Those whose indigo is known, each by a name of its own."""
    keys: dict[str, str]
    """Their keys by that name."""
    unknown: tuple[str, ...]
    """Names of those whose indigo nobody knows."""
    left_out: tuple[str, ...]
    """Names of those beyond the number that can be mixed at once: the newest stay."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """Something wanted that needs indigo from the jars."""

    key: str
    name: str
    pure_g: float
    fibre: str = ""
    """Of the cloth that is wanted; empty of pigment."""


def shelf(garden: Garden) -> Shelf:
    """The jars that hold something, the newest first."""
    zone = ZoneInfo(garden.time_zone)
    known: list[LotJar] = []
    keys, unknown, left_out = dict[str, str](), list[str](), list[str]()
    for jar in jars.these(garden, jars.holding(garden)[:MOST_LOOKED_AT]):
        share, left = jar_purity(jar), jars.left_g(jar)
        if left < LEAST_G:
            continue
        if share is None:
            unknown.append(jar.name)
        elif len(known) == MOST_JARS:
            left_out.append(jar.name)
        else:
            name = jar.name if jar.name not in keys else f"{jar.name} ({len(keys) + 1})"
            keys[name] = str(jar.pk)
            known.append(_lot(jar, name, left, zone))
    return Shelf(known=tuple(known), keys=keys, unknown=tuple(unknown), left_out=tuple(left_out))


def _lot(jar: Jar, name: str, left_g: float, zone: ZoneInfo) -> LotJar:
    """A jar as it is weighed out: air-dry, so its share of indigo is that of the dry powder less its moisture."""
    share = jar_purity(jar)
    assert share is not None  # asked before
    dry = 1.0 - MOISTURE_FRAC.centre
    return LotJar(
        name=name, mass_g=left_g, purity_frac=round(share.mean_frac * dry, 6),
        purity_sd_frac=round(max(share.sd_frac * dry, 0.0001), 6), filled=jar.filled_at.astimezone(zone).date(),
    )  # fmt: skip


def jobs(garden: Garden, *, today: date) -> list[Job]:
    """The open wants, each with the pure indigo that must be put in for it, in the middle."""
    wants = [want for want in plan.wants(garden) if want.state == "open"][: plan.MOST_WANTS]
    if not wants:
        return []
    record = planning.plan_record(garden, wants=wants, basis=plan.basis(garden), today=today)
    if record is None:
        return []
    found = planning.planned(replace(record, beds=(), weather=None)).wants
    needed = [one for one in found if one.kind in {"cloth", "pigment"}]
    ordered = [want for want in wants if want.what == "cloth"] + [want for want in wants if want.what == "pigment"]
    by_name = {one.name: one.needed_g.p50 for one in needed}
    return [
        Job(key=str(want.pk), name=want.name, pure_g=by_name[want.name], fibre=want.fibre)
        for want in ordered
        if want.name in by_name
    ]


@lru_cache(maxsize=64)
def mixed(record: LotsRecord) -> LotsAnswer:
    """Which jars to mix. Raises InputError and ModelError as the science does."""
    return lots(record, rng=np.random.default_rng(record.seed))
