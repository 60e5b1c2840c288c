"""A course of dips: what each puts on the cloth, takes off it again, and takes from the vat; its sums are exact.

Each dip: (1) excess reductant takes the share s of the blue on the cloth back into the vat; (2) in the
k-th dip the fibre takes the share 1 - (1 - F(t))^(k^-q) of what it would at equilibrium, less what is still leuco in
it; (3) the cloth carries out W litres a kilogram, of which a share stays, part of it going onto the fibre and part
bluing between the fibres; (4) air turns some of the vat blue; (5) new stock may come in. Then the cloth hangs in air.
Wet cloth brings in as much water as it carries out: the volume stays.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.dyeing.diffusion import Body, outer_frac, uptake_frac
from bluewright.science.dyeing.priors import BLUES_MIN, LIQUOR_IN_YARN_L_PER_KG, SEEN_MM, AfterDip, Run
from bluewright.science.dyeing.scores import Believed
from bluewright.science.dyeing.uptake import equilibrium_g_per_kg, isotherm_g_per_kg, ph_factor, temp_factor
from bluewright.science.media.cloth import Fibre


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How it is dyed."""

    fibre: Fibre
    body: Body
    thickness_mm: float
    """Of a yarn or ball from side to side, of felt through it."""
    dry_kg: float
    bath_l: float
    dip_min: float
    air_min: float
    temp_c: float
    ph: float
    after_dip: AfterDip
    run: Run
    refill_g: float
    """Reduced indigo that is put in after each dip."""

    @property
    def inner_radius_frac(self) -> float:
        """How far out the part begins that is seen."""
        return max(0.0, 1.0 - 2.0 * SEEN_MM.value / self.thickness_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """After each dip: on the cloth in g/kg, elsewhere in grams; shape (n, dips)."""

    sorbed_g_per_kg: Floats
    """On the fibre."""
    loose_g_per_kg: Floats
    """Blue between the fibres."""
    outside_g_per_kg: Floats
    """What stands where the light goes, loose and on the fibre, as if the whole cloth held as much."""
    active_g_per_l: Floats
    """Reduced indigo in the vat."""
    turned_g: Floats
    """Turned blue in the vat, since the beginning."""
    dripped_g: Floats
    """Dripped or rinsed off the cloth, since the beginning."""
    refilled_g: Floats
    """Put in, since the beginning."""
    fourier: Floats
    """D t / r^2 of a dip, shape (n,)."""


@dataclass(slots=True)
class _State:
    """Where the indigo is between two dips, shape (n,): cloth in g/kg, vat and floor in grams."""

    sorbed: Floats
    loose: Floats
    outside: Floats
    leuco: Floats
    active: Floats
    turned: Floats
    dripped: Floats


def course(active_g_per_l: Floats, held: Believed, *, way: Way, dips: int) -> Course:
    """The cloth and the vat after each of so many dips, begun at a strength of shape (n,)."""
    affinity = held.affinity_l_per_kg * temp_factor(way.temp_c, fibre=way.fibre)
    affinity = affinity * ph_factor(way.ph, fibre=way.fibre) ** held.ph_weight
    got, ring, fourier = _reach(active_g_per_l, affinity, held, way)
    zero = np.zeros_like(active_g_per_l)
    state = _State(
        sorbed=zero, loose=zero, outside=zero, leuco=zero, active=active_g_per_l * way.bath_l, turned=zero, dripped=zero
    )
    rows = []
    for number in range(1, dips + 1):
        reached = 1.0 - (1.0 - got) ** (number**-held.later_power)
        state = _dip(state, affinity, reached, ring, held, way)
        rows.append(state)
    kept = {name: np.stack([getattr(row, name) for row in rows], axis=1) for name in _State.__slots__}
    return Course(
        sorbed_g_per_kg=kept["sorbed"], loose_g_per_kg=kept["loose"], outside_g_per_kg=kept["outside"],
        active_g_per_l=kept["active"] / way.bath_l, turned_g=kept["turned"], dripped_g=kept["dripped"],
        refilled_g=np.broadcast_to(way.refill_g * np.arange(1, dips + 1), kept["active"].shape), fourier=fourier,
    )  # fmt: skip


def _reach(c: Floats, affinity: Floats, held: Believed, way: Way) -> tuple[Floats, Floats, Floats]:
    """Share of equilibrium that a dip gets to, how much more of it stands outside than in the mean, and D t / r^2.

    Dye that fibre likes is held up on its way in: D = pore * liquor / (liquor + affinity), liquor that in the yarn.
    """
    inside = LIQUOR_IN_YARN_L_PER_KG.value
    pull = isotherm_g_per_kg(c, affinity_l_per_kg=affinity, exponent=held.exponent, fibre=way.fibre) / c
    slowed = held.pore_m2_per_s * inside / (inside + pull)
    radius_m = way.thickness_mm / 2000.0
    fourier = slowed * way.dip_min * 60.0 / radius_m**2
    got = uptake_frac(fourier, body=way.body)
    ring = outer_frac(fourier, inner_radius_frac=way.inner_radius_frac, body=way.body) / got
    return got, ring, fourier


def _dip(before: _State, affinity: Floats, got: Floats, ring: Floats, held: Believed, way: Way) -> _State:
    """One dip and the air after it."""
    stay = 1.0 - held.strip_frac
    back_g = way.dry_kg * held.strip_frac * (before.sorbed + before.loose)
    active = before.active + back_g
    whole = equilibrium_g_per_kg(
        active / way.bath_l, affinity_l_per_kg=affinity, exponent=held.exponent,
        liquor_l_per_kg=way.bath_l / way.dry_kg, fibre=way.fibre,
    )  # fmt: skip
    taken = got * np.maximum(whole - before.leuco * stay, 0.0)
    active = active - way.dry_kg * taken
    out_l = np.minimum(way.dry_kg * held.pickup_l_per_kg, way.bath_l)
    carried = active / way.bath_l * out_l / way.dry_kg
    active = active - way.dry_kg * carried
    stays = held.kept_frac * carried
    loose_more, sunk = held.loose_frac * stays, (1.0 - held.loose_frac) * stays
    turned = held.oxidised_frac * active
    added = taken + sunk
    return _State(
        sorbed=stay * before.sorbed + added,
        loose=stay * before.loose + loose_more,
        outside=stay * before.outside + ring * taken + sunk + loose_more,
        leuco=(stay * before.leuco + added) * math.exp(-way.air_min / BLUES_MIN.value),
        active=active - turned + way.refill_g,
        turned=before.turned + turned,
        dripped=before.dripped + way.dry_kg * (carried - stays),
    )
