"""What the pages of vats show: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final
from uuid import UUID
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.charts.vat_chart import vat_chart
from bluewright.charts.vat_drawn import VatLook, vat_drawing
from bluewright.journal.models import Photo, Vat
from bluewright.journal.queries.history import Step
from bluewright.science.base.errors import BluewrightError
from bluewright.science.vat.state_record import VatAnswer
from bluewright.web.pages.vats.kept import Known, reckoned_soon
from bluewright.web.pages.vats.story import StoryRow, story
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.photos import Thumb, thumbs
from bluewright.words.measures import fitting
from bluewright.words.numbers import NOTES, day_of_year, moment
from bluewright.words.own_text import own_text
from bluewright.words.signs import VatSign
from bluewright.words.vat_state import ADVICE, part_said, stands, told

DRAWN: Final[tuple[VatSign, ...]] = ("liquor_look", "film", "grains_seen")


@dataclass(frozen=True, slots=True, kw_only=True)
class VatRow:
    """A vat in the list."""

    key: str
    name: str
    facts: str
    advice: str
    """What to do now; empty while it is not reckoned."""
    stands: str
    ended: str
    """When and what became of it; empty while it stands."""
    drawing: str
    """SVG text; empty for one that was ended."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VatsPage:
    """All vats of a garden."""

    standing: tuple[VatRow, ...]
    ended: tuple[VatRow, ...]
    waits: str
    """That some are being reckoned; empty where all are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A sentence of the answer, and the figure that it is of."""

    said: str
    figure: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StatePart:
    """How a vat stands."""

    advice: str
    """As the science names it."""
    headline: str
    stands: str
    parts: tuple[str, ...]
    """Small parts to add, with what could hurt beside each."""
    facts: tuple[Fact, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...]
    chart: str


@dataclass(frozen=True, slots=True, kw_only=True)
class VatPage:
    """One vat."""

    key: str
    name: str
    facts: str
    ended: str
    state: StatePart | None
    trouble: str
    """Why nothing can be said of it; empty where something is."""
    drawing: str
    story: tuple[StoryRow, ...]
    """What went in, what was seen and dyed, the newest first."""
    photos: tuple[Thumb, ...]
    by_recipe: bool
    written: str
    history: tuple[HistoryRow, ...]


def vats_page(standing: Known, ended: Sequence[Vat]) -> VatsPage:
    """The list: those that stand with what is known of each, then those that were ended."""
    return VatsPage(
        standing=tuple(_row(vat, known) for vat, known in standing),
        ended=tuple(_row(vat, None) for vat in ended),
        waits=reckoned_soon(standing),
    )


def vat_page(
    vat: Vat, *, answer: VatAnswer | None, trouble: str, photos: Mapping[UUID, Sequence[Photo]],
    steps: Mapping[UUID, Sequence[Step]],
) -> VatPage:  # fmt: skip
    """The page of a vat; photos and what was changed stand by the key of what they are of."""
    zone = ZoneInfo(vat.garden.time_zone)
    return VatPage(
        key=str(vat.pk),
        name=vat.name,
        facts=facts(vat),
        ended=ended_said(vat),
        state=None if answer is None else state_part(answer),
        trouble=trouble,
        drawing=drawing(vat),
        story=story(vat, zone=zone, steps=steps),
        photos=thumbs(photos.get(vat.pk, ())),
        by_recipe=bool(vat.recipe),
        written=written(vat, zone),
        history=history(vat, steps.get(vat.pk, ()), zone),
    )


def state_part(found: VatAnswer) -> StatePart:
    """The answer in words."""
    headline = _(ADVICE[found.advice])
    return StatePart(
        advice=found.advice,
        headline=headline,
        stands=stands(found),
        parts=tuple(part_said(part) for part in found.parts),
        facts=tuple(Fact(said=said, figure=figure) for figure, said in told(found)),
        cautions=tuple(own_text(c.text) for c in found.cautions if c.code not in NOTES),
        notes=tuple(own_text(c.text) for c in found.cautions if c.code in NOTES),
        chart=vat_chart(found, answer=headline),
    )


def drawing(vat: Vat) -> str:
    """The vat as its latest looks say; a sign that was never looked at is drawn neutral."""
    latest: dict[VatSign, int] = {}
    if vat.ended_at is None:
        for reading in vat.readings.all():
            latest |= {name: level for name in DRAWN if (level := getattr(reading, name)) is not None}
    return vat_drawing(VatLook(short_name=vat.name, covered=False, empty=vat.ended_at is not None, **latest))


def facts(vat: Vat) -> str:
    """`fructose and lime, 40 L, for cotton, since 3 Aug`."""
    zone = ZoneInfo(vat.garden.time_zone)
    poured_l = sum(row.volume_l for row in vat.poured.all()) if vat.ended_at is None else 0.0
    volume = fitting(vat.volume_l + poured_l, "volume_l") if poured_l else vat.volume_typed
    return _("%(kind)s, %(volume)s, for %(fibre)s, since %(when)s") % {
        "kind": vat.get_kind_display(), "volume": volume, "fibre": vat.get_fibre_display(),
        "when": moment(vat.started_at.astimezone(zone)),
    }  # fmt: skip


def ended_said(vat: Vat) -> str:
    """When it was ended and what became of it; empty while it stands."""
    if vat.ended_at is None:
        return ""
    when = day_of_year(vat.ended_at.astimezone(ZoneInfo(vat.garden.time_zone)))
    return _("ended %(when)s: %(end)s") % {"when": when, "end": vat.get_end_display()}


def _row(vat: Vat, known: VatAnswer | BluewrightError | None) -> VatRow:
    answer = known if isinstance(known, VatAnswer) else None
    trouble = _("Nothing can be said of it: %(why)s") if isinstance(known, BluewrightError) else ""
    return VatRow(
        key=str(vat.pk),
        name=vat.name,
        facts=facts(vat),
        advice=_(ADVICE[answer.advice]) if answer is not None else trouble and trouble % {"why": own_text(str(known))},
        stands=stands(answer) if answer is not None else "",
        ended=ended_said(vat),
        drawing=drawing(vat) if vat.ended_at is None else "",
    )
