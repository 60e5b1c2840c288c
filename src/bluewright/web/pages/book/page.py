"""What the season book shows: rounding and words happen here, once."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final
from uuid import UUID
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from bluewright.charts import small
from bluewright.journal.bridge.book import Line
from bluewright.journal.bridge.costs_kept import Kept
from bluewright.journal.models import Steep
from bluewright.journal.models.bed import PLANTS
from bluewright.web.pages.batches.page import said_stage
from bluewright.web.pages.book.asked import Asked
from bluewright.web.ui.turning import Linked
from bluewright.words.cost import of_a_gram
from bluewright.words.measures import amount, in_us, of_leaf
from bluewright.words.numbers import day, figure, frac, rough

PLANT_NAMES: Final = dict(PLANTS)
COLUMNS: Final = (
    ("date", gettext_lazy("Begun")), ("name", gettext_lazy("Batch")), ("from", gettext_lazy("From")),
    ("leaf", gettext_lazy("Leaf")), ("plant", gettext_lazy("Plant")), ("steep", gettext_lazy("Steeped")),
    ("temp", gettext_lazy("Tub, mean")), ("alkali", gettext_lazy("Alkali")), ("ph", gettext_lazy("pH reached")),
    ("air", gettext_lazy("Aired")), ("pigment", gettext_lazy("Pigment")), ("yield", gettext_lazy("From the leaf")),
    ("purity", gettext_lazy("Purity")), ("stage", gettext_lazy("How far")),
)  # fmt: skip
"""Every column: what it is sorted by (`bridge.book.SORTS`), and its head."""
SAME_H: Final = 1.0
"""Steeps that differ by less are told as one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """The head of a column."""

    name: str
    href: str
    """Sorts by it; the other way round if it is sorted by it already."""
    aria: str
    """`ascending`, `descending`, or empty."""
    arrow: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BookRow:
    """One batch. What nobody wrote down is empty."""

    name: str
    href: str
    note: str
    begun: str
    tubs: tuple[Linked, ...]
    beds: str
    leaf: str
    plant: str
    steep: str
    steep_mark: str
    """SVG text."""
    temp: str
    alkali: str
    ph: str
    air: str
    pigment: str
    from_leaf: str
    """Dry pigment from each kilogram of leaf."""
    pure: str
    """Pure blue in it, with its range."""
    gram: str
    """What a gram of it cost, with its range; empty where that is not known."""
    bar: str
    """SVG text."""
    purity: str
    stage: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitingRow:
    """A tub that is in no batch."""

    name: str
    href: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BookPage:
    """The book, opened at a year."""

    title: str
    summary: str
    cost: str
    """What a gram of the year's pure blue cost; empty for all years, and while it is not known."""
    year: int | None
    """The one that is open; None for all of them."""
    chart: str
    """SVG text; empty while nothing was weighed."""
    years: tuple[Linked, ...]
    """Those with batches, and all of them; the one that is open has no address."""
    heads: tuple[Head, ...]
    rows: tuple[BookRow, ...]
    pages: tuple[Linked, ...]
    """Empty where one page holds all."""
    waiting: tuple[WaitingRow, ...]
    waiting_more: str
    """How many more tubs are in no batch; empty where all are shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Most:
    """What small charts are drawn against: the most of the whole year, so that pages can be compared."""

    g_per_kg: float
    steep_h: float


def heads(asked: Asked) -> tuple[Head, ...]:
    """The heads of all columns as links."""
    said = {True: ("ascending", "▲"), False: ("descending", "▼")}
    return tuple(
        Head(name=str(name), href=asked.by(key).address(), aria=aria, arrow=arrow)
        for key, name in COLUMNS
        for aria, arrow in [said[asked.up] if key == asked.sort else ("", "")]
    )


def book_row(line: Line, *, most: Most, zone: ZoneInfo, costs: Kept | None = None) -> BookRow:
    """A batch in words, with what a gram of it cost where its year's costs are known."""
    basket = line.basket
    return BookRow(
        name=line.name,
        href=reverse("batches.show", kwargs={"key": line.key}),
        note=line.note,
        begun=dated(line.begun_at, zone),
        tubs=tuple(Linked(name=t.name, href=reverse("tubs.show", kwargs={"key": UUID(t.key)})) for t in basket.tubs),
        beds=", ".join(line.beds),
        leaf=_leaf(line),
        plant=", ".join(sorted({str(PLANT_NAMES[tub.plant]) for tub in basket.tubs})),
        steep=_steep(line),
        steep_mark=small.days(basket.steep_h, most_h=most.steep_h) if basket.steep_h else "",
        temp="" if line.tub_temp_c is None else amount(line.tub_temp_c, "temp_c"),
        alkali=", ".join(line.alkalis),
        ph="" if line.ph is None else f"{line.ph:.1f}",
        air=_air(line),
        pigment="" if line.pigment_g is None else _("%(g)s g") % {"g": figure(line.pigment_g)},
        from_leaf=_from_leaf(line.g_per_kg),
        pure=_pure(line),
        gram=_gram(line, costs),
        bar="" if line.g_per_kg is None else small.bar(line.g_per_kg, most=most.g_per_kg, inside=line.pure_g_per_kg),
        purity=_purity(line),
        stage=stage(line),
    )


