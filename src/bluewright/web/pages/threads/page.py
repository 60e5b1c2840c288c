"""What a thread's page shows: each link with its date, its figures and what it came from, in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.charts.colours import hex_of_lab
from bluewright.journal.models import Batch, Bed, Garden, Jar, JarTaken, Picking, Piece, Steep, Vat
from bluewright.journal.queries.jars import left_g, put_in_g
from bluewright.journal.queries.threads import Kind, Link, Row, Thing, Thread
from bluewright.science.colour.hues import hue_of, shade_of
from bluewright.science.colour.spaces import hue_deg_of_lab
from bluewright.words.colour import named
from bluewright.words.numbers import by_scale, moment, sentence

MOST_SWATCHES: Final = 30
OWN_PAGE: Final[dict[Kind, str]] = {
    "bed": "beds.show", "picking": "pickings.show", "tub": "tubs.show", "batch": "batches.show", "jar": "jars.show",
    "vat": "vats.show", "piece": "cloth.show",
}  # fmt: skip
"""Where each kind has its own page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Knot:
    """One thing on the thread."""

    kind: str
    key: str
    name: str
    when: str
    """Empty for what has no date of its own."""
    said: str
    """Its figures in one sentence."""
    came: str
    """What it came straight from, and how much of each; empty where nothing is known."""
    href: str
    here: bool
    """Whether it is the thing that was asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """Things of one kind, oldest first."""

    name: str
    knots: tuple[Knot, ...]
    before: str
    """How many older ones are not told; empty where all are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SwatchLink:
    """A swatch of a jar or a piece on the thread: its colour never without words."""

    name: str
    colour: str
    """As a screen shows it, `#a1b2c3`."""
    said: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadPage:
    """A thread from its beds to its uses."""

    kind: str
    key: str
    name: str
    own_page: str
    """Address of the page of the thing asked for."""
    levels: tuple[Level, ...]
    uses: tuple[str, ...]
    """What was taken out of its jars, each in a sentence."""
    swatches: tuple[SwatchLink, ...]
    """What was dyed with its jars, or is of them or of its pieces; the latest first."""


def thread_page(found: Thread, *, sources: Mapping[Thing, Row], of: Garden) -> ThreadPage:
    """The page of a thread."""
    zone = ZoneInfo(of.time_zone)
    telling = _Telling(found, sources, zone)
    levels = (
        _level(found, "bed", _("Beds"), [telling.bed(row) for row in found.beds]),
        _level(found, "picking", _("Pickings"), [telling.picking(row) for row in found.pickings]),
        _level(found, "tub", _("Tubs"), [telling.tub(row) for row in found.tubs]),
        _level(found, "batch", _("Batches"), [telling.batch(row) for row in found.batches]),
        _level(found, "jar", _("Jars"), [telling.jar(row) for row in found.jars]),
        _level(found, "vat", _("Vats"), [telling.vat(row) for row in found.vats]),
        _level(found, "piece", _("Cloth"), [telling.piece(row) for row in found.pieces]),
    )
    here = next(knot for level in levels for knot in level.knots if knot.here)
    return ThreadPage(
        kind=found.at.kind,
        key=str(found.at.key),
        name=here.name,
        own_page=here.href,
        levels=tuple(level for level in levels if level.knots),
        uses=tuple(_uses(found.jars, zone)),
        swatches=tuple(_swatches([*found.jars, *found.pieces])),
    )


def _level(found: Thread, kind: Kind, name: str, knots: Sequence[Knot]) -> Level:
    more = found.left_out.get(kind, 0)
    before = ngettext("%(n)d older one is left out.", "%(n)d older ones are left out.", more) % {"n": more}
    return Level(name=name, knots=tuple(knots), before=before if more > 0 else "")


