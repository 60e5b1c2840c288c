"""Pure blue of a garden's own jars, back to the leaf it came from: the plan and the memory both ask here."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Final
from uuid import UUID

from bluewright.journal.bridge.assays import purity
from bluewright.journal.bridge.jars import jarred_g, leaf_of
from bluewright.journal.bridge.sources import sources
from bluewright.journal.models import Jar, Steep
from bluewright.journal.queries.jars import put_in_g
from bluewright.science.base.errors import InputError
from bluewright.science.media.dry_pigment import MOISTURE_FRAC
from bluewright.science.media.purity import PURITY

LEAST_G_PER_KG: Final = 0.01
MOST_G_PER_KG: Final = 20.0
"""Less or more than that of a kilogram of leaf is a slip, and no figure of one's own."""
JOINED_LOG_SD: Final = 0.25
"""How far the blue of tubs that were joined may lie from their shares of the leaf (judgement)."""
LEAST_LOG_SD: Final = 0.05
WHOLE_FRAC: Final = 0.9
"""A tub of which so much of the leaf is in jars is done."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnJar:
    """A jar's pure blue and the leaf it came from."""

    plant: str
    leaf_kg: float
    pure_g: float
    log_sd: float
    measured: bool
    """Whether its indigo was measured; else what pigment usually holds is taken."""

    @property
    def g_per_kg(self) -> float:
        """Pure blue from a kilogram of leaf."""
        return self.pure_g / self.leaf_kg


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnBlue:
    """Pure blue of one tub, and when it was known."""

    pure_g: float
    log_sd: float
    known_at: datetime


def own_jar(jar: Jar) -> OwnJar | None:
    """A jar's blue from measured purity, dry mass and leaf alone, no prior of the leaf in it; None where it cannot be.

    The jar's batches are whole.
    """
    try:
        plant, leaf_kg = leaf_of(jar)
        known = purity(jar)
    except InputError:
        return None
    dry_g = put_in_g(jar) * (1 - MOISTURE_FRAC.centre)
    if leaf_kg <= 0 or dry_g <= 0:
        return None
    usual = PURITY["unknown"][plant]
    mean, sd = (known.mean_frac, known.sd_frac / known.mean_frac) if known else (usual.centre, usual.spread)
    log_sd = max(math.hypot(sd, jar.scale_sd_g / dry_g), LEAST_LOG_SD)
    found = OwnJar(
        plant=plant, leaf_kg=leaf_kg, pure_g=dry_g * mean, log_sd=min(log_sd, 2.0), measured=known is not None
    )
    return found if LEAST_G_PER_KG < found.g_per_kg < MOST_G_PER_KG else None


def by_tub(jars: Iterable[Jar]) -> dict[UUID, OwnBlue]:
    """Pure blue of every tub whose leaf is all in jars, by the tub's key: a joined batch is shared out by leaf."""
    pure_g, variance, leaf_kg = (
        defaultdict[UUID, float](float),
        defaultdict[UUID, float](float),
        defaultdict[UUID, float](float),
    )
    known_at: dict[UUID, datetime] = {}
    whole_kg: dict[UUID, float] = {}
    for jar in jars:
        found = own_jar(jar)
        if found is None:
            continue
        parts = _leaf_by_tub(jar)
        joined = JOINED_LOG_SD if len(parts) > 1 else 0.0
        for steep, kg in parts:
            mine_g = found.pure_g * kg / found.leaf_kg
            pure_g[steep.pk] += mine_g
            variance[steep.pk] += (mine_g * math.hypot(found.log_sd, joined)) ** 2
            leaf_kg[steep.pk] += kg
            known_at[steep.pk] = max(jar.filled_at, known_at.get(steep.pk, jar.filled_at))
            whole_kg[steep.pk] = sum(part.leaf_kg for part in steep.leaf.all())
    return {
        key: OwnBlue(
            pure_g=grams, log_sd=min(max(math.sqrt(variance[key]) / grams, LEAST_LOG_SD), 2.0), known_at=known_at[key]
        )
        for key, grams in pure_g.items()
        if grams > 0 and leaf_kg[key] >= WHOLE_FRAC * whole_kg[key]
    }


def _leaf_by_tub(jar: Jar) -> list[tuple[Steep, float]]:
    """The tubs whose blue is in a jar, with kilograms of their leaf."""
    found: dict[UUID, tuple[Steep, float]] = {}
    for part in jar.came_from.all():
        share = part.pigment_g / jarred_g(part.batch)
        for source in sources(part.batch):
            steep = source.strain.steep
            kg = share * source.share_frac * sum(one.leaf_kg for one in steep.leaf.all())
            found[steep.pk] = (steep, found.get(steep.pk, (steep, 0.0))[1] + kg)
    return list(found.values())
