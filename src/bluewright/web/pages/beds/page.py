"""What a bed's page shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.journal.models import Bed, Picking
from bluewright.journal.queries.history import Step
from bluewright.science.base.unit_names import UNITS
from bluewright.web.pages.beds.glance import Glance, glance
from bluewright.web.pages.law.page import law_said
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.photos import Thumb
from bluewright.web.ui.turning import Linked
from bluewright.words.measures import amount, in_us
from bluewright.words.numbers import moment

DAY_S = 24 * 3600


@dataclass(frozen=True, slots=True, kw_only=True)
class TubLink:
    """A tub, and the leaf that went into it."""

    key: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenRow:
    """One picking from the bed."""

    key: str
    when: str
    leaf: str
    said: str
    """Which leaf, from which other beds, and how much from a square metre."""
    tubs: tuple[TubLink, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BedPage:
    """One bed."""

    key: str
    name: str
    facts: str
    regrowing: str
    """How long since it was last picked."""
    glance: Glance
    law: str
    """Whether the law of the place was asked; empty for a plant that does not spread."""
    written: str
    note: str
    taken: tuple[TakenRow, ...]
    pages: tuple[Linked, ...]
    """Of what was taken."""
    history: tuple[HistoryRow, ...]
    photos: tuple[Thumb, ...]


def bed_page(
    bed: Bed, *, taken: Sequence[Picking], last_at: datetime | None, pages: tuple[Linked, ...], steps: Sequence[Step],
    rotation: str, now: datetime, photos: tuple[Thumb, ...] = (),
) -> BedPage:  # fmt: skip
    """The page of a bed with some of what was taken from it, the last of it at `last_at`."""
    zone = ZoneInfo(bed.garden.time_zone)
    area = [bed.area_typed] if bed.area_typed else []
    return BedPage(
        key=str(bed.pk),
        name=bed.name,
        facts=", ".join([bed.get_plant_display(), bed.get_origin_display(), *area, *_ground(bed)]),
        glance=glance(bed, rotation=rotation, now=now),
        law=law_said(bed.garden, bed.plant),
        regrowing=_regrowing(last_at, now),
        written=written(bed, zone),
        note=bed.note,
        taken=tuple(taken_row(bed, picking, zone) for picking in taken),
        pages=pages,
        history=history(bed, steps, zone),
        photos=photos,
    )


def taken_row(bed: Bed, picking: Picking, zone: ZoneInfo) -> TakenRow:
    """One picking; from several beds the mass for a square metre is that of all of them together."""
    sources = [source.bed for source in picking.sources.all()]
    others = [source.name for source in sources if source.pk != bed.pk]
    told = [_("%(age)s leaf") % {"age": picking.get_age_display()}]
    told += [_("together with %(beds)s") % {"beds": ", ".join(others)}] if others else []
    areas = [source.area_m2 for source in sources]
    known_m2 = [area for area in areas if area]
    if len(known_m2) == len(areas):
        told.append(_from_area(picking.leaf_kg / sum(known_m2)))
    return TakenRow(
        key=str(picking.pk),
        when=moment(picking.picked_at.astimezone(zone)),
        leaf=picking.leaf_typed,
        said=", ".join(told),
        tubs=tuple(
            TubLink(
                key=str(part.steep_id),
                said=_("%(leaf)s in %(tub)s") % {"leaf": part.leaf_typed, "tub": part.steep.name},
            )
            for part in picking.went_into.all()
        ),
    )


def _from_area(kg_per_m2: float) -> str:
    """`1.2 kg from a square metre`; `3.9 oz from a square foot`."""
    if in_us():
        return _("%(mass)s from a square foot") % {"mass": amount(kg_per_m2 * float(UNITS["sq ft"].scale), "mass_kg")}
    return _("%(mass)s from a square metre") % {"mass": amount(kg_per_m2, "mass_kg")}


def _ground(bed: Bed) -> list[str]:
    """Its soil and its sun, as far as they were said."""
    soil = [bed.get_soil_display()] if bed.soil != "unknown" else []
    return [*soil, *([bed.get_shade_display()] if bed.shade else [])]


def _regrowing(last_at: datetime | None, now: datetime) -> str:
    if last_at is None:
        return _("Nothing taken yet.")
    days = int((now - last_at).total_seconds() // DAY_S)
    if days < 1:
        return _("Picked within the last day.")
    return ngettext("Regrowing for %(days)s day.", "Regrowing for %(days)s days.", days) % {"days": days}
