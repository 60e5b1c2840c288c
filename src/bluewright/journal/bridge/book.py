"""The season book: for each batch what it came from and what came of it, by what is stored and cheap sums alone."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Final, NamedTuple, cast
from uuid import UUID

from django.db.models import QuerySet

from bluewright.journal.bridge import assays
from bluewright.journal.bridge.assays import PURITY_SD_FRAC
from bluewright.journal.models import Batch, Garden
from bluewright.journal.queries import book
from bluewright.journal.queries.batches import Stage
from bluewright.journal.queries.book import Begun, InJar, Key, Pour, Span, Within
from bluewright.journal.written import UntilWritten
from bluewright.science.base.bands import NINETY_Z, Band
from bluewright.science.media.purity import Known

HOUR: Final = timedelta(hours=1)
MOST_KEPT: Final = 8
"""So many openings of the book (a year, or all of them) are kept in memory."""
ORDER: Final[tuple[Stage, ...]] = ("ended", "liquor", "alkali", "air", "settle", "dry", "joined", "jar")
"""Stages in the order in which the book sorts them: given up, then from liquor to jar."""


class Tub(NamedTuple):
    """A tub that a batch holds liquor of, and the leaf that this liquor was steeped from."""

    key: Key
    name: str
    plant: str
    leaf_kg: float
    steep_h: float


class Basket(NamedTuple):
    """What a batch came from."""

    tubs: tuple[Tub, ...] = ()
    leaf_kg: float = 0.0
    """All leaf."""
    about: bool = False
    """Whether a share of leaf was reckoned from water, where the strained liquor was not measured."""

    @property
    def steep_h(self) -> float | None:
        """Hours from the start of the steep to the straining, tubs weighed by their leaf; None without leaf."""
        if len(self.tubs) == 1:
            return self.tubs[0].steep_h if self.leaf_kg else None
        return sum(tub.leaf_kg * tub.steep_h for tub in self.tubs) / self.leaf_kg if self.leaf_kg else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A batch in the book. What nobody wrote down is None."""

    key: UUID
    begun_at: datetime
    name: str
    note: str
    basket: Basket
    beds: tuple[str, ...]
    tub_temp_c: float | None
    alkalis: tuple[str, ...]
    ph: float | None
    aired_min: float | None
    aired_pours: int | None
    pigment_g: float | None
    g_per_kg: float | None
    """Dry pigment from a kilogram of leaf."""
    purity_frac: Band | None
    measured: bool
    """Whether the purity of every jar was measured; else it is as a jar's page told it last."""
    stage: Stage
    jars: tuple[str, ...]
    joined: tuple[str, ...]
    ended_why: str

    @property
    def pure_g_per_kg(self) -> Band | None:
        """Pure blue from a kilogram of leaf; None where the purity is not known."""
        if self.g_per_kg is None or self.purity_frac is None:
            return None
        return _scaled(self.purity_frac, self.g_per_kg)


Baskets = dict[Key, Basket]


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """What the book knows of all batches of a time, whichever of them a page shows."""

    listed: Sequence[Begun]
    """The newest first."""
    came_from: Mapping[Key, Basket]
    yields: Mapping[Key, float]
    """Dry pigment in grams from each kilogram of leaf, of those that were weighed."""
    ended: frozenset[Key]
    """Those that were given up."""
    waiting: Sequence[Key]
    """The tubs that are in no batch, the newest first."""


_whole: Final = UntilWritten[tuple[UUID, Span | None], Whole](MOST_KEPT)
_ordered: Final = UntilWritten[tuple[UUID, Span | None, str, bool], Sequence[Begun]](MOST_KEPT)


def whole(of: Garden, span: Span | None = None) -> Whole:
    """The batches begun within a time, all of them without one; kept until something of it is written."""
    return _whole.got((of.pk, span), lambda: _read(of, span))


def ordered(of: Garden, span: Span | None, *, sort: str, up: bool) -> Sequence[Begun]:
    """All batches of `whole` sorted by one of `SORTS`; kept likewise."""

    def sorted_anew() -> Sequence[Begun]:
        known = whole(of, span)
        return in_order(known.listed, sort_values(of, sort, book.begun(of, span), known), up=up)

    return _ordered.got((of.pk, span, sort, up), sorted_anew)


def _read(of: Garden, span: Span | None) -> Whole:
    within = book.begun(of, span)
    listed = book.listed(within)
    came_from = baskets(book.pours(of, within), [row.key for row in listed])
    return Whole(
        listed=listed,
        came_from=came_from,
        yields=yields(came_from, book.pigment_g(within)),
        ended=frozenset(book.given_up(within)),
        waiting=book.waiting(of, span),
    )


def baskets(pours: Iterable[Pour], keys: Iterable[Key]) -> Baskets:
    """What each of these batches came from, followed through joins and forks; a batch in a loop holds nothing."""
    into: defaultdict[Key, list[Pour]] = defaultdict(list)
    for pour in pours:
        into[pour.into].append(pour)
    return {key: _basket(into, key) for key in keys}