class _Telling:
    """Tells the things of one thread by one clock."""

    def __init__(self, found: Thread, sources: Mapping[Thing, Row], zone: ZoneInfo) -> None:
        self.found, self.sources, self.zone = found, sources, zone

    def bed(self, row: Bed) -> Knot:
        area = f", {row.area_typed}" if row.area_typed else ""
        said = f"{row.get_plant_display()}, {row.get_origin_display()}{area}"
        return self._knot(Thing("bed", row.pk), row.name, when=None, said=said)

    def picking(self, row: Picking) -> Knot:
        said = _("%(leaf)s of %(plant)s leaf, %(age)s") % {
            "leaf": row.leaf_typed, "plant": row.get_plant_display(), "age": row.get_age_display(),
        }  # fmt: skip
        name = _("Picking of %(when)s") % {"when": self._moment(row.picked_at)}
        return self._knot(Thing("picking", row.pk), name, when=row.picked_at, said=said)

    def tub(self, row: Steep) -> Knot:
        said = _("%(plant)s in %(water)s of water") % {"plant": row.get_plant_display(), "water": row.water_typed}
        strains = list(row.strains.all())
        if strains:
            told = {"when": self._moment(strains[0].strained_at), "liquor": strains[0].liquor_typed}
            stands = _("strained %(when)s: %(liquor)s") if told["liquor"] else _("strained %(when)s")
            said = f"{said}; {stands % told}"
        else:
            stands = _("still steeping")
            said = f"{said}; {stands}"
        return self._knot(Thing("tub", row.pk), row.name, when=row.started_at, said=said)

    def batch(self, row: Batch) -> Knot:
        aired = [one.get_way_display() for one in row.airings.all()]
        said = _("aired: %(ways)s") % {"ways": ", ".join(dict.fromkeys(reversed(aired)))} if aired else ""
        if row.ended_at is not None:
            told = {"when": self._moment(row.ended_at), "why": row.ended_why}
            over = _("given up %(when)s (%(why)s)") if row.ended_why else _("given up %(when)s")
            said = "; ".join(filter(None, [said, over % told]))
        return self._knot(Thing("batch", row.pk), row.name, when=row.begun_at, said=said)

    def jar(self, row: Jar) -> Knot:
        said = _("%(put_in)s g of dry pigment, %(left)s g left") % {
            "put_in": by_scale(put_in_g(row)), "left": by_scale(max(left_g(row), 0.0)),
        }  # fmt: skip
        return self._knot(Thing("jar", row.pk), row.name, when=row.filled_at, said=said)

    def vat(self, row: Vat) -> Knot:
        said = _("%(kind)s, %(volume)s") % {"kind": row.get_kind_display(), "volume": row.volume_typed}
        if row.ended_at is not None:
            stands = _("emptied %(when)s") % {"when": self._moment(row.ended_at)}
            said = f"{said}; {stands}"
        return self._knot(Thing("vat", row.pk), row.name, when=row.started_at, said=said)

    def piece(self, row: Piece) -> Knot:
        said = f"{row.get_fibre_display()}, {row.mass_typed}"
        if row.finished_at is not None:
            stands = _("finished %(when)s") % {"when": self._moment(row.finished_at)}
            said = f"{said}; {stands}"
        return self._knot(Thing("piece", row.pk), row.name, when=row.begun_at, said=said)

    def _knot(self, thing: Thing, name: str, *, when: datetime | None, said: str) -> Knot:
        return Knot(
            kind=thing.kind,
            key=str(thing.key),
            name=name,
            when="" if when is None else self._moment(when),
            said=sentence(said),
            came=self._came(self.found.from_.get(thing, ())),
            href=reverse(OWN_PAGE[thing.kind], kwargs={"key": thing.key}),
            here=thing == self.found.at,
        )

    def _came(self, links: Iterable[Link]) -> str:
        named = [(self._name(self.sources[link.above]), link) for link in links if link.above in self.sources]
        told = [self._from(link, name) for name, link in sorted(named, key=lambda one: one[0])]
        return sentence(", ".join(told))

    @staticmethod
    def _from(link: Link, name: str) -> str:
        if link.above.kind == "bed":
            return _("from %(name)s") % {"name": name}
        if link.above.kind == link.below.kind == "vat":
            return _("the heel of %(name)s") % {"name": name}
        if link.above.kind == "vat":
            return ngettext("%(n)d dip in %(name)s", "%(n)d dips in %(name)s", link.times) % {
                "n": link.times, "name": name,
            }  # fmt: skip
        if link.typed:
            return _("%(typed)s of %(name)s") % {"typed": link.typed, "name": name}
        return _("all of %(name)s") % {"name": name}

    def _name(self, row: Row) -> str:
        if isinstance(row, Picking):
            return _("the picking of %(when)s") % {"when": self._moment(row.picked_at)}
        return row.name

    def _moment(self, when: datetime) -> str:
        return moment(when.astimezone(self.zone))


def _swatches(of: Sequence[Jar | Piece]) -> Iterable[SwatchLink]:
    rows = {row.pk: row for one in of for row in one.swatches.all()}
    for row in sorted(rows.values(), key=lambda one: one.measured_at, reverse=True)[:MOST_SWATCHES]:
        lab = (row.l_star, row.a_star, row.b_star)
        yield SwatchLink(
            name=row.name,
            colour=hex_of_lab(lab),
            said=_("%(colour)s, h %(hue)s")
            % {
                "colour": named(hue_of(lab), shade_of(lab)),
                "hue": f"{float(hue_deg_of_lab(lab)):.0f}°",
            },
            href=reverse("swatches.show", kwargs={"key": row.pk}),
        )


def _uses(jars: Sequence[Jar], zone: ZoneInfo) -> Iterable[str]:
    taken: list[tuple[Jar, JarTaken]] = [(jar, row) for jar in jars for row in jar.taken.all()]
    for jar, row in sorted(taken, key=lambda one: one[1].taken_at):
        told = {
            "when": moment(row.taken_at.astimezone(zone)), "typed": row.taken_typed, "jar": jar.name,
            "what": row.what_for,
        }  # fmt: skip
        plain, why = _("%(when)s: %(typed)s out of %(jar)s"), _("%(when)s: %(typed)s out of %(jar)s for %(what)s")
        yield (why if row.what_for else plain) % told
