"""What a jar holds, grams and pure blue: reckoned for its own page, told again from there for the list of jars."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import datetime
from functools import lru_cache
from typing import Any, Final
from uuid import UUID

import numpy as np
from django.utils import timezone

from bluewright import __version__
from bluewright.journal.bridge.assays import purity
from bluewright.journal.bridge.jars import yield_record
from bluewright.journal.courtesy import give_way
from bluewright.journal.models import Garden, Jar, YieldSeen
from bluewright.journal.queries import jars, kept
from bluewright.science.base.bands import Band
from bluewright.science.base.errors import BluewrightError
from bluewright.science.base.records import dump
from bluewright.science.media.purity import Known
from bluewright.science.pigment.jar_yield import jar_yield
from bluewright.science.pigment.stock import part_of, pure_of
from bluewright.science.pigment.yield_record import YieldAnswer, YieldRecord

SURELY: Final = 2.0
"""Standard deviations of all weighings of a jar beyond which a mass taken out cannot be."""
MOST_BESIDE: Final = 24
"""Jars that are worked out at one asking: each may take a second."""
_beside: dict[UUID, tuple[datetime, Band | None]] = {}
"""What was worked out beside the pages, by jar, with the change of the jar it rests on; None where nobody knows."""


def answer(jar: Jar) -> YieldAnswer:
    """What a jar whose batches are whole holds, and where the rest went. Raises InputError or ModelError."""
    return _answer(yield_record(jar))


def remember(jar: Jar, found: YieldAnswer) -> None:
    """Keep a dated copy of what a person saw, unless it is what was seen last and the jar has not changed since."""
    told: dict[str, Any] = {k: v for k, v in dump(found).items() if k != "inputs"}
    last = jar.yields.first()
    if last is None or last.answer != told or last.seen_at < jar.changed_at:
        YieldSeen.objects.create(jar=jar, seen_at=timezone.now(), program=__version__, answer=told)


def pure_left_g(jar: Jar, *, found: YieldAnswer | None = None) -> Band | None:
    """Pure blue of what is left in a jar; None where nobody knows."""
    return pure_of_g(jar, max(jars.left_g(jar), 0.0), found=found)


def pure_of_g(jar: Jar, grams: float, *, found: YieldAnswer | None = None) -> Band | None:
    """Pure blue in so many grams of a jar's pigment; None where nobody knows.

    By the answer; without one by what a page told last or `reckon` worked out, if the jar was not changed since
    (`queries.jars.jars`); else by its purity alone, as typed or by its assays. No strain call is worked out for it.
    """
    put_in_g = jars.put_in_g(jar)
    if put_in_g <= 0:
        return None
    whole = seen_g(jar) if found is None else found.pure_g
    if whole is None:
        whole = by_purity(put_in_g, purity(jar), scale_sd_g=jar.scale_sd_g, seed=jar.seed)
    return None if whole is None else part_of(whole, share_frac=grams / put_in_g)


def by_purity(put_in_g: float, known: Known | None, *, scale_sd_g: float, seed: int) -> Band | None:
    """Pure blue of all that went into a jar by its purity alone; None where that is not known."""
    return None if known is None else _by_purity(put_in_g, known, scale_sd_g, seed)


def reckoned_beside() -> frozenset[UUID]:
    """The jars that `reckon` worked out, some of which were changed since."""
    return frozenset(_beside)


def is_reckoned(jar: Jar) -> bool:
    """Whether it is known what a jar of `queries.jars.jars` holds, since it was last changed."""
    return seen_g(jar) is not None


def seen_g(jar: Jar) -> Band | None:
    """Pure blue of all that went into a jar of `queries.jars.jars` if it is known without reckoning; else None."""
    pure_g, seen_at = getattr(jar, "seen_pure_g", None), getattr(jar, "seen_at", None)
    if pure_g and seen_at and seen_at >= jar.changed_at:
        return Band(**pure_g)
    beside = _aside(jar)
    return None if beside is None else beside[1]


def unreckoned(jars_of: Iterable[Jar]) -> list[Jar]:
    """Of jars of `queries.jars.jars` those of which neither a page has told nor `reckon` worked out what they hold."""
    return [jar for jar in jars_of if seen_g(jar) is None and _aside(jar) is None]


def reckon(garden: Garden) -> None:
    """Work out what jars hold that still hold something and were not reckoned, some at a time, beside the pages."""
    waiting = [jar.pk for jar in unreckoned(kept.held_jars(garden))]
    for key in waiting[:MOST_BESIDE]:
        give_way()
        for jar in jars.whole(garden, [key]):
            _beside[key] = (jar.changed_at, _pure_g(jar))


def _pure_g(jar: Jar) -> Band | None:
    try:
        return answer(jar).pure_g
    except BluewrightError:
        return None


def _aside(jar: Jar) -> tuple[datetime, Band | None] | None:
    found = _beside.get(jar.pk)
    return found if found is not None and found[0] == jar.changed_at else None


def most_left_g(jar: Jar) -> float:
    """The most that can still be in a jar, by what the scale may be off at each weighing and at the one to come."""
    return jars.left_g(jar) + _off_g(jar)


def least_put_in_g(jar: Jar) -> float:
    """The least that must have gone into a jar, by what was taken out of it."""
    return jars.put_in_g(jar) - jars.left_g(jar) - _off_g(jar)


def _off_g(jar: Jar) -> float:
    weighings = len(jar.came_from.all()) + len(jar.taken.all()) + 1
    return SURELY * jar.scale_sd_g * math.sqrt(weighings)


@lru_cache(maxsize=256)
def _answer(record: YieldRecord) -> YieldAnswer:
    return jar_yield(record, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=8192)
def _by_purity(pigment_g: float, known: Known, scale_sd_g: float, seed: int) -> Band:
    return pure_of(pigment_g, purity=known, scale_sd_g=scale_sd_g, rng=np.random.default_rng(seed))
