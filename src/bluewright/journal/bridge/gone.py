"""What went out of jars, and the blue in it: of those that hold nothing any more in sums, kept until these change."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final
from uuid import UUID

from bluewright.journal.bridge.assays import typed
from bluewright.journal.bridge.stock import by_purity, pure_of_g, reckoned_beside
from bluewright.journal.models import Garden, Jar, JarTaken
from bluewright.journal.queries import jars
from bluewright.journal.queries.jars import Spent
from bluewright.journal.written import UntilWritten
from bluewright.science.base.bands import Band
from bluewright.science.pigment.stock import part_of

Taken = tuple[str, float, Band | None]
"""For what, how many grams, and the pure blue in them where that is known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """What went out of some jars."""

    taken: tuple[Taken, ...]
    weighed: tuple[tuple[JarTaken, str], ...]
    """Weighings again, each with the name of its jar."""


_gone: Final = UntilWritten[UUID, Gone](4)


def before(garden: Garden) -> Gone:
    """What went out of the jars that hold nothing any more."""
    return _gone.got(garden.pk, lambda: _before(garden))


def of_jars(found: Sequence[Jar]) -> Gone:
    """What went out of these jars of `queries.jars.jars`."""
    rows = [(jar, row) for jar in found for row in jar.taken.all()]
    return Gone(
        taken=tuple(
            (row.what_for, row.taken_g, pure_of_g(jar, row.taken_g)) for jar, row in rows if row.weighed_g is None
        ),
        weighed=tuple((row, jar.name) for jar, row in rows if row.weighed_g is not None),
    )


def _before(garden: Garden) -> Gone:
    """Jars with assays, and those that were reckoned beside the pages, are read whole: they are few."""
    rows, beside = jars.spent(garden), reckoned_beside()
    few = {row.jar for row in rows if row.assayed or row.jar in beside}
    return Gone(
        taken=(*_of_rows(row for row in rows if row.jar not in few), *of_jars(jars.these(garden, few)).taken),
        weighed=tuple((row, row.jar.name) for row in jars.weighed_empty(garden)),
    )


def _of_rows(rows: Iterable[Spent]) -> Iterable[Taken]:
    for row in rows:
        yield row.what_for, row.taken_g, _pure_g(row)


def _pure_g(row: Spent) -> Band | None:
    """As `pure_of_g` tells it of a jar without assays."""
    if row.put_in_g <= 0:
        return None
    whole = (
        Band(**row.seen_pure_g)
        if row.seen_pure_g
        else by_purity(
            row.put_in_g, typed(row.purity_frac, row.purity_sd_frac), scale_sd_g=row.scale_sd_g, seed=row.seed
        )
    )
    return None if whole is None else part_of(whole, share_frac=row.taken_g / row.put_in_g)
