"""Causes, how common each is, and how often each shows which sign: judgements, after the recipes that name the signs.

A number is the chance that the cause alone shows the sign. Several causes show it if any of them does (a noisy or);
nothing but chance shows it with `LEAK`.
"""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Sourced
from bluewright.science.vat.faults_record import Cause, Cure, SignName
from bluewright.science.vat.kinds import VatKind
from bluewright.science.vat.recipe_record import Hazard


def _chance(value: float, source: str, note: str = "") -> Sourced:
    return Sourced(
        value=value, unit="1", source=source, low=max(value - 0.25, 0.0), high=min(value + 0.25, 1.0), grade="guess",
        note=note,
    )  # fmt: skip


BASE_CHANCE: Final[dict[Cause, Sourced]] = {
    "reductant_spent": _chance(0.30, "mairet-1938", "the usual one"),
    "reductant_dead": _chance(0.08, "common-practice", "dithionite of a damp tin"),
    "too_cold": _chance(0.15, "common-practice"),
    "little_alkali": _chance(0.12, "mairet-1938"),
    "much_alkali": _chance(0.10, "mairet-1938"),
    "little_indigo": _chance(0.12, "common-practice"),
    "coarse_powder": _chance(0.10, "mairet-1938"),
    "air_in": _chance(0.12, "common-practice"),
    "over_reduced": _chance(0.06, "mairet-1938"),
    "putrid": _chance(0.06, "engineers-encyclopaedia"),
    "stalled": _chance(0.20, "engineers-encyclopaedia"),
    "sediment_stirred": _chance(0.10, "mairet-1938"),
    "poor_scour": _chance(0.12, "mairet-1938"),
    "too_strong": _chance(0.10, "mairet-1938"),
}
"""How often each is at work in a vat that somebody complains of."""

ONLY_IN: Final[dict[Cause, frozenset[VatKind]]] = {
    "reductant_spent": frozenset({"dithionite", "thiourea_dioxide", "fructose", "iron"}),
    "reductant_dead": frozenset({"dithionite", "thiourea_dioxide", "iron"}),
    "over_reduced": frozenset({"dithionite", "thiourea_dioxide"}),
    "putrid": frozenset({"ferment"}),
    "stalled": frozenset({"ferment"}),
}
"""Kinds of vat in which a cause can be; the others can be in any."""

_MAIRET, _PRACTICE = "mairet-1938", "common-practice"


def _shows(source: str, **signs: float) -> dict[SignName, Sourced]:
    return {sign: _chance(value, source) for sign, value in signs.items()}  # type: ignore[misc]


SHOWS: Final[dict[Cause, dict[SignName, Sourced]]] = {
    "reductant_spent": _shows(
        _MAIRET, liquor_blue=0.85, grains=0.5, no_film=0.6, blues_at_once=0.8, pale=0.5, rubs_off=0.5, streaks=0.2,
        cup_clears=0.9,
    ),
    "reductant_dead": _shows(
        _PRACTICE, liquor_blue=0.9, grains=0.5, no_film=0.7, blues_at_once=0.8, pale=0.5, rubs_off=0.4,
        fresh_tin_clears=0.9, cup_clears=0.15,
    ),
    "too_cold": _shows(
        _PRACTICE, liquor_blue=0.6, grains=0.4, no_film=0.5, pale=0.4, cold=0.95, cup_warm_clears=0.85, cup_clears=0.2
    ),
    "little_alkali": _shows(
        _MAIRET, white_cloud=0.8, liquor_blue=0.25, no_film=0.4, pale=0.45, ph_low=0.92, cup_alkali_clears=0.9
    ),
    "much_alkali": _shows(
        _MAIRET, slimy=0.7, harsh=0.6, ph_high=0.92, pale=0.4, liquor_blue=0.15, stays_yellow=0.15
    ),
    "little_indigo": _shows(_PRACTICE, pale=0.9, no_film=0.7, blues_at_once=0.25),
    "coarse_powder": _shows(_MAIRET, grains=0.85, pale=0.4, streaks=0.25, liquor_blue=0.1, rubs_off=0.25),
    "air_in": _shows(
        _PRACTICE, liquor_blue=0.5, blues_at_once=0.7, streaks=0.4, rubs_off=0.35, cup_clears=0.7, cup_warm_clears=0.3
    ),
    "over_reduced": _shows(_MAIRET, stays_yellow=0.85, gets_paler=0.85, pale=0.5),
    "putrid": _shows("engineers-encyclopaedia", foul=0.95, ph_low=0.6, no_film=0.5, liquor_blue=0.4, pale=0.5),
    "stalled": _shows(
        "engineers-encyclopaedia", lifeless=0.9, liquor_blue=0.8, no_film=0.85, pale=0.6, blues_at_once=0.4
    ),
    "sediment_stirred": _shows(_MAIRET, streaks=0.65, rubs_off=0.6, grains=0.45, harsh=0.15),
    "poor_scour": _shows(_MAIRET, streaks=0.8, rubs_off=0.45, pale=0.2),
    "too_strong": _shows(_MAIRET, rubs_off=0.8, streaks=0.4),
}  # fmt: skip

