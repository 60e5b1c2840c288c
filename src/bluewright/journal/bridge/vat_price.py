"""What went into vats, and what a gram of their blue cost: by their jars, and by the vats whose heels were poured in.

A heel carries what its blue cost in the vat that it came out of, and its share, by pure indigo, of what went into that
vat beside powder: whoever dyes in the second vat bears what the first one left. What a vat held before its book began
has no price and counts as the rest of its blue.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from uuid import UUID
from zoneinfo import ZoneInfo

from bluewright.journal.bridge import costs
from bluewright.journal.bridge.vats import addition_record
from bluewright.journal.models import Garden, JarFrom, Vat, VatAddition
from bluewright.journal.queries import vats
from bluewright.science.base.bands import Band
from bluewright.science.media.dry_pigment import MOISTURE_FRAC
from bluewright.science.media.purity import PURITY


@dataclass(frozen=True, slots=True, kw_only=True)
class WentIn:
    """What a vat holds beside its powder, and what its blue cost."""

    blue_money_per_g: Band | None = None
    """Of pure blue; None where none of it has a price."""
    used_g: Mapping[str, float] = field(default_factory=dict)
    """Each kind of thing beside powder, with what heels carried."""


def went_in(of: Garden, keys: Collection[UUID]) -> dict[UUID, WentIn]:
    """Of each of these vats."""
    story = vats.with_sources(of, keys)
    told = _Told(story, _jar_prices(of, story))
    return {key: told.of(key) for key in keys}


class _Told:
    """Vats one after the other, each once; a heel that went in a circle is followed no further."""

    def __init__(self, story: Mapping[UUID, Vat], jar_prices: Mapping[UUID, Band]) -> None:
        self._story, self._jar_prices = story, jar_prices
        self._known: dict[UUID, WentIn] = {}

    def of(self, key: UUID) -> WentIn:
        if key in self._known or key not in self._story:
            return self._known.get(key, WentIn())
        self._known[key] = WentIn()
        vat, used_g, priced = self._story[key], defaultdict[str, float](float), list[tuple[float, Band]]()
        for added in vat.additions.all():
            price = None if added.taken is None else self._jar_prices.get(added.taken.jar_id)
            if added.what != "powder":
                used_g[added.what] += added.mass_g
            elif price is not None:
                priced.append((pure_g(added), price))
        for heel in vat.poured.all():
            source = None if heel.source_id is None else self._story.get(heel.source_id)
            if source is None or heel.pure_g <= 0:
                continue
            told, share = self.of(source.pk), min(heel.pure_g / max(put_in_g(source), heel.pure_g), 1.0)
            for what, grams in told.used_g.items():
                used_g[what] += share * grams
            if told.blue_money_per_g is not None:
                priced.append((heel.pure_g, told.blue_money_per_g))
        self._known[key] = WentIn(blue_money_per_g=mixed(priced), used_g=used_g)
        return self._known[key]


def put_in_g(vat: Vat) -> float:
    """Pure indigo that went into a vat of `queries.vats` in all, in the middle of what is believed."""
    powder_g = sum(pure_g(added) for added in vat.additions.all() if added.what == "powder")
    return powder_g + vat.heel_g + sum(heel.pure_g for heel in vat.poured.all())


def pure_g(added: VatAddition) -> float:
    """Pure indigo in powder that was added, in the middle: by its purity, else by plant and making."""
    told = addition_record(added, ZoneInfo(added.vat.garden.time_zone))
    share = PURITY[told.make][told.plant].centre if told.purity is None else told.purity.mean_frac
    return told.mass_g * (1.0 - MOISTURE_FRAC.centre) * share


def mixed(rows: list[tuple[float, Band]]) -> Band | None:
    """The price of a mixture: each part by its grams; None without any."""
    whole = sum(grams for grams, _band in rows)
    if whole <= 0:
        return None
    p5, p50, p95 = (sum(grams * getattr(band, name) for grams, band in rows) / whole for name in ("p5", "p50", "p95"))
    return Band(p5=p5, p50=p50, p95=p95)


def _jar_prices(of: Garden, story: Mapping[UUID, Vat]) -> dict[UUID, Band]:
    """By jar: what a gram of pure blue of its batches cost; without jars of which no batch has a price."""
    jars = {added.taken.jar_id for vat in story.values() for added in vat.additions.all() if added.taken is not None}
    parts = list(JarFrom.objects.filter(jar__in=jars, batch__deleted_at=None).select_related("batch"))
    zone = ZoneInfo(of.time_zone)
    known: dict[UUID, Band] = {}
    for year in {part.batch.begun_at.astimezone(zone).year for part in parts}:
        season = costs.season(of, (datetime(year, 1, 1, tzinfo=zone), datetime(year + 1, 1, 1, tzinfo=zone)))
        if season is not None:
            told = {one.id: one.cost_money_per_g for one in costs.reckoned(season.record).batches}
            known |= {UUID(key): band for key, name in season.names.items() if (band := told.get(name)) is not None}
    prices = {
        jar: mixed([(p.pigment_g, known[p.batch_id]) for p in parts if p.jar_id == jar and p.batch_id in known])
        for jar in jars
    }
    return {jar: band for jar, band in prices.items() if band is not None}
