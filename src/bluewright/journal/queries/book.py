"""What the season book reads: for many batches at once, one figure in one statement, and nothing that is reckoned.

Thousands of rows are read for one page. So keys and moments are taken as they are stored: made into those of the rest
of the journal, they would take more time than all else. Only what is shown is.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, datetime
from typing import Any, Final, NamedTuple
from uuid import UUID

from django.db.models import (
    Avg,
    Case,
    CharField,
    Count,
    Exists,
    ExpressionWrapper,
    F,
    Max,
    OuterRef,
    Prefetch,
    Q,
    QuerySet,
    Subquery,
    Sum,
    Value,
    When,
)

from bluewright.journal.models import (
    Airing,
    AlkaliPart,
    Assay,
    Batch,
    Drying,
    Garden,
    Jar,
    JarFrom,
    LiquorLook,
    PickedFrom,
    Poured,
    Reading,
    Standing,
    Steep,
    SteepLeaf,
    Strain,
    YieldSeen,
)
from bluewright.journal.models.alkali import KINDS

Key = str
"""The key of a row as it is stored: `UUID(key).hex`."""
Span = tuple[datetime, datetime]
"""From, and until but not including."""
Within = QuerySet[Batch] | Sequence[UUID]
"""The batches that are asked after, or their keys."""
WAITING_MOST: Final = 50
"""So many tubs that are in no batch are shown; the newest."""


class Begun(NamedTuple):
    """A batch by name and date."""

    key: Key
    name: str
    begun_at: datetime


class Pour(NamedTuple):
    """Liquor of a straining or of another batch that went into a batch, with what is known of its tub."""

    into: Key
    batch: Key | None
    liquor_l: float | None
    tub: Key | None
    tub_name: str
    plant: str
    started_at: datetime | None
    strained_at: datetime | None
    """These two as they are stored."""
    water_l: float | None
    out_l: float | None
    rinse_l: float | None
    leaf_kg: float | None


class InJar(NamedTuple):
    """Pigment of a batch in a jar, and the jar's purity: as measured, or the range that a page told last."""

    jar: UUID
    name: str
    pigment_g: float
    purity_frac: float | None
    purity_sd_frac: float | None
    told_frac: dict[str, float] | None
    assayed: bool = False
    """Whether an assay of the jar told a figure."""


class Work(NamedTuple):
    """What was done last, as `queries.batches.stage_of` tells it, and whose words go with it."""

    name: str
    note: str
    ended_why: str
    stage: str


def stored(name: str) -> ExpressionWrapper[F]:
    """A column as it is stored: a key as a `Key`, a moment in UTC without saying so."""
    return ExpressionWrapper(F(name), output_field=CharField())


def begun(of: Garden, span: Span | None = None) -> QuerySet[Batch]:
    """The batches of a garden that were begun within a time; all of them without one."""
    found = Batch.objects.filter(garden=of)
    return found if span is None else found.filter(begun_at__gte=span[0], begun_at__lt=span[1])


def first_and_last(of: Garden) -> Span | None:
    """When the first and the last batch of a garden were begun; None if there is none."""
    times = Batch.objects.filter(garden=of).order_by("begun_at").values_list("begun_at", flat=True)
    first, last = times.first(), times.last()
    return None if first is None or last is None else (first, last)


def counts(of: Garden, years: Sequence[Span]) -> list[int]:
    """How many batches were begun in each of these years, which end with the last one and follow each other back."""
    since = {f"since_{n}": Count("pk", filter=Q(begun_at__gte=start)) for n, (start, _end) in enumerate(years)}
    found = Batch.objects.filter(garden=of).aggregate(**since)
    totals = [found[name] for name in since]
    return [total - before for total, before in zip(totals, [0, *totals], strict=False)]


def listed(within: QuerySet[Batch]) -> list[Begun]:
    """Batches by name and date, the newest first."""
    rows = within.order_by("-begun_at", "pk").values_list(stored("pk"), "name", stored("begun_at"))
    return [Begun(key, name, begun_at.replace(tzinfo=UTC)) for key, name, begun_at in rows]


def pours(of: Garden, within: QuerySet[Batch]) -> list[Pour]:
    """All that went into these batches, and into every batch of the garden that was poured on into another."""
    leaf = SteepLeaf.objects.filter(steep=OuterRef("strain__steep")).order_by().values("steep")
    stands = Q(strain=None) | Q(strain__deleted_at=None)
    rows = Poured.objects.filter(stands, into__in=_with_onward(of, within)).values_list(
        stored("into"), stored("batch"), "liquor_l", stored("strain__steep"), "strain__steep__name",
        "strain__steep__plant", stored("strain__steep__started_at"), stored("strain__strained_at"),
        "strain__steep__water_l", "strain__liquor_out_l", "strain__rinse_l",
        Subquery(leaf.annotate(all_kg=Sum("leaf_kg")).values("all_kg")),
    )  # fmt: skip
    return [Pour(*row) for row in rows]