def _gram(line: Line, costs: Kept | None) -> str:
    one = None if costs is None else costs.of(line.key)
    if one is None or costs is None or costs.answer is None or one.work_h_per_g is None:
        return ""
    cost = of_a_gram(one, costs.answer.inputs, priced=costs.answer.cost_money is not None)
    return _("a gram cost %(cost)s") % {"cost": cost}


def waiting_row(steep: Steep, *, now: datetime, zone: ZoneInfo) -> WaitingRow:
    """A tub in no batch, in words."""
    strains = list(steep.strains.all())
    end = strains[0].strained_at if strains else now
    words = {
        "begun": dated(steep.started_at, zone),
        "leaf": amount(sum(part.leaf_kg for part in steep.leaf.all()), "mass_kg"),
        "plant": PLANT_NAMES[steep.plant],
        "hours": figure(max((end - steep.started_at) / timedelta(hours=1), 0.0)),
    }
    told = (
        _("begun %(begun)s, %(leaf)s of %(plant)s leaf, strained after %(hours)s h")
        if strains
        else _("begun %(begun)s, %(leaf)s of %(plant)s leaf, steeping for %(hours)s h")
    )
    return WaitingRow(name=steep.name, href=reverse("tubs.show", kwargs={"key": steep.pk}), said=told % words)


def dated(time: datetime, zone: ZoneInfo) -> str:
    """`5 Jul 2026`."""
    return day(time.astimezone(zone))


def stage(line: Line) -> str:
    """How far it came, or how it ended."""
    if line.stage == "ended":
        return _("given up: %(why)s") % {"why": line.ended_why or _("no reason written down")}
    if line.stage == "jar":
        return _("in %(jars)s") % {"jars": ", ".join(line.jars)}
    if line.stage == "joined":
        return _("poured into %(batches)s") % {"batches": ", ".join(line.joined)}
    return said_stage(line.stage)


def from_leaf_name() -> str:
    """What the chart shows, with its unit."""
    return _("pigment, g from a pound of leaf") if in_us() else _("pigment, g from a kg of leaf")


def per_leaf_unit() -> str:
    """The unit of a yield, said after its number."""
    return _("g per lb") if in_us() else _("g per kg")


def per_leaf(g_per_kg: float) -> float:
    """Grams from the unit of leaf that the garden goes by."""
    return g_per_kg * of_leaf()[2]


def summary(rows: int, weighed: int, waiting: int) -> str:
    """`15 batches, 9 of them weighed; 3 tubs in no batch`."""
    made = ngettext("%(n)d batch, %(weighed)d weighed", "%(n)d batches, %(weighed)d weighed", rows)
    said = [made % {"n": rows, "weighed": weighed}]
    if waiting:
        said.append(ngettext("%(n)d tub in no batch", "%(n)d tubs in no batch", waiting) % {"n": waiting})
    return "; ".join(said)


def _leaf(line: Line) -> str:
    if not line.basket.leaf_kg:
        return ""
    leaf = amount(line.basket.leaf_kg, "mass_kg")
    return _("about %(leaf)s") % {"leaf": leaf} if line.basket.about else leaf


def _steep(line: Line) -> str:
    hours = sorted(tub.steep_h for tub in line.basket.tubs)
    if not hours:
        return ""
    if hours[-1] - hours[0] < SAME_H:
        return _("%(hours)s h") % {"hours": _whole(hours[0])}
    return _("%(low)s to %(high)s h") % {"low": _whole(hours[0]), "high": _whole(hours[-1])}


def _whole(hours: float) -> str:
    return f"{hours:,.0f}"


def _air(line: Line) -> str:
    if line.aired_min:
        return _("%(n)s min") % {"n": figure(line.aired_min)}
    return ngettext("%(n)d pour", "%(n)d pours", line.aired_pours) % {"n": line.aired_pours} if line.aired_pours else ""


def _from_leaf(g_per_kg: float | None) -> str:
    if g_per_kg is None:
        return ""
    return f"{rough(per_leaf(g_per_kg))} {per_leaf_unit()}"


def _pure(line: Line) -> str:
    pure = line.pure_g_per_kg
    if pure is None:
        return ""
    low, mid, high = (rough(per_leaf(value)) for value in (pure.p5, pure.p50, pure.p95))
    return _("pure blue %(mid)s (%(low)s to %(high)s)") % {"low": low, "mid": mid, "high": high}


def _purity(line: Line) -> str:
    if line.purity_frac is None:
        return ""
    return frac(line.purity_frac) if line.measured else _("%(range)s, reckoned") % {"range": frac(line.purity_frac)}
