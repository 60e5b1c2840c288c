"""Notes of work, and what the cost of the blue is reckoned from, each read in a fixed number of statements."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime
from typing import Any, Final, NamedTuple
from uuid import UUID

from django.db.models import QuerySet, Sum

from bluewright.journal.models import (
    Alkali,
    AlkaliPart,
    Batch,
    Bed,
    Garden,
    KitItem,
    Piece,
    Poured,
    Standing,
    Steep,
    Strain,
    Vat,
    WorkNote,
)
from bluewright.journal.queries.book import Key, Span, Within, stored
from bluewright.science.media.purity import Make
from bluewright.words.cost import DYEING

MOST_KIT: Final = 100
"""Things that costs are reckoned with."""
CHOICES: Final = 30
"""Of each kind of thing so many that a note can be for: the newest."""
ABOUT: Final[dict[str, tuple[type[Any], str, str]]] = {
    "batch": (Batch, "batch", "-begun_at"), "tub": (Steep, "steep", "-started_at"), "bed": (Bed, "bed", "name"),
    "vat": (Vat, "vat", "-started_at"), "piece": (Piece, "piece", "-begun_at"),
}  # fmt: skip
"""What a note can be for, by the word that stands before its key: model, column, and the order of the choices."""
_COLUMNS: Final = tuple(column for _, column, _ in ABOUT.values())


class Tubful(NamedTuple):
    """What went into a tub, and was rinsed through its leaf."""

    leaf_kg: float | None
    water_l: float
    rinse_l: float


class PartsOf(NamedTuple):
    """All parts of one alkali that went into a batch."""

    batch: Key
    alkali: UUID
    added_g: float | None
    added_ml: float | None


def notes(of: Garden, span: Span) -> list[WorkNote]:
    """Notes of work within a time whose clock has stopped, the newest first."""
    found = WorkNote.objects.filter(garden=of, began_at__gte=span[0], began_at__lt=span[1], spent_min__isnull=False)
    return list(found.select_related(*_COLUMNS, "made_by"))


def for_blue(of: Garden, span: Span) -> list[WorkNote]:
    """The same without dyeing, which costs the cloth."""
    return [note for note in notes(of, span) if not is_dyeing(note)]


def is_dyeing(note: WorkNote) -> bool:
    """Whether a note is of the cloth's work: dyeing, and whatever is for a vat or a piece."""
    return note.kind in DYEING or note.vat_id is not None or note.piece_id is not None


def running(of: Garden) -> list[WorkNote]:
    """Clocks that still run, the newest first."""
    found = WorkNote.objects.filter(garden=of, spent_min=None)
    return list(found.select_related(*_COLUMNS, "made_by"))


def first_and_last(of: Garden) -> list[datetime]:
    """When work was noted first and last; empty where none was."""
    found = WorkNote.objects.filter(garden=of).order_by("began_at").values_list("began_at", flat=True)
    return [one for one in (found.first(), found.last()) if one is not None]


def kit(of: Garden) -> list[KitItem]:
    """What was bought for years."""
    return list(KitItem.objects.filter(garden=of)[:MOST_KIT])


def choices(of: Garden) -> dict[str, QuerySet[Any]]:
    """What a note can be for: of each kind the newest, and every bed."""
    found = {what: model.objects.filter(garden=of).order_by(by) for what, (model, _, by) in ABOUT.items()}
    return {what: rows if what == "bed" else rows[:CHOICES] for what, rows in found.items()}


def named(of: Garden, about: str) -> str:
    """The name of what `batch:key` or its like stands for, taken out or not; empty where it is none."""
    what, _colon, key = about.partition(":")
    try:
        row = ABOUT[what][0].everything.filter(garden=of, pk=UUID(key)).first() if what in ABOUT else None
    except ValueError:
        return ""
    return "" if row is None else str(row)


def spent_on(piece: Piece) -> float | None:
    """Minutes that were noted for a piece; None where none were."""
    found = WorkNote.objects.filter(piece=piece).order_by().aggregate(all_min=Sum("spent_min"))
    minutes: float | None = found["all_min"]
    return minutes


def spent_at(vats: Iterable[UUID]) -> dict[UUID, float]:
    """Minutes that were noted for each of these vats; without those for which none were."""
    rows = WorkNote.objects.filter(vat__in=list(vats), spent_min__isnull=False).order_by()
    return dict(rows.values_list("vat").annotate(all_min=Sum("spent_min")))


def noted_min(batch: Batch) -> float:
    """Minutes that were written down for a batch by its own name."""
    found = WorkNote.objects.filter(batch=batch).order_by().aggregate(all_min=Sum("spent_min"))
    return found["all_min"] or 0.0


def tubfuls(tubs: Iterable[Key]) -> dict[Key, Tubful]:
    """Water, leaf and rinses of these tubs."""
    keys = list(tubs)
    rinses = Strain.objects.filter(steep__in=keys).order_by().values_list(stored("steep"))
    rinsed: dict[Key, float | None] = dict(rinses.annotate(all_l=Sum("rinse_l")))
    rows = Steep.everything.filter(pk__in=keys).order_by().annotate(all_kg=Sum("leaf__leaf_kg"))
    return {
        key: Tubful(leaf_kg=leaf_kg, water_l=water_l, rinse_l=rinsed.get(key) or 0.0)
        for key, water_l, leaf_kg in rows.values_list(stored("pk"), "water_l", "all_kg")
    }


def wash_l(within: Within) -> dict[Key, float]:
    """Fresh water of the washes of each batch."""
    rows = Standing.objects.filter(batch__in=within, refill_l__isnull=False).order_by()
    return dict(rows.values_list(stored("batch")).annotate(all_l=Sum("refill_l")))


def acid_washed(within: Within) -> set[Key]:
    """The batches that were washed with acid."""
    rows = Standing.objects.filter(batch__in=within, acid=True).order_by()
    return set(rows.values_list(stored("batch"), flat=True))


def makes(within: Within) -> dict[Key, Make]:
    """How the pigment of each batch that got alkali was made, as far as its purity hangs on it."""
    rows = AlkaliPart.objects.filter(batch__in=within).order_by().values_list(stored("batch"), "alkali__kind")
    kinds: defaultdict[Key, set[str]] = defaultdict(set)
    for batch, kind in rows.distinct():
        kinds[batch].add(kind)
    acid = acid_washed(within)
    return {
        batch: ("acid_washed" if batch in acid else "limed") if "slaked_lime" in found else "unlimed"
        for batch, found in kinds.items()
    }


def alkali_parts(within: Within) -> list[PartsOf]:
    """What went into each batch of each alkali, all parts together."""
    rows = AlkaliPart.objects.filter(batch__in=within).order_by().values_list(stored("batch"), "alkali")
    return [PartsOf(*row) for row in rows.annotate(all_g=Sum("added_g"), all_ml=Sum("added_ml"))]


def cupboard(of: Garden) -> list[Alkali]:
    """All alkalis of a garden, those that are used up and taken out too: their parts still count."""
    return list(Alkali.everything.filter(garden=of).order_by("made_at", "pk"))


def joined_into(within: Within) -> dict[Key, Key]:
    """Batches of `within` that were poured on whole or in part, each with the first that it went into."""
    into = Poured.objects.filter(batch__in=within, into__deleted_at=None).order_by("-into__begun_at")
    return dict(into.values_list(stored("batch"), stored("into")))