def tubs_behind(of: Garden, within: QuerySet[Batch]) -> QuerySet[Poured, UUID | None]:
    """The keys of the tubs that these batches came from, straight or through others, and of some more."""
    poured = Poured.objects.filter(into__in=_with_onward(of, within), strain__deleted_at=None)
    return poured.values_list("strain__steep", flat=True)


def _with_onward(of: Garden, within: QuerySet[Batch]) -> QuerySet[Any, Any]:
    """The keys of these batches and of all of the garden that were poured on."""
    onward = Poured.objects.filter(batch__garden=of, into__deleted_at=None).values("batch")
    return within.order_by().values("pk").union(onward)


def tub_temps(tubs: Iterable[Key] | QuerySet[Poured, UUID | None]) -> dict[Key, float]:
    """The mean of all temperatures read in each of these tubs."""
    read = Reading.objects.filter(steep__in=tubs).exclude(temp_c=None).order_by()
    return dict(read.values_list(stored("steep")).annotate(mean_c=Avg("temp_c")))


def beds(tubs: Iterable[Key]) -> dict[Key, tuple[str, ...]]:
    """The beds that the leaf of each tub came from, by name; one that was taken out is still named."""
    picked = PickedFrom.objects.filter(picking__went_into__steep__in=list(tubs))
    found: defaultdict[Key, set[str]] = defaultdict(set)
    for tub, name in picked.values_list(stored("picking__went_into__steep"), "bed__name"):
        found[tub].add(name)
    return {tub: tuple(sorted(names)) for tub, names in found.items()}


def alkalis(within: Within) -> dict[Key, tuple[str, ...]]:
    """The kinds of alkali that went into each batch, in words."""
    rows = AlkaliPart.objects.filter(batch__in=within).order_by()
    found: defaultdict[Key, set[str]] = defaultdict(set)
    for batch, kind in rows.values_list(stored("batch"), "alkali__kind").distinct():
        found[batch].add(str(dict(KINDS)[kind]))
    return {batch: tuple(sorted(kinds)) for batch, kinds in found.items()}


def ph_reached(within: Within) -> dict[Key, float]:
    """The highest pH that was read in each batch from its first part of alkali on."""
    parts = AlkaliPart.objects.filter(batch__in=within).order_by()
    found: dict[Key, float | None] = dict(parts.values_list(stored("batch")).annotate(most=Max("ph")))
    first = AlkaliPart.objects.filter(batch=OuterRef("batch")).order_by("added_at").values("added_at")[:1]
    looks = LiquorLook.objects.filter(batch__in=within, taken_at__gte=Subquery(first)).order_by()
    for batch, most in looks.values_list(stored("batch")).annotate(most=Max("ph")):
        found[batch] = max((ph for ph in (found.get(batch), most) if ph is not None), default=None)
    return {batch: ph for batch, ph in found.items() if ph is not None}


def aired(within: Within) -> dict[Key, tuple[float | None, int | None]]:
    """The minutes and the pours of all airings of each batch; None where none were written down."""
    rows = Airing.objects.filter(batch__in=within).order_by().values_list(stored("batch"))
    found = rows.annotate(minutes=Sum("done_min"), pours=Sum("done_pours"))
    return {batch: (minutes, pours) for batch, minutes, pours in found}


def pigment_g(within: Within) -> dict[Key, float]:
    """The dry pigment of each batch that is in jars."""
    rows = JarFrom.objects.filter(batch__in=within, jar__deleted_at=None).order_by()
    return dict(rows.values_list(stored("batch")).annotate(all_g=Sum("pigment_g")))


def jarred(within: Within) -> dict[Key, list[InJar]]:
    """The jars that pigment of each batch is in."""
    told = YieldSeen.objects.filter(jar=OuterRef("jar"), seen_at__gte=OuterRef("jar__changed_at")).order_by("-seen_at")
    assays = Assay.objects.filter(jar=OuterRef("jar")).exclude(indigo_frac=None)
    rows = JarFrom.objects.filter(batch__in=within, jar__deleted_at=None).order_by("jar__filled_at", "pk")
    found: defaultdict[Key, list[InJar]] = defaultdict(list)
    for batch, *row in rows.values_list(
        stored("batch"), "jar", "jar__name", "pigment_g", "jar__purity_frac", "jar__purity_sd_frac",
        Subquery(told.values("answer__purity_frac")[:1]), Exists(assays),
    ):  # fmt: skip
        found[batch].append(InJar(*row))
    return dict(found)