def sort_values(of: Garden, name: str, within: QuerySet[Batch], known: Whole) -> Mapping[Key, Any]:
    """What batches are sorted by, for the batches that have it; `name` is one of `SORTS`, and at most one is read."""
    if name in FROM_BASKET:
        return {key: FROM_BASKET[name](basket) or None for key, basket in known.came_from.items()}
    if name in READ:
        return READ[name](within)
    if name == "temp":
        temps = book.tub_temps(book.tubs_behind(of, within))
        return {key: _mean_temp_c(basket, temps) for key, basket in known.came_from.items()}
    if name == "yield":
        return known.yields
    return {row.key: row.name.casefold() if name == "name" else row.begun_at for row in known.listed}


def in_order(listed: Sequence[Begun], values: Mapping[Key, Any], *, up: bool) -> list[Begun]:
    """Sorted by these values, those without one last either way; what is equal stays with the newest first."""
    having = [row for row in listed if values.get(row.key) is not None]
    rest = [row for row in listed if values.get(row.key) is None]
    return sorted(having, key=lambda row: values[row.key], reverse=not up) + rest


def yields(came_from: Mapping[Key, Basket], pigment_g: Mapping[Key, float]) -> dict[Key, float]:
    """Dry pigment in grams from each kilogram of leaf."""
    return {key: g / came_from[key].leaf_kg for key, g in pigment_g.items() if came_from[key].leaf_kg > 0}


def lines(rows: Sequence[Begun], came_from: Mapping[Key, Basket]) -> Iterator[Line]:
    """The batches of these rows with all their figures, in the order of the rows; a fixed number of statements."""
    within = [UUID(row.key) for row in rows]
    tubs = {tub.key for row in rows for tub in came_from[row.key].tubs}
    temps, beds, alkalis, phs = book.tub_temps(tubs), book.beds(tubs), book.alkalis(within), book.ph_reached(within)
    aired, jarred, work, joined = book.aired(within), jarred_as_known(within), book.work(within), book.joined(within)
    for row in rows:
        basket, jars = came_from[row.key], jarred.get(row.key, [])
        pigment_g = sum(one.pigment_g for one in jars) if jars else None
        minutes, pours = aired.get(row.key, (None, None))
        done = work[row.key]
        yield Line(
            key=UUID(row.key), begun_at=row.begun_at, name=row.name, note=done.note, basket=basket,
            beds=tuple(dict.fromkeys(bed for tub in basket.tubs for bed in beds.get(tub.key, ()))),
            tub_temp_c=_mean_temp_c(basket, temps), alkalis=alkalis.get(row.key, ()), ph=phs.get(row.key),
            aired_min=minutes, aired_pours=pours, pigment_g=pigment_g,
            g_per_kg=pigment_g / basket.leaf_kg if pigment_g is not None and basket.leaf_kg > 0 else None,
            purity_frac=purity(jars), measured=all(one.purity_frac is not None for one in jars),
            stage=cast(Stage, done.stage), jars=tuple(dict.fromkeys(one.name for one in jars)),
            joined=joined.get(row.key, ()), ended_why=done.ended_why,
        )  # fmt: skip


def jarred_as_known(within: Within) -> dict[Key, list[InJar]]:
    """The jars of each batch, the purity of those with assays as these tell it: none where they do not agree."""
    found = book.jarred(within)
    assayed = {one.jar for jars in found.values() for one in jars if one.assayed}
    known = {jar.pk: assays.purity(jar) for jar in book.with_assays(assayed)} if assayed else {}
    return {key: [_as_known(one, known) for one in jars] for key, jars in found.items()}


def _as_known(one: InJar, known: Mapping[UUID, Known | None]) -> InJar:
    if one.jar not in known:
        return one
    told = known[one.jar]
    return one._replace(
        purity_frac=None if told is None else told.mean_frac, purity_sd_frac=None if told is None else told.sd_frac
    )


def purity(jars: Sequence[InJar]) -> Band | None:
    """The purity of pigment in these jars together, weighed by it; None if that of one is not known.

    A purity that is known counts with what it may be off; without one, as a page of the jar told it last.
    """
    known = [(one.pigment_g, _purity(one)) for one in jars]
    total_g = sum(one.pigment_g for one in jars)
    if total_g <= 0 or any(band is None for _g, band in known):
        return None
    bands = [(g / total_g, cast(Band, band)) for g, band in known]
    return Band(
        p5=sum(share * band.p5 for share, band in bands),
        p50=sum(share * band.p50 for share, band in bands),
        p95=sum(share * band.p95 for share, band in bands),
    )


