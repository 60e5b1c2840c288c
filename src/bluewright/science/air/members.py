"""The ensemble: each member is one batch that could be this one, made of standard-normal scores, one column a cause."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.air import priors
from bluewright.science.air.demand import indigo_g_per_l, indoxyl_demand_mg_per_l, other_demand_mg_per_l
from bluewright.science.air.oxidation import Batch, State, step
from bluewright.science.air.record import AirRecord, Bubble, Pour
from bluewright.science.air.transfer import (
    BUBBLES,
    MOST_LOG_RATIO,
    POURS,
    Bubbling,
    Pouring,
    at_temperature_per_h,
    dealt,
    efficiency_frac,
)
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.oxygen import OXYGEN_G_PER_MOL, saturation_mmol_per_l
from bluewright.science.media.stoichiometry import oxygen_mg
from bluewright.science.media.tub import surface_m2

CAUSES: Final = (
    "indigo", "peroxide", "other", "other_speed", "start_oxygen", "rate", "rate_slope", "ph",
    "rival", "soapy", "bucket", "uptake", "height", "lip", "flow", "pace",
    "probe_gain", "probe_zero", "foam_eye", "liquor_eye", "dye_gain", "dye_base", "dye_fade",
)  # fmt: skip
"""What differs from member to member; the position is the column of the score matrix."""

Score = Callable[[str], Floats]


def scores(z: Floats) -> Score:
    """The column of `z` (n, len(CAUSES)) by the name of its cause."""
    return lambda cause: z[:, CAUSES.index(cause)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Members:
    """The ensemble in physical terms; arrays have shape (n,)."""

    batch: Batch
    start: State
    done_h: Floats
    """Hours aired so far (differs from member to member when only pours were counted)."""
    pours_per_h: Floats
    """Pours in an hour; not a number of interest for the other ways, then 0."""
    efficiency_frac: Floats
    """Share of the missing oxygen that one pour puts in; 0 for the other ways."""
    indigo_g_per_l: Floats
    """Indigo that a litre gives in the end."""
    demand_factor: Floats
    """Oxygen wanted over what the indigo alone needs."""
    demand_mg_per_l: Floats
    rate_at_7_l_per_mmol_h: Floats
    """Rate constant at pH 7 and the liquor's temperature."""
    rate_slope_per_ph: Floats
    ph_offset_ph: Floats
    """True pH minus what was read (or the whole spread, where none was read)."""


def members(record: AirRecord, z: Floats) -> Members:
    """The ensemble of `record` at the scores `z`, shape (n, len(CAUSES))."""
    at = scores(z)
    indigo = indigo_g_per_l(record, z=at("indigo"))
    indoxyl = indoxyl_demand_mg_per_l(indigo, peroxide_frac=priors.PEROXIDE_FRAC.from_z(at("peroxide")))
    other = other_demand_mg_per_l(indigo, factor=priors.OTHER_DEMAND_FACTOR.from_z(at("other")))
    if record.learned.demand_factor is not None:
        total = _learned(record.learned.demand_factor, record.learned.demand_sd_frac, at("other"))
        other = np.maximum(oxygen_mg(1.0) * indigo * total - indoxyl, 0.0)
    kla_per_h, pours_per_h, gain_frac = transfer(record, at)
    saturation = saturation_mmol_per_l(
        record.temp_c, pressure_kpa=record.pressure_kpa, salinity_g_per_kg=record.salinity_g_per_kg
    )
    shape = at("rate").shape
    warmth = priors.RATE_Q10.value ** ((record.temp_c - 25.0) / 10.0)
    spread = record.ph_sd if _has_ph(record) else priors.PH_UNKNOWN.spread
    done_h = np.full(shape, (record.done_min or 0.0) / 60.0)
    if record.done_min is None and record.done_pours:
        done_h = record.done_pours / pours_per_h
    return Members(
        batch=Batch(
            indoxyl_mmol_per_l=indoxyl / OXYGEN_G_PER_MOL.value,
            other_mmol_per_l=other / OXYGEN_G_PER_MOL.value,
            other_speed_factor=priors.OTHER_SPEED_FACTOR.from_z(at("other_speed")),
            kla_per_h=kla_per_h,
            saturation_mmol_per_l=saturation,
        ),
        start=State(
            exposure=np.zeros(shape),
            oxygen_mmol_per_l=saturation * priors.START_OXYGEN_FRAC.from_z(at("start_oxygen")),
        ),
        done_h=done_h,
        pours_per_h=pours_per_h,
        efficiency_frac=gain_frac,
        indigo_g_per_l=indigo,
        demand_factor=(indoxyl + other) / (oxygen_mg(1.0) * indigo),
        demand_mg_per_l=indoxyl + other,
        rate_at_7_l_per_mmol_h=warmth * priors.RATE_L_PER_MMOL_H.from_z(at("rate")),
        rate_slope_per_ph=priors.RATE_SLOPE_PER_PH.from_z(at("rate_slope")),
        ph_offset_ph=spread * at("ph"),
    )