def with_assays(jars: Iterable[UUID]) -> QuerySet[Jar]:
    """These jars with all their assays."""
    return Jar.objects.filter(pk__in=list(jars)).prefetch_related("assays")


def work(within: Within) -> dict[Key, Work]:
    """How far each batch has come."""
    found = Batch.objects.filter(pk__in=within).order_by()
    rows = found.annotate(stage=_stage()).values_list(stored("pk"), "name", "note", "ended_why", "stage")
    return {key: Work(*row) for key, *row in rows}


def given_up(within: QuerySet[Batch]) -> set[Key]:
    """Those that were given up."""
    return set(within.exclude(ended_at=None).order_by().values_list(stored("pk"), flat=True))


def joined(within: Within) -> dict[Key, tuple[str, ...]]:
    """The names of the batches that each batch was poured into."""
    rows = Poured.objects.filter(batch__in=within, into__deleted_at=None).order_by("into__name")
    found: defaultdict[Key, list[str]] = defaultdict(list)
    for batch, name in rows.values_list(stored("batch"), "into__name"):
        found[batch].append(name)
    return {batch: tuple(names) for batch, names in found.items()}


def waiting(of: Garden, span: Span | None = None) -> list[Key]:
    """The keys of the tubs that are in no batch, begun within a time, the newest first."""
    used = Poured.objects.filter(strain__steep=OuterRef("pk"), strain__deleted_at=None, into__deleted_at=None)
    found = Steep.objects.filter(~Exists(used), garden=of)
    if span is not None:
        found = found.filter(started_at__gte=span[0], started_at__lt=span[1])
    return list(found.order_by("-started_at").values_list(stored("pk"), flat=True))


def tubs(keys: Iterable[Key]) -> QuerySet[Steep]:
    """The tubs with these keys, the newest first, with leaf and straining."""
    strains = Prefetch("strains", queryset=Strain.objects.order_by("-strained_at"))
    return Steep.objects.filter(pk__in=list(keys)).order_by("-started_at").prefetch_related("leaf", strains)


def looks(of: Garden) -> Iterator[tuple[object, ...]]:
    """Every look at a tub, the oldest first, then every look at the liquor of a batch, read a few at a time.

    A row is: kind, key and name of the thing, key and time of the look, pH, temperature (C), oxygen (mg/L), then the
    signs of a tub, foam and liquor of a batch, pours and minutes of its airing, and the note.
    """
    signs = ("bubbles", "scum", "blue_cast", "limpness", "darkness", "smell", "alkali_green")
    tubs = Reading.objects.filter(steep__garden=of, steep__deleted_at=None).order_by("taken_at", "pk")
    for *known, note in tubs.values_list(
        "steep", "steep__name", "pk", "taken_at", "ph", "temp_c", "dissolved_oxygen_mg_l", *signs, "note"
    ).iterator(chunk_size=2000):
        yield ("tub", *known, None, None, None, None, note)
    batches = LiquorLook.objects.filter(batch__garden=of, batch__deleted_at=None).order_by("taken_at", "pk")
    for *known, foam, liquor, after_pours, after_min, note in batches.values_list(
        "batch", "batch__name", "pk", "taken_at", "ph", "temp_c", "dissolved_oxygen_mg_l",
        "foam", "liquor", "after_pours", "after_min", "note",
    ).iterator(chunk_size=2000):  # fmt: skip
        yield ("batch", *known, *[None] * len(signs), foam, liquor, after_pours, after_min, note)


def _stage() -> Case:
    """The farthest stage that a batch reached; the same as `queries.batches.stage_of`."""
    mine = OuterRef("pk")
    reached = (
        ("jar", JarFrom.objects.filter(batch=mine, jar__deleted_at=None)),
        ("joined", Poured.objects.filter(batch=mine, into__deleted_at=None)),
        ("dry", Drying.objects.filter(batch=mine)),
        ("settle", Standing.objects.filter(batch=mine)),
        ("air", Airing.objects.filter(batch=mine)),
        ("alkali", AlkaliPart.objects.filter(batch=mine)),
    )
    return Case(
        When(~Q(ended_at=None), then=Value("ended")),
        *(When(Exists(rows), then=Value(stage)) for stage, rows in reached),
        default=Value("liquor"),
        output_field=CharField(),
    )
