"""The jars of a garden and its jobs, as the question which of them to mix takes them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np

from bluewright.journal.bridge import planning
from bluewright.journal.bridge.dyeing import learned as dyeing_learned
from bluewright.journal.bridge.dyeing import piece_cloth
from bluewright.journal.bridge.swatches import lab
from bluewright.journal.bridge.vats import jar_purity
from bluewright.journal.models import Garden, Jar, Piece, Swatch
from bluewright.journal.queries import jars, kept, pieces, plan
from bluewright.journal.queries import swatches as swatch_queries
from bluewright.science.dyeing.lots import lots
from bluewright.science.dyeing.lots_record import MOST_JARS, LotJar, LotsAnswer, LotsRecord
from bluewright.science.dyeing.wanted import fixed_of_colour
from bluewright.science.media.dry_pigment import MOISTURE_FRAC
from bluewright.science.plan.chain_record import ClothWant

MOST_LOOKED_AT = 60
"""So many jars, the newest, are asked for their indigo."""
MOST_PIECES = 20
"""So many pieces, the newest, are offered as a job."""
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
    """Something that needs indigo from the jars: what is wanted, or a piece that waits for its first dip."""

    key: str
    name: str
    pure_g: float
    fibre: str = ""
    """Of the cloth; empty of pigment."""
    piece: bool = False
    """It may be what a want is for: the two are not added up."""
    like: str = ""
    """Of a piece, the swatch whose colour it is to get; empty: it counts as of medium depth."""


def shelf(garden: Garden) -> Shelf:
    """The jars that hold something, the newest first."""
    zone = ZoneInfo(garden.time_zone)
    known: list[LotJar] = []
    keys, unknown, left_out = dict[str, str](), list[str](), list[str]()
    for jar in kept.held_jars(garden)[:MOST_LOOKED_AT]:
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
    """The open wants, then pieces that wait, each with the pure indigo that must be put in for it, in the middle."""
    return [*_wanted(garden, today=today), *_waiting(garden, today=today)]


def _waiting(garden: Garden, *, today: date) -> list[Job]:
    """Pieces in the book that were in no vat yet, the newest first, by the swatch that each is to be like."""
    rows = list(pieces.undyed(garden)[:MOST_PIECES])
    record = planning.plan_record(garden, wants=(), basis=plan.basis(garden), today=today) if rows else None
    if record is None:
        return []
    swatches = {one.pk: one for one in swatch_queries.these(garden, {row.like_key for row in rows})}
    likes = [None if row.like_key is None else swatches.get(row.like_key) for row in rows]
    cloth = tuple(_cloth(row, like) for row, like in zip(rows, likes, strict=True))
    found = planning.planned(replace(record, cloth=cloth, pigment=(), jars=(), beds=(), weather=None)).wants
    needed_g = {one.name: one.needed_g.p50 for one in found if one.kind == "cloth"}
    return [
        Job(
            key=str(row.pk), name=row.name, pure_g=needed_g[str(row.pk)], fibre=row.fibre, piece=True,
            like="" if like is None else like.name,
        )
        for row, like in zip(rows, likes, strict=True)
    ]  # fmt: skip


def _cloth(row: Piece, like: Swatch | None) -> ClothWant:
    """A piece as the plan takes cloth: by the colour of its swatch, else of medium depth."""
    cloth = piece_cloth(row)
    depth: dict[str, Any] = {"depth": "medium"}
    if like is not None:
        learned = dyeing_learned(row.garden, row.fibre)
        frac = fixed_of_colour(lab(like), fibre=cloth.fibre, ground=cloth.ground, learned=learned)
        depth = {"fixed_frac": round(frac, 6)}
    return ClothWant(name=str(row.pk), fibre=cloth.fibre, mass_kg=cloth.mass_kg, basis=cloth.basis, **depth)


def _wanted(garden: Garden, *, today: date) -> list[Job]:
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
