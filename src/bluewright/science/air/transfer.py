"""How fast each way of airing brings oxygen in: rival formulas, each with the range it was studied over.

Where two formulas exist for a way, members of the ensemble are dealt to them evenly, so that their disagreement is
part of the answer's range. Nothing here was measured in a tub of liquor: `BUCKET_FACTOR` widens all of them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from statistics import NormalDist
from typing import Final, Generic, TypeVar

import numpy as np

from bluewright.science.air.priors import WARMTH_FACTOR
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.base.validity import Studied
from bluewright.science.media.oxygen import saturation_mg_per_l

MOST_LOG_RATIO: Final = 40.0
"""A fall with a deficit ratio of e^40 leaves nothing missing, to the last digit; beyond, numbers would overflow."""

T = TypeVar("T")
Formula = Callable[[T], Floats]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pouring:
    """One fall of the liquor, shapes (n,) or scalars."""

    height_m: Floats
    """From lip to surface."""
    flow_m3_per_m_h: Floats
    """Flow for each metre of lip."""
    pool_m: Floats
    """Depth of the liquor that it falls into."""
    temp_c: float
    pollution_factor: Floats
    """Gameson's water quality."""
    soapy_frac: Floats
    """Transfer into liquor over transfer into clean water."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bubbling:
    """Air blown into a vessel, shapes (n,) or scalars."""

    air_l_per_min: float
    liquor_l: float
    area_m2: float
    """Cross-section of the vessel."""
    depth_m: float
    """How deep the air comes in."""
    uptake_per_m_frac: Floats
    """Share of the oxygen that is taken up for each metre of depth, clean water."""

    @property
    def speed_m_per_s(self) -> float:
        """Air flow over the cross-section."""
        return self.air_l_per_min / 60_000.0 / self.area_m2


@dataclass(frozen=True, slots=True, kw_only=True)
class Rival(Generic[T]):
    """One formula among several for the same thing: who, what it was studied over, and the formula."""

    source: str
    studied: Mapping[str, Studied]
    """Ranges by the name of the input field."""
    formula: Formula[T]

    def outside(self, given: T) -> list[str]:
        """Names of the inputs whose median lies outside what was studied."""
        return [name for name, range_ in self.studied.items() if not range_.holds(np.median(getattr(given, name)))]


# --- pouring: share of the missing oxygen that one fall puts in ----------------------------------------------------

GAMESON: Final = {
    "slope": Sourced(value=0.38, unit="1/m", source="gameson-weirs", low=0.34, high=0.45, grade="measured"),
    "bend": Sourced(value=0.11, unit="1/m", source="gameson-weirs", low=0.11, high=0.11, grade="measured"),
    "warmth": Sourced(value=0.046, unit="1/C", source="gameson-weirs", low=0.046, high=0.046, grade="measured"),
}
NAKASONE: Final = {
    "constant": Sourced(value=0.0675, unit="1", source="nakasone-1987", low=0.0675, high=0.0785, grade="measured"),
    "height": Sourced(value=1.28, unit="1", source="nakasone-1987", low=1.28, high=1.31, grade="measured"),
    "flow": Sourced(value=0.62, unit="1", source="nakasone-1987", low=0.428, high=0.62, grade="measured"),
    "pool": Sourced(value=0.439, unit="1", source="nakasone-1987", low=0.31, high=0.439, grade="measured"),
    "warmth": Sourced(value=0.02, unit="1/C", source="nakasone-1987", low=0.015, high=0.025, grade="measured"),
}


def gameson_ratio(pouring: Pouring) -> Floats:
    """Oxygen deficit above a fall over the deficit below it (1: nothing was gained).

    Formula: r = 1 + 0.38 a b h (1 - 0.11 h)(1 + 0.046 T), a the quality of the water, b = 1 for a free fall.
    Source: Gameson's weir formula as carried in water-quality models (Delft3D's reaeration at structures).
    """
    h = pouring.height_m
    warmth = 1.0 + GAMESON["warmth"].value * pouring.temp_c
    return 1.0 + GAMESON["slope"].value * pouring.pollution_factor * h * (1.0 - GAMESON["bend"].value * h) * warmth


def nakasone_ratio(pouring: Pouring) -> Floats:
    """Oxygen deficit above a fall over the deficit below it (1: nothing was gained).

    Formula: ln r = 0.0675 D^1.28 q^0.62 H^0.439 (1 + 0.02 (T - 20)), times alpha for liquor; D m, q m3/m/h, H m.
    Source: Nakasone's weir formula as carried in water-quality models (Delft3D's reaeration at structures).
    """
    clean = (
        NAKASONE["constant"].value
        * pouring.height_m ** NAKASONE["height"].value
        * pouring.flow_m3_per_m_h ** NAKASONE["flow"].value
        * pouring.pool_m ** NAKASONE["pool"].value
    )
    warmth = 1.0 + NAKASONE["warmth"].value * (pouring.temp_c - 20.0)
    return np.asarray(np.exp(np.minimum(clean * warmth * pouring.soapy_frac, MOST_LOG_RATIO)))


POURS: Final[dict[str, Rival[Pouring]]] = {
    "gameson": Rival(
        source="gameson-weirs",
        studied={
            "height_m": Studied(low=0.1, high=4.0, unit="m", source="gameson-weirs"),
            "temp_c": Studied(low=0.0, high=40.0, unit="C", source="gameson-weirs"),
        },
        formula=gameson_ratio,
    ),
    "nakasone": Rival(
        source="nakasone-1987",
        studied={
            "height_m": Studied(low=0.1, high=1.2, unit="m", source="nakasone-1987"),
            "flow_m3_per_m_h": Studied(low=10.0, high=235.0, unit="m3/m/h", source="nakasone-1987"),
            "temp_c": Studied(low=0.0, high=40.0, unit="C", source="nakasone-1987"),
        },
        formula=nakasone_ratio,
    ),
}


def efficiency_frac(deficit_factor: Floats) -> Floats:
    """Share of the missing oxygen that one fall puts in, from its deficit ratio: 1 - 1/r."""
    return np.asarray(1.0 - 1.0 / deficit_factor)


# --- bubbling ------------------------------------------------------------------------------------------------------

COLUMN: Final = {
    "constant": Sourced(value=0.32, unit="1/s", source="heijnen-vantriet-1984", low=0.2, high=0.5, grade="memory"),
    "exponent": Sourced(value=0.7, unit="1", source="heijnen-vantriet-1984", low=0.65, high=0.8, grade="memory"),
}
AIR_OXYGEN_MG_PER_L: Final = Sourced(
    value=279.0, unit="mg/L", source="iso-2533", low=270.0, high=285.0, grade="exact",
    note="oxygen in a litre of dry air at 20 C and 101.3 kPa: 0.2095 P M / (R T)",
)  # fmt: skip


def column_per_h(bubbling: Bubbling) -> Floats:
    """kLa of bubbling in clean water at 20 C, 1/h.

    Formula: 3600 * 0.32 * vs^0.7, vs the air flow over the cross-section, m/s.
    Source: Heijnen & van 't Riet 1984, Chem. Eng. J. 28, B21 (bubble columns, coalescing bubbles; from memory).
    """
    return np.asarray(3600.0 * COLUMN["constant"].value * bubbling.speed_m_per_s ** COLUMN["exponent"].value)


def uptake_per_h(bubbling: Bubbling) -> Floats:
    """kLa of bubbling in clean water at 20 C, 1/h, from the share of oxygen taken up for each metre of depth.

    Formula: e * depth * 279 mg/L * 60 Q / (V * 9.09 mg/L), and never more than all of it.
    Source: transfer efficiencies of diffusers, about 8 % a metre for fine bubbles (`UPTAKE_PER_M_FRAC`).
    """
    taken_frac = np.minimum(bubbling.uptake_per_m_frac * bubbling.depth_m, 1.0)
    supply_mg_per_h = AIR_OXYGEN_MG_PER_L.value * 60.0 * bubbling.air_l_per_min
    return np.asarray(taken_frac * supply_mg_per_h / (bubbling.liquor_l * saturation_mg_per_l(20.0)))


BUBBLES: Final[dict[str, Rival[Bubbling]]] = {
    "column": Rival(
        source="heijnen-vantriet-1984",
        studied={"speed_m_per_s": Studied(low=0.01, high=0.3, unit="m/s", source="heijnen-vantriet-1984")},
        formula=column_per_h,
    ),
    "uptake": Rival(
        source="diffuser-efficiency",
        studied={"depth_m": Studied(low=0.2, high=6.0, unit="m", source="diffuser-efficiency")},
        formula=uptake_per_h,
    ),
}


# --- rivals dealt out ----------------------------------------------------------------------------------------------


def dealt(rivals: Mapping[str, Rival[T]], given: T, *, z: Floats) -> Floats:
    """Each member's value by its own rival: the scores `z` (n,) are cut into as many equal parts as rivals exist."""
    cuts = [NormalDist().inv_cdf(part / len(rivals)) for part in range(1, len(rivals))]
    which = np.searchsorted(cuts, z)
    values = [np.broadcast_to(rival.formula(given), z.shape) for rival in rivals.values()]
    return np.asarray(np.choose(which, values), dtype=float)


def at_temperature_per_h(kla_per_h: Floats, *, temp_c: float) -> Floats:
    """kLa at `temp_c` from kLa at 20 C: times 1.024 for each degree. Source: ASCE/EWRI 2-06 (from memory)."""
    return np.asarray(kla_per_h * WARMTH_FACTOR.value ** (temp_c - 20.0))
