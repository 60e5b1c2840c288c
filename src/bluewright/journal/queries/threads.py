"""The thread: from a bed, picking, tub, batch, jar, vat or piece of cloth up to its origins and down to its uses.

The database follows the links up and down, joins of batches and heels of vats as far as they go, in one statement for
each way. Then the rows themselves are read, of each kind the latest, and what those came straight from. So the number
of statements is the same for a thread of any length, and a garden of any age.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Final, Literal, NamedTuple
from uuid import UUID

from django.db import connection
from django.db.models import F, Prefetch, QuerySet

from bluewright.journal.models import (
    Batch,
    Bed,
    Dip,
    Garden,
    Jar,
    JarFrom,
    PickedFrom,
    Picking,
    Piece,
    Poured,
    Steep,
    SteepLeaf,
    Strain,
    Swatch,
    Vat,
    VatAddition,
    VatPoured,
)
from bluewright.journal.queries import jars
from bluewright.journal.queries.ordered import with_keys
from bluewright.journal.queries.pieces import pieces
from bluewright.journal.written import UntilWritten

Kind = Literal["bed", "picking", "tub", "batch", "jar", "vat", "piece"]
Row = Bed | Picking | Steep | Batch | Jar | Vat | Piece
MOST: Final = 20
"""So many things of one kind are on a thread at most: the latest."""
MODELS: Final[dict[Kind, type[Row]]] = {
    "bed": Bed, "picking": Picking, "tub": Steep, "batch": Batch, "jar": Jar, "vat": Vat, "piece": Piece,
}  # fmt: skip
DATES: Final[dict[Kind, str]] = {
    "bed": "made_at", "picking": "picked_at", "tub": "started_at", "batch": "begun_at", "jar": "filled_at",
    "vat": "started_at", "piece": "begun_at",
}  # fmt: skip
"""By which each kind is in order."""


class Thing(NamedTuple):
    """One thing on a thread."""

    kind: Kind
    key: UUID


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One thing went into another, and how much of it as typed; empty where nobody said."""

    above: Thing
    below: Thing
    typed: str = ""
    times: int = 1
    """How often: a piece is dipped into one vat many times."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """All that one thing came from and went into, each kind oldest first."""

    at: Thing
    beds: tuple[Bed, ...]
    pickings: tuple[Picking, ...]
    tubs: tuple[Steep, ...]
    """With their strainings."""
    batches: tuple[Batch, ...]
    """With their airings."""
    jars: tuple[Jar, ...]
    """With what went in, what was taken, and their swatches."""
    vats: tuple[Vat, ...]
    """With what went into them."""
    pieces: tuple[Piece, ...]
    """With their dips, swatches and home tests."""
    from_: Mapping[Thing, tuple[Link, ...]]
    """Of each thing the links to what it came straight from; of these some may lie off the thread."""
    left_out: Mapping[Kind, int]
    """How many older things of each kind are on it and not among these."""

    def things(self) -> dict[Thing, Row]:
        """All of them by kind and key."""
        kinds: dict[Kind, tuple[Row, ...]] = {
            "bed": self.beds, "picking": self.pickings, "tub": self.tubs, "batch": self.batches, "jar": self.jars,
            "vat": self.vats, "piece": self.pieces,
        }  # fmt: skip
        return {Thing(kind, row.pk): row for kind, rows in kinds.items() for row in rows}


_kept: Final = UntilWritten[Thing, tuple[Mapping[Kind, Sequence[UUID]], Mapping[Kind, int]]](200)
"""What threads show: a bed of ten seasons leads to thousands of rows."""


def thread(at: Thing, *, of: Garden) -> Thread | None:
    """The thread of one thing of a garden; None if it is not there."""
    keys, left_out = _kept.got(at, lambda: _shown(at))
    strains = Prefetch("strains", queryset=Strain.objects.order_by("-strained_at"))
    swatches = Prefetch("swatches", queryset=Swatch.objects.order_by("-measured_at"))
    found = Thread(
        at=at,
        beds=tuple(with_keys(Bed.objects.filter(garden=of), keys["bed"])),
        pickings=tuple(with_keys(Picking.objects.filter(garden=of), keys["picking"])),
        tubs=tuple(with_keys(Steep.objects.filter(garden=of).prefetch_related(strains), keys["tub"])),
        batches=tuple(with_keys(Batch.objects.filter(garden=of).prefetch_related("airings"), keys["batch"])),
        jars=tuple(with_keys(jars.untold(of).prefetch_related(swatches), keys["jar"])),
        vats=tuple(with_keys(Vat.objects.filter(garden=of).prefetch_related("additions"), keys["vat"])),
        pieces=tuple(with_keys(pieces(of), keys["piece"])),
        from_={},
        left_out=left_out,
    )
    if at not in found.things():
        return None
    from_ = defaultdict[Thing, list[Link]](list)
    for link in _links(keys):
        from_[link.below].append(link)
    return replace(found, from_={thing: tuple(links) for thing, links in from_.items()})


def sources(found: Thread, *, of: Garden) -> dict[Thing, Row]:
    """The things that a thread's links come from, also those off the thread: a tub joined from the side."""
    known = found.things()
    aside = {link.above for links in found.from_.values() for link in links} - known.keys()
    for kind in {one.kind for one in aside}:
        rows = MODELS[kind].objects.filter(garden=of, pk__in=[one.key for one in aside if one.kind == kind])
        known |= {Thing(kind, row.pk): row for row in rows}
    return known