def _learned(mean: float, spread_frac: float, z: Floats) -> Floats:
    return np.asarray(mean * np.exp(spread_frac * z))


# --- transfer, by the way of airing --------------------------------------------------------------------------------


def transfer(record: AirRecord, at: Score) -> tuple[Floats, Floats, Floats]:
    """kLa (1/h), pours in an hour and gain of one pour (both 0 unless poured), each (n,)."""
    none = np.zeros_like(at("bucket"))
    pours_per_h, gain_frac = none, none
    if record.pour is not None:
        pours_per_h, gain_frac, share = _poured(record, record.pour, at)
        kla = pours_per_h * gain_frac * share
    elif record.bubble is not None:
        kla = _bubbled(record, record.bubble, at)
    else:
        tool = record.whisk.tool if record.whisk is not None else "paddle"
        smaller = (priors.STIRRED_L / record.liquor_l) ** priors.STIRRED_EXPONENT.value
        kla = at_temperature_per_h(smaller * priors.KLA_PER_H[tool].from_z(at("bucket")), temp_c=record.temp_c)
    if record.learned.kla_per_h is not None:
        learned = _learned(record.learned.kla_per_h, record.learned.kla_sd_frac, at("bucket"))
        if record.pour is None:
            return learned, pours_per_h, gain_frac
        kla, gain_frac = _learned_by_pouring(learned, kla / gain_frac)
    return kla, pours_per_h, gain_frac


def _learned_by_pouring(learned_per_h: Floats, most_per_h: Floats) -> tuple[Floats, Floats]:
    """A taught kLa and the gain of one pour that it means: no pour puts in more than all that is missing.

    Raises InputError where even such pours, at this pace, could not bring what was taught.
    """
    if np.median(learned_per_h) > np.median(most_per_h):
        raise InputError(
            where="learned.kla_per_h",
            what=f"{np.median(learned_per_h):.2g} an hour is more than pours at this pace can bring",
            right=f"less than {np.median(most_per_h):.3g}; was it learned with another way, volume or pace?",
        )
    kla = np.minimum(learned_per_h, most_per_h)
    return kla, kla / most_per_h


def vessel_area_m2(record: AirRecord) -> float:
    """Surface of the liquor: from the vessel's width, or of a vessel that is as deep as wide."""
    return surface_m2(record.liquor_l, diameter_m=record.vessel_diameter_m)


def _typed(value: float | None, prior: Prior, z: Floats) -> Floats:
    """A typed figure with its small error, or the prior."""
    return prior.from_z(z) if value is None else np.asarray(value * np.exp(priors.MEASURED_SPREAD * z))


def pouring(record: AirRecord, pour: Pour, at: Score) -> Pouring:
    """One fall of this record's liquor, per member."""
    poured_l = poured_each_l(record, pour)
    typed_flow = poured_l / pour.pour_s if pour.pour_s is not None else pour.flow_l_per_s
    flow = _typed(typed_flow, priors.FLOW_L_PER_S, at("flow"))
    depth_m = record.liquor_l / 1000.0 / vessel_area_m2(record)
    return Pouring(
        height_m=_typed(pour.height_m, priors.HEIGHT_M, at("height")),
        flow_m3_per_m_h=3.6 * flow / _typed(pour.lip_width_m, priors.LIP_WIDTH_M, at("lip")),
        # The vessel fills while it is poured into: on average half of what is poured is not there yet.
        pool_m=np.full_like(flow, depth_m * (1.0 - 0.5 * poured_l / record.liquor_l)),
        temp_c=record.temp_c,
        pollution_factor=priors.POLLUTION_FACTOR.from_z(at("soapy")),
        soapy_frac=priors.SOAPY_FRAC.from_z(at("soapy")),
    )


def poured_each_l(record: AirRecord, pour: Pour) -> float:
    """Litres poured each time."""
    return pour.pour_l or (record.liquor_l if record.liquor_l <= priors.LIFTED_L else priors.JUG_L)