_LEAKS: Final[dict[SignName, float]] = {
    "liquor_blue": 0.04, "white_cloud": 0.02, "grains": 0.08, "no_film": 0.12, "blues_at_once": 0.05,
    "stays_yellow": 0.05, "pale": 0.10, "gets_paler": 0.03, "streaks": 0.10, "rubs_off": 0.15, "slimy": 0.02,
    "harsh": 0.04, "foul": 0.02, "lifeless": 0.06, "ph_high": 0.04, "ph_low": 0.04, "cold": 0.05,
    "cup_clears": 0.04, "cup_alkali_clears": 0.03, "cup_warm_clears": 0.05, "fresh_tin_clears": 0.01,
}  # fmt: skip
LEAK: Final[dict[SignName, Sourced]] = {
    sign: _chance(value, "bluewright-vat", "though nothing is wrong") for sign, value in _LEAKS.items()
}
"""How often each sign is seen with none of the causes at work."""

SAME_LOOK: Final[tuple[frozenset[SignName], ...]] = (
    frozenset({"liquor_blue", "white_cloud", "no_film", "grains"}),
    frozenset({"pale", "gets_paler", "blues_at_once", "stays_yellow"}),
    frozenset({"streaks", "rubs_off"}),
    frozenset({"slimy", "harsh", "ph_high"}),
)
"""Signs seen with one look, beyond what their causes share: together they weigh less than each by itself."""
ALIKE: Final = Sourced(
    value=0.25, unit="1", source="bluewright-vat", low=0.0, high=0.6, grade="guess",
    note="of m such signs each counts 1 / (1 + 0.25 (m - 1))",
)  # fmt: skip

CURES: Final[dict[Cause, Cure]] = {
    "reductant_spent": "sharpen", "reductant_dead": "fresh_tin", "too_cold": "warm", "little_alkali": "alkali_parts",
    "much_alkali": "sour_gently", "little_indigo": "add_indigo", "coarse_powder": "grind_and_wait",
    "air_in": "still_hands", "over_reduced": "rest_and_scrap", "putrid": "lime_and_rake", "stalled": "feed_and_warm",
    "sediment_stirred": "settle_and_net", "poor_scour": "scour", "too_strong": "weaker_and_longer",
}  # fmt: skip
SOUR_IN: Final[frozenset[VatKind]] = frozenset({"fructose", "ferment"})
"""Kinds in which a little weak acid may bring a pH down; in sulphur vats it never may, and iron's lime would eat it."""
CURE_HAZARDS: Final[dict[Cure, tuple[Hazard, ...]]] = {
    "warm": ("hot_water",), "alkali_parts": ("eyes",), "lime_and_rake": ("eyes", "lime_dust", "foul_air"),
    "feed_and_warm": ("foul_air",), "add_indigo": ("powder_dust",), "sour_gently": ("eyes",),
}  # fmt: skip
"""What could hurt with a cure, whatever the vat; sharpening has the hazards of its reductant beside."""