def _purity(one: InJar) -> Band | None:
    if one.purity_frac is not None:
        off = NINETY_Z * (one.purity_sd_frac or PURITY_SD_FRAC)
        return Band(p5=max(one.purity_frac - off, 0.0), p50=one.purity_frac, p95=min(one.purity_frac + off, 1.0))
    return None if one.told_frac is None else Band(**one.told_frac)


def _scaled(band: Band, by: float) -> Band:
    return Band(p5=by * band.p5, p50=by * band.p50, p95=by * band.p95)


class _LoopError(Exception):
    """A batch was poured into itself by way of others."""


def _flat(
    into: Mapping[Key, list[Pour]], key: Key, share: float, path: tuple[Key, ...] = ()
) -> Iterator[tuple[Pour, float, bool]]:
    """The strainings that a share of a batch came from, each with its own share, and whether that is about so much."""
    if key in path:
        raise _LoopError
    for pour in into.get(key, ()):
        part, about = share, False
        if pour.liquor_l is not None:
            had_l, about = _had_l(into, pour, (*path, key))
            part = share * min(1.0, pour.liquor_l / had_l) if had_l > 0 else share
        if pour.batch is None:
            yield pour, part, about
        else:
            for one, its_share, already in _flat(into, pour.batch, part, (*path, key)):
                yield one, its_share, already or about


def _had_l(into: Mapping[Key, list[Pour]], pour: Pour, path: tuple[Key, ...]) -> tuple[float, bool]:
    """Liquor of the source of a part, and whether it was taken from the water for want of a measure."""
    if pour.batch is None:
        out_l = pour.water_l if pour.out_l is None else pour.out_l
        return (out_l or 0.0) + (pour.rinse_l or 0.0), pour.out_l is None
    if pour.batch in path:
        raise _LoopError
    parts, path = into.get(pour.batch, []), (*path, pour.batch)
    found = [(one.liquor_l, False) if one.liquor_l is not None else _had_l(into, one, path) for one in parts]
    return sum(litres for litres, _about in found), any(about for _litres, about in found)


def _basket(into: Mapping[Key, list[Pour]], key: Key) -> Basket:
    pours = into.get(key, ())
    if all(pour.batch is None and pour.liquor_l is None for pour in pours):
        return _together([_tub(pour, 1.0) for pour in {pour.tub: pour for pour in pours}.values()])
    try:
        parts = list(_flat(into, key, 1.0))
    except _LoopError:
        return Basket()
    shares: defaultdict[Key | None, float] = defaultdict(float)
    for pour, share, _about in parts:
        shares[pour.tub] += share
    tubs = [_tub(pour, min(1.0, shares[tub])) for tub, pour in {pour.tub: pour for pour, _s, _a in parts}.items()]
    return _together(tubs, about=any(about for _pour, _share, about in parts))


def _together(tubs: list[Tub], *, about: bool = False) -> Basket:
    tubs.sort(key=lambda tub: (tub.name, tub.key))
    return Basket(tuple(tubs), sum(tub.leaf_kg for tub in tubs), about)


def _tub(pour: Pour, share: float) -> Tub:
    """The tub of a straining, with that share of its leaf."""
    assert pour.tub is not None
    assert pour.started_at is not None
    assert pour.strained_at is not None
    steep_h = (pour.strained_at - pour.started_at) / HOUR
    return Tub(pour.tub, pour.tub_name, pour.plant, share * (pour.leaf_kg or 0.0), steep_h)


def _mean_temp_c(basket: Basket, temps: Mapping[Key, float]) -> float | None:
    known = [temps[tub.key] for tub in basket.tubs if tub.key in temps]
    return sum(known) / len(known) if known else None


def _minutes(within: Within) -> dict[Key, float | None]:
    return {key: minutes for key, (minutes, _pours) in book.aired(within).items()}


def _purities(within: Within) -> dict[Key, float | None]:
    found = {key: purity(jars) for key, jars in jarred_as_known(within).items()}
    return {key: None if band is None else band.p50 for key, band in found.items()}


def _stages(within: Within) -> dict[Key, int]:
    return {key: ORDER.index(cast(Stage, done.stage)) for key, done in book.work(within).items()}


FROM_BASKET: Final[dict[str, Callable[[Basket], Any]]] = {
    "from": lambda basket: ", ".join(tub.name for tub in basket.tubs).casefold(),
    "plant": lambda basket: ", ".join(sorted({tub.plant for tub in basket.tubs})),
    "leaf": lambda basket: basket.leaf_kg,
    "steep": lambda basket: basket.steep_h,
}
"""Sorted by what a batch came from."""
READ: Final[dict[str, Callable[[Within], Mapping[Key, Any]]]] = {
    "alkali": book.alkalis,
    "ph": book.ph_reached,
    "air": _minutes,
    "pigment": book.pigment_g,
    "purity": _purities,
    "stage": _stages,
}
"""Sorted by a figure that is read in one or two statements."""
SORTS: Final = frozenset({"date", "name", "temp", "yield", *FROM_BASKET, *READ})
"""All that the book can be sorted by."""