def _poured(record: AirRecord, pour: Pour, at: Score) -> tuple[Floats, Floats, float]:
    """Pours in an hour, gain of one pour, and the share of the liquor that one pour moves."""
    fall = pouring(record, pour, at)
    # The bucket's own departure from a weir acts on the logarithm of the ratio, so that a gain stays below 1.
    weir = np.log(dealt(POURS, fall, z=at("rival")))
    fallen = np.minimum(weir * priors.BUCKET_FACTOR.from_z(at("bucket")), MOST_LOG_RATIO)
    gain_frac = efficiency_frac(np.exp(fallen))
    poured_l = poured_each_l(record, pour)
    if record.done_min and record.done_pours:
        pours_per_h = np.full_like(gain_frac, 60.0 * record.done_pours / record.done_min)
    elif pour.pours_per_min is not None:
        pours_per_h = 60.0 * _typed(pour.pours_per_min, priors.BETWEEN_POURS_S, at("pace"))
    else:
        typed_flow = poured_l / pour.pour_s if pour.pour_s is not None else pour.flow_l_per_s
        running_s = poured_l / _typed(typed_flow, priors.FLOW_L_PER_S, at("flow"))
        pours_per_h = 3600.0 / (running_s + priors.BETWEEN_POURS_S.from_z(at("pace")))
    return pours_per_h, gain_frac, poured_l / record.liquor_l


def bubbling(record: AirRecord, bubble: Bubble, at: Score) -> Bubbling:
    """This record's bubbling, per member."""
    area_m2 = vessel_area_m2(record)
    return Bubbling(
        air_l_per_min=bubble.air_l_per_min,
        liquor_l=record.liquor_l,
        area_m2=area_m2,
        depth_m=bubble.depth_m or priors.STONE_FRAC * record.liquor_l / 1000.0 / area_m2,
        uptake_per_m_frac=priors.UPTAKE_PER_M_FRAC[bubble.bubbles].from_z(at("uptake")),
    )


def _bubbled(record: AirRecord, bubble: Bubble, at: Score) -> Floats:
    clean = dealt(BUBBLES, bubbling(record, bubble, at), z=at("rival"))
    made = clean * priors.SOAPY_FRAC.from_z(at("soapy")) * priors.BUCKET_FACTOR.from_z(at("bucket"))
    return at_temperature_per_h(made, temp_c=record.temp_c)


# --- pH and the course so far --------------------------------------------------------------------------------------


def _has_ph(record: AirRecord) -> bool:
    return record.ph is not None or any(r.ph is not None for r in record.readings)


def ph_read(record: AirRecord, session_frac: Floats | float) -> Floats:
    """pH at parts of the session so far: straight lines between readings, level beyond them; 9.5 if none was read."""
    points = [(0.0, record.ph)] if record.ph is not None else []
    points += [(record.session_frac(r), r.ph) for r in record.readings if r.ph is not None]
    if not points:
        return np.full_like(np.asarray(session_frac, dtype=float), priors.PH_UNKNOWN.centre)
    return np.asarray(np.interp(session_frac, [p[0] for p in points], [p[1] for p in points]))


def rate_l_per_mmol_h(group: Members, read_ph: float) -> Floats:
    """Rate constant of each member where the pH reads `read_ph`.

    Formula: k7(T) * 10^(slope (pH - 7)), the pH counted up to 11. Shapes (n,).
    """
    true_ph = np.minimum(read_ph + group.ph_offset_ph, priors.RATE_PH_TOP)
    return np.asarray(group.rate_at_7_l_per_mmol_h * 10.0 ** (group.rate_slope_per_ph * (true_ph - 7.0)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """The race so far: parts of the session (m+1,), exposure and oxygen there (m+1, n), and the state now."""

    session_frac: Floats
    exposure: Floats
    oxygen_mmol_per_l: Floats
    now: State

    def row(self, session_frac: float) -> int:
        """The row of a moment of the session."""
        return int(np.argmin(np.abs(self.session_frac - session_frac)))


def course(record: AirRecord, group: Members, *, steps: int = 24) -> Course:
    """The race from the start until now, with a row at the moment of every reading.

    `steps` rows are spread so that the first are close together, where most happens.
    """
    if not np.any(group.done_h > 0):
        alone = np.ones(1)
        return Course(
            session_frac=alone,
            exposure=group.start.exposure[None],
            oxygen_mmol_per_l=group.start.oxygen_mmol_per_l[None],
            now=group.start,
        )
    grid = np.linspace(0.0, 1.0, steps + 1) ** 1.5
    grid = np.unique(np.concatenate([grid, [record.session_frac(r) for r in record.readings]]))
    middles = ph_read(record, 0.5 * (grid[1:] + grid[:-1]))
    state, states = group.start, [group.start]
    rate, last_ph = rate_l_per_mmol_h(group, middles[0]), middles[0]
    for part, ph in zip(np.diff(grid), middles, strict=True):
        if ph != last_ph:
            rate, last_ph = rate_l_per_mmol_h(group, ph), ph
        state = step(group.batch, state, rate_l_per_mmol_h=rate, dt_h=part * group.done_h)
        states.append(state)
    return Course(
        session_frac=grid,
        exposure=np.stack([s.exposure for s in states]),
        oxygen_mmol_per_l=np.stack([s.oxygen_mmol_per_l for s in states]),
        now=state,
    )