def _shown(at: Thing) -> tuple[Mapping[Kind, Sequence[UUID]], Mapping[Kind, int]]:
    """Of each kind the keys that a thread shows, and how many older ones it leaves out."""
    whole = _reached(at)
    keys = {kind: _latest(at, kind, rows) for kind, rows in whole.items()}
    return keys, {kind: len(rows) - len(keys[kind]) for kind, rows in whole.items()}


def _latest(at: Thing, kind: Kind, dates: Mapping[str, str]) -> list[UUID]:
    """The keys of the latest things of one kind and always of the thing asked for, the oldest first."""
    keys = sorted(dates, key=lambda key: dates[key])
    kept = keys[-MOST:]
    if at.kind == kind and at.key.hex in keys[:-MOST]:
        kept.insert(0, at.key.hex)
    return [UUID(key) for key in kept]


def _reached(at: Thing) -> dict[Kind, dict[str, str]]:
    """All that a thing came from and went into, itself among it: of each kind key and date, both as they are stored."""
    found: dict[Kind, dict[str, str]] = {kind: {} for kind in MODELS}
    with connection.cursor() as cursor:
        for down in (False, True):
            for kind, key, when in cursor.execute(_way(at.kind, down=down), [at.key.hex]).fetchall():
                found[kind][key] = when
    return found


@cache
def _way(start: Kind, *, down: bool) -> str:
    """The statement that follows every link one way from a thing; a loop ends where it comes back.

    Its joins are crossed so that SQLite begins with what was reached, not with all the links that there are.
    """
    model = MODELS[start]._meta.db_table
    branches = [f"SELECT '{start}', id, {DATES[start]} FROM {model} WHERE id = %s"]
    for step in (*STEPS, *JOINS):
        here, there = (step.above, step.below) if down else (step.below, step.above)
        asked, told = (step.above_key, step.below_key) if down else (step.below_key, step.above_key)
        links = step.rows().order_by().annotate(asked=F(asked), told=F(told), told_at=F(f"{told}__{DATES[there]}"))
        sql, values = links.values_list("asked", "told", "told_at").query.sql_with_params()
        assert not values, "links hang on nothing but their rows"
        branches.append(
            f"SELECT '{there}', link.told, link.told_at FROM thread CROSS JOIN ({sql}) link"
            f" ON thread.kind = '{here}' AND link.asked = thread.key"
        )
    return f"WITH RECURSIVE thread(kind, key, at) AS ({' UNION '.join(branches)}) SELECT kind, key, at FROM thread"


class Step(NamedTuple):
    """How things of one kind lead to those of the next.

    Its links are between rows that stand, of any garden; the rows themselves are read of one garden.
    """

    above: Kind
    below: Kind
    rows: Callable[[], QuerySet[Any]]
    above_key: str
    below_key: str
    typed: str
    """Where it stands how much went on; empty where that is not asked."""


def _picked() -> QuerySet[PickedFrom]:
    return PickedFrom.objects.filter(bed__deleted_at=None, picking__deleted_at=None)


def _leaf() -> QuerySet[SteepLeaf]:
    return SteepLeaf.objects.filter(steep__deleted_at=None, picking__deleted_at=None)


def _strained() -> QuerySet[Poured]:
    stands = {"into__deleted_at": None, "strain__deleted_at": None, "strain__steep__deleted_at": None}
    return Poured.objects.exclude(strain=None).filter(**stands)


def _joins() -> QuerySet[Poured]:
    return Poured.objects.exclude(batch=None).filter(into__deleted_at=None, batch__deleted_at=None)


def _jarred() -> QuerySet[JarFrom]:
    return JarFrom.objects.filter(jar__deleted_at=None, batch__deleted_at=None)


def _into_vats() -> QuerySet[VatAddition]:
    stands = {"vat__deleted_at": None, "taken__deleted_at": None, "taken__jar__deleted_at": None}
    return VatAddition.objects.exclude(taken=None).filter(**stands)


def _heels() -> QuerySet[VatPoured]:
    return VatPoured.objects.exclude(source=None).filter(vat__deleted_at=None, source__deleted_at=None)


def _dipped() -> QuerySet[Dip]:
    return Dip.objects.filter(vat__deleted_at=None, piece__deleted_at=None)


KINDS: Final[tuple[Kind, ...]] = ("bed", "picking", "tub", "batch", "jar", "vat", "piece")
STEPS: Final = (
    Step("bed", "picking", _picked, "bed", "picking", ""),
    Step("picking", "tub", _leaf, "picking", "steep", "leaf_typed"),
    Step("tub", "batch", _strained, "strain__steep", "into", "liquor_typed"),
    Step("batch", "jar", _jarred, "batch", "jar", "pigment_typed"),
    Step("jar", "vat", _into_vats, "taken__jar", "vat", "mass_typed"),
    Step("vat", "piece", _dipped, "vat", "piece", ""),
)
JOINS: Final = (
    Step("batch", "batch", _joins, "batch", "into", "liquor_typed"),
    Step("vat", "vat", _heels, "source", "vat", "volume_typed"),
)


def _links(shown: Mapping[Kind, Sequence[UUID]]) -> Iterator[Link]:
    """Every link to these things from what they came straight from."""
    for step in (*STEPS, *JOINS):
        rows = step.rows().filter(**{f"{step.below_key}__in": shown[step.below]})
        columns = [step.above_key, step.below_key, *([step.typed] if step.typed else [])]
        for (above, below, *typed), times in Counter(rows.order_by("pk").values_list(*columns)).items():
            yield Link(
                above=Thing(step.above, above), below=Thing(step.below, below), typed=typed[0] if typed else "",
                times=times,
            )  # fmt: skip
