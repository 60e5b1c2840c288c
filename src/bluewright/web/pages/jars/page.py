"""What the pages of jars show: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.charts.answers import loss_chart
from bluewright.journal.bridge import assays as bridge
from bluewright.journal.bridge.stock import pure_left_g
from bluewright.journal.models import Jar, JarTaken
from bluewright.journal.queries.history import Step
from bluewright.journal.queries.jars import left_g, put_in_g
from bluewright.science.base.bands import Band
from bluewright.science.pigment.stock import together as all_of
from bluewright.science.pigment.yield_record import YieldAnswer
from bluewright.web.pages.assays.page import AssayRow, Together, assay_rows, together
from bluewright.web.pages.threads.page import ThreadPage
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.turning import Linked
from bluewright.words import jar as words
from bluewright.words.numbers import by_scale, moment, ranged
from bluewright.words.said import Rows


@dataclass(frozen=True, slots=True, kw_only=True)
class StockRow:
    """One jar at a glance."""

    key: str
    name: str
    left: str
    """`12 g of 20 g`, or that it is empty."""
    pure: str
    """Pure blue of what is left; empty where nobody knows."""
    purity: str
    stands: str
    filled: str
    empty: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StockPage:
    """All jars of a garden."""

    jars: tuple[StockRow, ...]
    """Those that hold something first, each the newest first."""
    total: str
    """Grams in all jars and their pure blue, in a sentence; empty where there is nothing."""
    unknown: str
    """Which jars' blue is not counted; empty where all is."""
    pages: tuple[Linked, ...] = ()
    """Links to the other pages of the list; empty where one holds all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenRow:
    """Pigment taken out once, or the jar weighed again."""

    key: str
    when: str
    said: str
    weighing: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class YieldPart:
    """What the jar holds and where the rest went, with its chart."""

    said: tuple[str, ...]
    lost: Rows
    next_reading: str
    """What would tell most; empty where all has been seen."""
    chart: str
    """SVG text."""
    take_care: tuple[str, ...]
    to_know: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JarPage:
    """One jar."""

    key: str
    name: str
    facts: str
    label: str
    """The sign on its label."""
    note: str
    purity: str
    stock: StockRow
    went_in: tuple[str, ...]
    taken: tuple[TakenRow, ...]
    together: Together | None
    """What its assays say together; None without one."""
    assays: tuple[AssayRow, ...]
    found: YieldPart | None
    trouble: str
    """Why nothing can be reckoned; empty where it can."""
    thread: ThreadPage
    written: str
    """Who wrote it down, and when."""
    history: tuple[HistoryRow, ...]


def stock_page(
    jars: Sequence[Jar], *, holding: Sequence[Jar], unknown: str, pages: tuple[Linked, ...] = ()
) -> StockPage:
    """The page of these jars, and what all that hold something have together."""
    rows = [stock_row(jar, pure_left_g(jar)) for jar in jars]
    return StockPage(
        jars=tuple(rows),
        total=total_said(sum(map(left_g, holding)), [pure_left_g(jar) for jar in holding]),
        unknown=unknown,
        pages=pages,
    )


def stock_row(jar: Jar, pure: Band | None) -> StockRow:
    """One jar at a glance."""
    left, empty = max(left_g(jar), 0.0), left_g(jar) <= 0
    grams = {"left": by_scale(left), "put_in": by_scale(put_in_g(jar))}
    return StockRow(
        key=str(jar.pk),
        name=jar.name,
        left=_("empty; it held %(put_in)s g") % grams if empty else _("%(left)s g left of %(put_in)s g") % grams,
        pure="" if empty or pure is None else ranged(pure, "g"),
        purity=purity(jar),
        stands=jar.stands,
        filled=moment(jar.filled_at.astimezone(ZoneInfo(jar.garden.time_zone))),
        empty=empty,
    )


def jar_page(
    jar: Jar, *, found: YieldAnswer | None, trouble: str, thread: ThreadPage, steps: Sequence[Step]
) -> JarPage:
    """The page of a jar, given what could be reckoned."""
    zone = ZoneInfo(jar.garden.time_zone)
    stock = stock_row(jar, pure_left_g(jar, found=found))
    told = {"when": stock.filled, "where": jar.stands}
    return JarPage(
        key=str(jar.pk),
        name=jar.name,
        facts=(_("Filled %(when)s, stands in: %(where)s") if jar.stands else _("Filled %(when)s")) % told,
        label=short_id(jar),
        note=jar.note,
        purity=stock.purity,
        stock=stock,
        went_in=tuple(
            _("%(typed)s of %(batch)s") % {"typed": part.pigment_typed, "batch": part.batch.name}
            for part in jar.came_from.all()
        ),
        taken=tuple(taken_rows(jar.taken.all(), zone)),
        together=together(jar),
        assays=assay_rows(jar),
        found=None if found is None else yield_part(found),
        trouble=trouble,
        thread=thread,
        written=written(jar, zone),
        history=history(jar, steps, zone),
    )


def yield_part(found: YieldAnswer) -> YieldPart:
    """What the jar holds, in words."""
    said = words.said(found)
    told = [part for part in said.parts if isinstance(part, str)]
    next_reading = "" if found.next_reading is None else told.pop()
    return YieldPart(
        said=tuple(told),
        lost=next(part for part in said.parts if isinstance(part, Rows)),
        next_reading=next_reading,
        chart=loss_chart(found, answer=told[2]),
        take_care=said.take_care,
        to_know=said.to_know,
    )


def purity(jar: Jar) -> str:
    """`35% indigo, give or take 4% (by a dyer's test)`, `34% (31 to 37) indigo, by its assays`, or not measured."""
    if jar.assays.all():
        return _assayed(jar)
    if jar.purity_frac is None:
        return _("purity not measured")
    how = f" ({jar.purity_how})" if jar.purity_how else ""
    told = {"percent": f"{100 * jar.purity_frac:g}%"}
    if jar.purity_sd_frac is None:
        return _("%(percent)s indigo") % told + how
    told["doubt"] = f"{100 * jar.purity_sd_frac:g}%"
    return _("%(percent)s indigo, give or take %(doubt)s") % told + how


def _assayed(jar: Jar) -> str:
    """The purity of a jar that has assays."""
    found = bridge.together(jar)
    if found is None:
        return _("assayed, but no figure was told")
    if found.indigo_pct is not None:
        return _("%(share)s indigo, by its assays") % {"share": ranged(found.indigo_pct, "%")}
    return _("only an upper bound of its indigo is known") if found.agree else _("its assays do not agree")


def short_id(jar: Jar) -> str:
    """The first signs of a jar's key, by which its label is known."""
    return str(jar.pk)[:8]


