"""What the pages of batches show: a batch's story, and the list of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Final
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.journal.bridge.costs_kept import Kept
from bluewright.journal.models import Batch, LiquorLook, Photo, Standing
from bluewright.journal.queries.batches import Stage, stage_of
from bluewright.web.pages.batches.head import BatchHead, batch_head, drawing, facts, over
from bluewright.web.pages.batches.next import NextStep, next_step
from bluewright.web.ui.photos import Thumb, thumbs
from bluewright.words.cost import batch_said, spent_said
from bluewright.words.numbers import figure, moment
from bluewright.words.signs import seen_said


@dataclass(frozen=True, slots=True, kw_only=True)
class Happening:
    """One line of a batch's story."""

    when: str
    said: str
    note: str
    href: str
    """Where it can be seen or mended; empty where nowhere."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchRow:
    """A batch in the list."""

    key: str
    name: str
    facts: str
    stage: str
    drawing: str
    over: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchPage:
    """One batch."""

    head: BatchHead
    note: str
    tubs: tuple[tuple[str, str], ...]
    """Name and address of each tub that it came from."""
    next: NextStep | None
    """What it wants next; None when it is over."""
    story: tuple[Happening, ...]
    """The newest first."""
    photos: tuple[Thumb, ...]
    """Of the batch and of its liquor, the oldest first."""
    work: str
    """How much work was noted for it; empty where none was."""
    cost: tuple[str, ...]
    """What it took and what a gram of it cost; empty while that is not known."""
    cost_waits: bool
    """Whether that is still worked out beside the pages."""
    year: int
    """In which it was begun."""
    can_end: bool
    ended: bool


def batch_page(
    batch: Batch, *, now: datetime, photos: Iterable[Photo] = (), work_min: float = 0.0, costs: Kept | None = None
) -> BatchPage:
    """The page of a whole batch, with photos of it and of its liquor, and what its year's blue costs."""
    zone = ZoneInfo(batch.garden.time_zone)
    happenings = sorted(_happenings(batch, zone), key=lambda pair: pair[0], reverse=True)
    stage = stage_of(batch)
    return BatchPage(
        head=batch_head(batch),
        note=batch.note,
        tubs=tuple(_came_from(batch)),
        next=next_step(batch, now),
        story=tuple(happening for _when, happening in happenings),
        photos=thumbs(sorted(photos, key=lambda one: one.taken_at)),
        work=_("Work noted for it: %(spent)s.") % {"spent": spent_said(work_min)} if work_min else "",
        cost=_cost(batch, costs),
        cost_waits=costs is None,
        year=batch.begun_at.astimezone(zone).year,
        can_end=stage not in {"ended", "jar", "joined"},
        ended=stage == "ended",
    )


def _cost(batch: Batch, costs: Kept | None) -> tuple[str, ...]:
    one = None if costs is None else costs.of(batch.pk)
    return () if one is None or costs is None or costs.answer is None else batch_said(one, costs.answer.inputs)


def batch_row(batch: Batch) -> BatchRow:
    """A whole batch in the list."""
    stage = stage_of(batch)
    return BatchRow(
        key=str(batch.pk),
        name=batch.name,
        facts=facts(batch),
        stage=over(batch, stage) or said_stage(stage),
        drawing=drawing(batch, stage),
        over=bool(over(batch, stage)),
    )


def said_stage(stage: Stage) -> str:
    """What was done last, in words."""
    words: Final = {
        "liquor": _("strained, no alkali yet"), "alkali": _("alkali added, to be aired"),
        "air": _("aired, to settle"), "settle": _("settling or being washed"), "dry": _("drying"),
    }  # fmt: skip
    return words.get(stage, "")


def _came_from(batch: Batch) -> Iterator[tuple[str, str]]:
    for part in batch.came_from.all():
        some = f" ({part.liquor_typed})" if part.liquor_typed else ""
        if part.strain is not None:
            yield f"{part.strain.steep.name}{some}", reverse("tubs.show", kwargs={"key": part.strain.steep_id})
        elif part.batch is not None:
            yield f"{part.batch.name}{some}", reverse("batches.show", kwargs={"key": part.batch_id})


def _happenings(batch: Batch, zone: ZoneInfo) -> Iterator[tuple[datetime, Happening]]:
    def line(when: datetime, said: str, note: str = "", page: str = "") -> tuple[datetime, Happening]:
        href = reverse(page, kwargs={"key": batch.pk}) if page else ""
        return when, Happening(when=moment(when.astimezone(zone)), said=said, note=note, href=href)

    for look in batch.looks.all():
        page = "airing.show" if look.after_pours is not None or look.after_min is not None else "alkali.dose"
        yield line(look.taken_at, said_look(look), look.note, page)
    for test in batch.jar_tests.all():
        yield line(test.taken_at, _("jar titration of %(jar)s with %(alkali)s") % {
            "jar": test.sample_typed, "alkali": test.alkali.name}, test.note, "alkali.dose")  # fmt: skip
    for part in batch.alkali_parts.all():
        ph = f"; pH {part.ph:g}" if part.ph is not None else ""
        yield line(part.added_at, f"{part.added_typed} {part.alkali.name}{ph}", part.note, "alkali.dose")
    for airing in batch.airings.all():
        pours, minutes = airing.done_pours or 0, airing.done_min or 0
        done = [
            *([ngettext("%(n)d pour", "%(n)d pours", pours) % {"n": pours}] if pours else []),
            *([_("%(n)s minutes") % {"n": figure(minutes)}] if minutes else []),
        ]
        told = f"{airing.get_way_display()}{': ' if done else ''}{', '.join(done)}"
        yield line(airing.started_at, told, airing.note, "airing.show")
    for standing in batch.standings.all():
        yield line(standing.started_at, said_standing(standing), standing.note, "settling.show")
    for drying in batch.dryings.all():
        last = list(drying.weighings.all())[-1:]
        weighed = [_("last weighed %(g)s with the dish") % {"g": row.total_typed} for row in last]
        yield line(drying.started_at, "; ".join([_("put to dry"), *weighed]), drying.note, "drying.show")


def said_look(look: LiquorLook) -> str:
    """A look at the liquor in words."""
    found = [
        *([_("liquor %(temp)s") % {"temp": look.temp_typed}] if look.temp_c is not None else []),
        *([f"pH {look.ph:g}"] if look.ph is not None else []),
        *([_("oxygen %(o2)s mg/L") % {"o2": figure(look.dissolved_oxygen_mg_l)}] if look.dissolved_oxygen_mg_l else []),
        *([seen_said("foam", look.foam)] if look.foam is not None else []),
        *([seen_said("liquor", look.liquor)] if look.liquor is not None else []),
    ]
    return "; ".join(found)


def said_standing(standing: Standing) -> str:
    """A standing in words: what it stood in, and when it was decanted."""
    begun = (
        _("left to settle")
        if standing.refill_l is None
        else _("washed with %(water)s of fresh water") % {"water": standing.refill_typed}
    )
    return begun if standing.decanted_at is None else _("%(begun)s, and decanted") % {"begun": begun}


def rows(found: Iterable[Batch]) -> tuple[BatchRow, ...]:
    """The list: what is worked on first."""
    return tuple(sorted((batch_row(batch) for batch in found), key=lambda row: row.over))
