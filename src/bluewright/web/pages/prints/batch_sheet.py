"""The sheet of a batch: all of it from the bed to the jar, with empty lines for what is still to come."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.bridge.sources import sources
from bluewright.journal.models import Airing, Batch, Drying, JarFrom, JarTest, Standing
from bluewright.journal.queries.batches import Stage, stage_of
from bluewright.science.base.errors import InputError
from bluewright.web.pages.batches.head import facts
from bluewright.web.pages.batches.page import said_look
from bluewright.web.pages.jars.page import purity
from bluewright.web.pages.prints.fit import BLANK_MM, GAP_MM, HEAD_MM, LINE_MM, PAD_MM, Table, fitted, table
from bluewright.web.pages.prints.paper import invented_mark, paper_of
from bluewright.web.pages.threads.page import ThreadPage
from bluewright.web.pages.tubs.page import look_row
from bluewright.words.numbers import day, figure, moment

Clock = Callable[[datetime | None], str]
BLANKS: dict[Stage, int] = {"liquor": 2, "alkali": 3, "air": 1, "settle": 4, "dry": 4, "jar": 1}
"""Empty lines of a stage of which nothing is written down yet."""
ORDER: tuple[Stage, ...] = ("liquor", "alkali", "air", "settle", "dry", "jar")


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchSheet:
    """What stands on the sheet, and its measures on paper."""

    key: str
    name: str
    garden: str
    invented: str
    """That none of it ever happened; empty for a garden that is there."""
    paper: str
    """`a4` or `us-letter`."""
    began: str
    """Its day with the year."""
    facts: str
    note: str
    tables: tuple[Table, ...]
    line_mm: float = LINE_MM
    pad_mm: float = PAD_MM
    blank_mm: float = BLANK_MM
    gap_mm: float = GAP_MM
    head_mm: float = HEAD_MM


def batch_sheet(batch: Batch, *, thread: ThreadPage) -> BatchSheet:
    """The sheet of a whole batch with its thread."""
    zone = ZoneInfo(batch.garden.time_zone)

    def clock(when: datetime | None) -> str:
        return "" if when is None else moment(when.astimezone(zone))

    paper = paper_of(batch.garden)
    return BatchSheet(
        key=str(batch.pk),
        name=batch.name,
        garden=batch.garden.name,
        invented=invented_mark(batch.garden),
        paper=paper,
        began=day(batch.begun_at.astimezone(zone)),
        facts=facts(batch),
        note=batch.note,
        tables=fitted(tuple(_tables(batch, thread, clock, zone)), paper=paper),
    )


def _tables(batch: Batch, thread: ThreadPage, clock: Clock, zone: ZoneInfo) -> Iterable[Table]:
    came = tuple(
        (_("Picking") if knot.kind == "picking" else knot.name, knot.when, knot.said, knot.came)
        for level in thread.levels
        for knot in level.knots
        if knot.kind in {"bed", "picking", "tub", "batch"} and not knot.here
    )
    yield table(_("Thread"), {_("when"): 3, _("what"): 7, _("from"): 5}, came)
    yield table(_("Looks at the tub"), {_("tub"): 2, _("seen"): 9, _("note"): 4}, list(_tub_looks(batch, zone)))
    yield table(
        _("Looks at the liquor"), {_("seen"): 9, _("note"): 6},
        [(clock(one.taken_at), said_look(one), one.note) for one in batch.looks.all()], blanks=_blanks(batch, "liquor"),
    )  # fmt: skip
    yield table(
        _("Alkali"), {_("how much"): 4, _("of what"): 4, _("pH after"): 2, _("note"): 5}, list(_alkali(batch, clock)),
        blanks=_blanks(batch, "alkali"),
    )  # fmt: skip
    yield table(
        _("Air"), {_("how"): 6, _("pours"): 2, _("minutes"): 2, _("ended"): 5},
        [_airing(one, clock) for one in batch.airings.all()], blanks=_blanks(batch, "air"),
    )  # fmt: skip
    yield table(
        _("Settle and wash"), {_("water on"): 4, _("decanted"): 4, _("left"): 3, _("blue 0-3"): 2, _("pH"): 2},
        [_standing(one, clock) for one in batch.standings.all()], blanks=_blanks(batch, "settle"),
    )  # fmt: skip
    yield table(
        _("Dry"), {_("weighed with the dish"): 5, _("dish"): 4, _("note"): 6},
        [row for one in batch.dryings.all() for row in _drying(one, clock)], blanks=_blanks(batch, "dry"),
    )  # fmt: skip
    yield table(
        _("Jar"), {_("name"): 4, _("grams"): 2, _("stands in"): 4, _("purity"): 5},
        [_jar(one, clock) for one in batch.jarred.all()], blanks=_blanks(batch, "jar"),
    )  # fmt: skip


def _blanks(batch: Batch, stage: Stage) -> int:
    """Empty lines for a stage that may still come: none once a later one is reached, fewer where some is done."""
    reached = stage_of(batch)
    if reached in {"ended", "joined", "jar"} or ORDER.index(stage) < ORDER.index(reached):
        return 0
    return BLANKS[stage]


def _tub_looks(batch: Batch, zone: ZoneInfo) -> Iterable[tuple[str, ...]]:
    try:
        tubs = {one.strain.steep_id: one.strain.steep for one in sources(batch)}
    except InputError:
        return
    for tub in sorted(tubs.values(), key=lambda steep: steep.started_at):
        for reading in tub.readings.all():
            row = look_row(reading, zone)
            yield row.when, tub.name, row.said, row.note


def _alkali(batch: Batch, clock: Clock) -> Iterable[tuple[str, ...]]:
    tests = [(one.taken_at, _jar_test(one, clock)) for one in batch.jar_tests.all()]
    parts = [
        (
            part.added_at,
            (clock(part.added_at), part.added_typed, part.alkali.name, _bare(part.ph), part.note),
        )
        for part in batch.alkali_parts.all()
    ]
    return [row for _when, row in sorted([*tests, *parts], key=lambda one: one[0])]


def _jar_test(test: JarTest, clock: Clock) -> tuple[str, ...]:
    steps = list(test.steps.all())
    added = " + ".join(step.added_typed for step in steps)
    reached = ", ".join(f"{step.ph:g}" for step in steps if step.ph is not None)
    jar = _("jar of %(sample)s: %(added)s") % {"sample": test.sample_typed, "added": added}
    return clock(test.taken_at), jar, test.alkali.name, reached, test.note


def _airing(row: Airing, clock: Clock) -> tuple[str, ...]:
    pours = "" if row.done_pours is None else str(row.done_pours)
    minutes = "" if row.done_min is None else figure(row.done_min)
    return clock(row.started_at), row.get_way_display(), pours, minutes, clock(row.ended_at)


def _standing(row: Standing, clock: Clock) -> tuple[str, ...]:
    with_acid = _("%(water)s with acid") % {"water": row.refill_typed} if row.acid else row.refill_typed
    water = _("none: first settling") if row.refill_l is None else with_acid
    blue = "" if row.blue_in_decant is None else str(row.blue_in_decant)
    return clock(row.started_at), water, clock(row.decanted_at), row.left_typed, blue, _bare(row.ph)


def _drying(row: Drying, clock: Clock) -> Iterable[tuple[str, ...]]:
    for one in row.weighings.all():
        yield clock(one.weighed_at), one.total_typed, row.dish_typed, one.note or row.note


def _jar(part: JarFrom, clock: Clock) -> tuple[str, ...]:
    jar = part.jar
    return clock(jar.filled_at), jar.name, part.pigment_typed, jar.stands, purity(jar)


def _bare(ph: float | None) -> str:
    return "" if ph is None else f"{ph:g}"