def taken_rows(rows: Iterable[JarTaken], zone: ZoneInfo) -> Iterable[TakenRow]:
    """What was taken out, the newest first."""
    for row in rows:
        told = {"typed": row.taken_typed, "what": row.what_for}
        said = _("%(typed)s for %(what)s") % told if row.what_for else row.taken_typed
        if row.weighed_g is not None:
            said = weighing_said(row)
        yield TakenRow(
            key=str(row.pk), when=moment(row.taken_at.astimezone(zone)), said=said, weighing=row.weighed_g is not None
        )


def weighing_said(row: JarTaken) -> str:
    """`weighed 14.2 g; 0.8 g less than booked, taken off the book`."""
    told = {"typed": row.weighed_typed, "off": by_scale(abs(row.taken_g))}
    if row.taken_g > 0:
        return _("weighed again, %(typed)s: %(off)s g less than booked, taken off the book") % told
    if row.taken_g < 0:
        return _("weighed again, %(typed)s: %(off)s g more than booked, put on the book") % told
    return _("weighed again, %(typed)s: the book stays as it was") % told


def total_said(left: float, pure: Sequence[Band | None]) -> str:
    """Grams in all, and the pure blue of as many jars as it is known of."""
    if left <= 0:
        return ""
    known = [one for one in pure if one is not None]
    said = {
        "left": by_scale(left), "pure": ranged(all_of(known), "g") if known else "", "known": len(known),
        "all": len(pure),
    }  # fmt: skip
    if not known:
        return _("%(left)s g of pigment in all.") % said
    if len(known) < len(pure):
        return _("%(left)s g of pigment in all; in %(known)d of the %(all)d jars %(pure)s of pure blue.") % said
    return _("%(left)s g of pigment in all; in it %(pure)s of pure blue.") % said
