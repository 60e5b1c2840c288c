"""From what is wanted to the pure indigo that must be put in: on cloth, drawn, needed, from jars, still to be made.

Purity enters once: where pure indigo becomes a mass of pigment. A yield is grams of *pure* indigo of a kilogram of
leaf, losses of the making included, so that leaf is never divided by a purity.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.media.cloth import WORKING_G_PER_L, dry_kg
from bluewright.science.plan.chain_crop import Learned
from bluewright.science.plan.chain_factors import (
    DEPTHS,
    Scores,
    depth_of,
    fixed_of_drawn,
    fixed_prior,
    in_jars_g,
    reduces,
)
from bluewright.science.plan.chain_record import ClothPlanRecord, ClothWant, OwnFigures, PigmentWant, Vat


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """Pure indigo of one want in draws, each of shape (n,), grams."""

    want: ClothWant | PigmentWant | None
    """The want; None of the vat."""
    by: date | None
    on_cloth_g: Floats
    drawn_g: Floats
    needed_g: Floats
    from_jars_g: Floats
    to_make_g: Floats

    @property
    def kind(self) -> Literal["cloth", "pigment", "vat"]:
        """What it is."""
        if self.want is None:
            return "vat"
        return "cloth" if isinstance(self.want, ClothWant) else "pigment"

    @property
    def name(self) -> str:
        """Its name, empty of the vat."""
        return "" if self.want is None else self.want.name


def own_of(record: ClothPlanRecord) -> OwnFigures:
    """The grower's own figures, or none."""
    return record.own or OwnFigures()


def working_g_per_l(vat: Vat, cloth: Sequence[ClothWant]) -> float:
    """The lowest strength at which is still dyed: as typed, or the low end (-1 sd) of the deepest depth's."""
    if vat.working_g_per_l is not None:
        return vat.working_g_per_l
    deepest = max((depth_of(want) for want in cloth), key=DEPTHS.index)
    return float(WORKING_G_PER_L[deepest].from_z(np.array(-1.0)))


def needs(record: ClothPlanRecord, known: Learned, at: Scores) -> list[Need]:
    """What each want needs, by day, the vat before the first cloth; jars are given out in that order."""
    wants = sorted(record.wants, key=lambda want: (want.by is None, want.by or date.min))
    parts = [_cloth(want, record, at) if isinstance(want, ClothWant) else _pigment(want, at) for want in wants]
    if record.vat is not None and record.cloth:
        first = next(k for k, want in enumerate(wants) if isinstance(want, ClothWant))
        parts.insert(first, _vat(record, at, by=wants[first].by))
    left = in_jars_g(record.jars, known, at)
    for part in parts:
        part.from_jars_g[:] = np.minimum(part.needed_g, left)
        part.to_make_g[:] = part.needed_g - part.from_jars_g
        left = left - part.from_jars_g
    return parts


def vat_short_g(record: ClothPlanRecord, at: Scores, cloth: Sequence[ClothWant]) -> Floats:
    """Pure indigo to put in until the vat stands at its lowest strength, shape (n,)."""
    n = len(at.z["reduces"])
    if record.vat is None:
        return np.zeros(n)
    missing = max(record.vat.vat_l * working_g_per_l(record.vat, cloth) - record.vat.in_it_g, 0.0)
    return missing / reduces(own_of(record), at)


def _cloth(want: ClothWant, record: ClothPlanRecord, at: Scores) -> Need:
    """Fixed = dry fibre * share fixed; drawn = fixed / share fixed of what is drawn; needed = drawn / share reduced."""
    own = own_of(record)
    grams = 1000.0 * dry_kg(want.mass_kg, fibre=want.fibre, basis=want.basis)
    fixed = grams * fixed_prior(want).from_z(at.z["fixed"])
    drawn = fixed / fixed_of_drawn(want.fibre, own, at)
    return _need(want, want.by, fixed=fixed, drawn=drawn, needed=drawn / reduces(own, at))


def _pigment(want: PigmentWant, at: Scores) -> Need:
    """Pure indigo in the powder that is promised."""
    nothing = np.zeros(len(at.z["fixed"]))
    pure = nothing + want.mass_g * (1.0 if want.purity_frac is None else want.purity_frac)
    return _need(want, want.by, fixed=nothing, drawn=nothing, needed=pure)


def _vat(record: ClothPlanRecord, at: Scores, *, by: date | None) -> Need:
    needed = vat_short_g(record, at, record.cloth)
    return _need(None, by, fixed=np.zeros(len(needed)), drawn=needed * reduces(own_of(record), at), needed=needed)


def _need(
    want: ClothWant | PigmentWant | None, by: date | None, *, fixed: Floats, drawn: Floats, needed: Floats
) -> Need:
    return Need(
        want=want, by=by, on_cloth_g=fixed, drawn_g=drawn, needed_g=needed,
        from_jars_g=np.zeros(len(needed)), to_make_g=np.zeros(len(needed)),
    )  # fmt: skip
