"""What a tub's page shows: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.charts.answers import strain_chart
from bluewright.charts.tub_contents import TubStage
from bluewright.charts.tub_drawn import TubLook, tub_drawing
from bluewright.journal.models import CallSeen, Photo, Reading, Steep, SteepLeaf, Strain
from bluewright.journal.models.steep import SIGN_FIELDS
from bluewright.journal.queries.history import Step
from bluewright.science.steep.answer import SteepAnswer
from bluewright.web.pages.tubs.calls_before import CallRow, calls_before
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.photos import Thumb, thumbs
from bluewright.words.jar_look import dye_index_said
from bluewright.words.leaf import tub_weight
from bluewright.words.numbers import NOTES, day_of_year, moment, percent, sentence
from bluewright.words.own_text import own_text
from bluewright.words.signs import seen_said
from bluewright.words.steep import advice, best, grams, look_again, now_gives, shown, telling, when

USUAL_FILL_FRAC = 0.8
DRAWN_SIGNS = ("darkness", "blue_cast", "limpness", "scum", "bubbles")


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionRow:
    """A moment at which to strain."""

    when: str
    share: str
    risk: str
    advised: bool
    figure: str
    """Its path in the answer: why it is so can be asked by it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CallPart:
    """The strain call in words, with its chart."""

    advice: str
    """`wait`, `strain` or `strain_past_peak`."""
    headline: str
    """The advice in one sentence."""
    now: str
    window: str
    grams: str
    look_again: str
    next_reading: str
    options: tuple[OptionRow, ...]
    cautions: tuple[str, ...]
    """What could hurt someone."""
    notes: tuple[str, ...]
    """What to know about the figures."""
    chart: str
    """SVG text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookRow:
    """One look in the tub's story."""

    key: str
    when: str
    said: str
    note: str
    photos: tuple[Thumb, ...]
    history: tuple[HistoryRow, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StrainRow:
    """The straining."""

    key: str
    when: str
    said: str
    batches: tuple[tuple[str, str], ...]
    """Name and key of each batch that its liquor went into."""
    note: str
    history: tuple[HistoryRow, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LeafRow:
    """Leaf of one picking in the tub."""

    key: str
    """Of the picking."""
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TubRow:
    """A tub in the list."""

    key: str
    name: str
    facts: str
    age: str
    strained: str
    """When; empty while it steeps."""
    drawing: str
    """SVG text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TubPage:
    """One tub."""

    key: str
    name: str
    facts: str
    """Plant, leaf, water and start in one line."""
    weight: str
    """That it is not to be lifted; empty for a light one, and once it is strained."""
    age: str
    """How long it has been steeping."""
    strained: StrainRow | None
    call: CallPart | None
    """None once it is strained, or when no forecast can be made."""
    trouble: str
    """Why there is no forecast; empty where there is one or it is strained."""
    drawing: str
    """The tub as it would look now, SVG text."""
    looks: tuple[LookRow, ...] = field(default=())
    photos: tuple[Thumb, ...] = field(default=())
    """Of the tub itself, not of one look."""
    calls_before: tuple[CallRow, ...] = field(default=())
    """What the call said when it was looked at before, the newest first."""
    leaf: tuple[LeafRow, ...] = ()
    written: str = ""
    history: tuple[HistoryRow, ...] = ()


def tub_row(steep: Steep, *, now: datetime) -> TubRow:
    """A tub in the list."""
    zone = ZoneInfo(steep.garden.time_zone)
    strains = list(steep.strains.all())
    return TubRow(
        key=str(steep.pk),
        name=steep.name,
        facts=facts(steep, zone),
        age=age(steep, now),
        strained=moment(strains[0].strained_at.astimezone(zone)) if strains else "",
        drawing=drawing(steep),
    )


def tub_page(
    steep: Steep,
    *,
    answer: SteepAnswer | None,
    now: datetime,
    trouble: str = "",
    photos: Mapping[UUID, Sequence[Photo]] | None = None,
    seen: Sequence[CallSeen] = (),
    told: Mapping[UUID, Sequence[Step]] | None = None,
) -> TubPage:
    """The page of a tub, given its call and the calls that were seen before.

    Photos and what was changed stand by the key of tub, look or straining.
    """
    pictures, steps = photos or {}, told or {}
    zone = ZoneInfo(steep.garden.time_zone)
    strains = list(steep.strains.all())
    return TubPage(
        key=str(steep.pk),
        name=steep.name,
        facts=facts(steep, zone),
        weight="" if strains else tub_weight(steep.water_l, sum(part.leaf_kg for part in steep.leaf.all())),
        age=age(steep, now),
        strained=_strained(strains[0], zone, steps.get(strains[0].pk, ())) if strains else None,
        call=call_part(answer) if answer is not None else None,
        trouble=trouble,
        drawing=drawing(steep),
        looks=tuple(
            look_row(r, zone, pictures.get(r.pk, ()), steps.get(r.pk, ())) for r in reversed(list(steep.readings.all()))
        ),
        photos=thumbs(pictures.get(steep.pk, ())),
        calls_before=calls_before(seen, zone=zone, hot=steep.method == "hot"),
        leaf=tuple(LeafRow(key=str(part.picking_id), said=_leaf_said(part, zone)) for part in steep.leaf.all()),
        written=written(steep, zone),
        history=history(steep, steps.get(steep.pk, ()), zone),
    )


def drawing(steep: Steep) -> str:
    """The tub as its latest looks say; a sign that was never looked at is drawn neutral."""
    latest: dict[str, Any] = {}
    for reading in steep.readings.all():
        latest |= {name: level for name in DRAWN_SIGNS if (level := getattr(reading, name)) is not None}
    stage: TubStage = "strained" if steep.strains.all() else "steep"
    return tub_drawing(TubLook(short_name=steep.name, fill_frac=USUAL_FILL_FRAC, stage=stage, **latest))


def facts(steep: Steep, zone: ZoneInfo) -> str:
    """`woad, 6 kg in 40 L, since Fri 3 Jul 11:00`."""
    told = {
        "plant": steep.get_plant_display(),
        "leaf": " + ".join(part.leaf_typed for part in steep.leaf.all()),
        "water": steep.water_typed,
        "method": steep.get_method_display(),
        "when": moment(steep.started_at.astimezone(zone)),
    }
    if not told["leaf"]:
        return _("%(plant)s, no leaf in %(water)s of water, %(method)s, since %(when)s") % told
    return _("%(plant)s, %(leaf)s of leaf in %(water)s of water, %(method)s, since %(when)s") % told


def age(steep: Steep, now: datetime) -> str:
    """`45 hours` or `12 minutes`."""
    minutes = max((now - steep.started_at).total_seconds() / 60, 0)
    if minutes >= 120:
        hours = round(minutes / 60)
        return ngettext("%(n)s hour", "%(n)s hours", hours) % {"n": hours}
    return ngettext("%(n)s minute", "%(n)s minutes", round(minutes)) % {"n": round(minutes)}


def call_part(answer: SteepAnswer) -> CallPart:
    """The call in words."""
    headline = sentence(advice(answer)) + "."
    return CallPart(
        advice=answer.advice,
        headline=headline,
        now=now_gives(answer),
        window=best(answer),
        grams=grams(answer),
        look_again=look_again(answer),
        next_reading=telling(answer),
        options=tuple(
            OptionRow(
                when=when(option, answer),
                share=percent(option.expected_frac_of_best),
                risk=percent(option.chance_of_losing_a_fifth),
                advised=option.time == answer.strain_at,
                figure=f"options.{answer.options.index(option)}",
            )
            for option in shown(answer)
        ),
        cautions=tuple(own_text(c.text) for c in answer.cautions if c.code not in NOTES),
        notes=tuple(own_text(c.text) for c in answer.cautions if c.code in NOTES),
        chart=strain_chart(answer, answer=headline),
    )


def look_row(reading: Reading, zone: ZoneInfo, photos: Sequence[Photo] = (), steps: Sequence[Step] = ()) -> LookRow:
    """One look in words."""
    levels = [seen_said(name, level) for name in SIGN_FIELDS if (level := getattr(reading, name)) is not None]
    temp = [_("tub %(temp)s") % {"temp": reading.temp_typed}] if reading.temp_c is not None else []
    ph = [f"pH {reading.ph:g}"] if reading.ph is not None else []
    dye = [dye_index_said(reading.dye_index)] if reading.dye_index is not None else []
    return LookRow(
        key=str(reading.pk),
        when=moment(reading.taken_at.astimezone(zone)),
        said="; ".join(temp + ph + dye + levels),
        note=reading.note,
        photos=thumbs(photos),
        history=history(reading, steps, zone),
    )


def _leaf_said(part: SteepLeaf, zone: ZoneInfo) -> str:
    """`3 kg picked 5 Jul`."""
    day = day_of_year(part.picking.picked_at.astimezone(zone))
    return _("%(leaf)s picked %(day)s") % {"leaf": part.leaf_typed, "day": day}


def _strained(row: Strain, zone: ZoneInfo, steps: Sequence[Step]) -> StrainRow:
    said = [row.get_squeeze_display()]
    said += [_("%(liquor)s of liquor") % {"liquor": row.liquor_typed}] if row.liquor_typed else []
    return StrainRow(
        key=str(row.pk),
        when=moment(row.strained_at.astimezone(zone)),
        said=", ".join(said),
        batches=tuple((part.into.name, str(part.into_id)) for part in row.went_into.all()),
        note=row.note,
        history=history(row, steps, zone),
    )
