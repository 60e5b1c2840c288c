"""What a picking's page shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.models import Picking
from bluewright.journal.queries.history import Step
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.photos import Thumb
from bluewright.words.leaf import condition
from bluewright.words.measures import fitting
from bluewright.words.numbers import moment

LITTLE_KG = 0.005
"""Less than this is not left over: scales and rounding differ by as much."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceLink:
    """A bed that the leaf came from."""

    key: str
    """Empty once the bed was taken out: there is no page of it."""
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLink:
    """A tub that leaf of it went into."""

    key: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PickingPage:
    """One picking."""

    key: str
    leaf: str
    when: str
    facts: str
    """Plant and which leaf."""
    condition: str
    timing: str
    """Whether the bed was cut early, right or late; empty where nobody judged."""
    note: str
    sources: tuple[SourceLink, ...]
    parts: tuple[PartLink, ...]
    left: str
    """Leaf that is in no tub; empty where there is none."""
    written: str
    history: tuple[HistoryRow, ...]
    photos: tuple[Thumb, ...]


def picking_page(picking: Picking, *, steps: Sequence[Step], photos: tuple[Thumb, ...] = ()) -> PickingPage:
    """The page of a picking."""
    zone = ZoneInfo(picking.garden.time_zone)
    parts = list(picking.went_into.all())
    left_kg = picking.leaf_kg - sum(part.leaf_kg for part in parts)
    return PickingPage(
        key=str(picking.pk),
        leaf=picking.leaf_typed,
        when=moment(picking.picked_at.astimezone(zone)),
        facts=_("%(plant)s, %(age)s leaf") % {"plant": picking.get_plant_display(), "age": picking.get_age_display()},
        timing=_("Cut %(timing)s.") % {"timing": picking.get_timing_display()} if picking.timing else "",
        condition=condition(picking.damaged_frac),
        note=picking.note,
        sources=tuple(
            SourceLink(key="" if source.bed.deleted_at else str(source.bed_id), name=source.bed.name)
            for source in picking.sources.all()
        ),
        parts=tuple(
            PartLink(
                key=str(part.steep_id),
                said=_("%(leaf)s in %(tub)s") % {"leaf": part.leaf_typed, "tub": part.steep.name},
            )
            for part in parts
        ),
        left=fitting(left_kg, "mass_kg") if left_kg > LITTLE_KG else "",
        written=written(picking, zone),
        history=history(picking, steps, zone),
        photos=photos,
    )
