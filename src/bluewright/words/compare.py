"""Words that trials and many batches share: what is measured, and how a ratio is said."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.learn.design_record import Differs, Equal
from bluewright.science.learn.trial_answer import Belief
from bluewright.science.learn.trial_record import Assigned, Outcome
from bluewright.words.fields import value_said
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import figure, ranged

OUTCOMES: Final[dict[Outcome, str]] = {
    "pure_blue": marked("pure blue from a kilogram of leaf"), "powder": marked("dry powder from a kilogram of leaf"),
    "purity": marked("indigo in the powder"), "depth": marked("depth of a test swatch"),
    "hours": marked("work for a kilogram of leaf"), "other": marked("what was measured"),
}  # fmt: skip
SHORT: Final[dict[Outcome, str]] = {
    "pure_blue": marked("pure blue"), "powder": marked("powder"), "purity": marked("indigo in the powder"),
    "depth": marked("depth"), "hours": marked("work"), "other": marked("of it"),
}  # fmt: skip
"""After `less` and `more`."""
_FIELDS: Final[dict[Outcome, str]] = {
    "pure_blue": "value_g_per_kg", "powder": "value_g_per_kg", "purity": "value_frac", "depth": "k_over_s",
    "hours": "value_h", "other": "value",
}  # fmt: skip
BELIEFS: Final[dict[Belief, str]] = {
    "own_tubs": marked("these tubs alone"), "tubs_as_usual": marked("with how unlike tubs usually are (the result)"),
    "sceptic": marked("and most changes do little"), "usual": marked("and changes do something"),
    "open_mind": marked("and changes may do much"),
}  # fmt: skip
EQUAL: Final[dict[Equal, str]] = {
    "picking": marked("one picking, one bed, one hour"),
    "mixing": marked("leaf mixed before it is parted"),
    "mass": marked("the same mass of leaf, weighed"),
    "held": marked("as long from picking to water"),
    "cut": marked("cut or torn alike"),
    "vessel": marked("tubs of one size and make"),
    "water": marked("the same water, as much, as warm"),
    "place": marked("side by side, covered alike"),
    "start": marked("filled within the same quarter of an hour"),
    "hours": marked("strained after the same hours"),
    "strain": marked("strained and squeezed alike"),
    "alkali": marked("the same alkali, to the same pH"),
    "air": marked("aired alike, as long"),
    "wash": marked("washed as often"),
    "dry": marked("dried as long, weighed on one scale"),
    "assay": marked("assayed in one go, in mixed order"),
    "order": marked("handled in mixed order: not always the same way first"),
}  # fmt: skip
ASSIGNED: Final[dict[Assigned, str]] = {
    "lot": marked("lots decide"), "leaf": marked("the leaf itself: it is sorted"), "choice": marked("somebody chose"),
}  # fmt: skip
DIFFERS: Final[dict[Differs, str]] = {
    "leaf": marked("the leaf"), "held": marked("hours from picking to water"), "cut": marked("how it is cut"),
    "hours": marked("hours in the water"), "warmth": marked("warmth"), "water": marked("the water"),
    "alkali": marked("the alkali"), "air": marked("the airing"), "wash": marked("the washing"),
    "other": marked("something else"),
}  # fmt: skip
SAME: Final = 0.005
MANY: Final = 2.5
"""From so many times on, per cent are hard to read."""


def got_said(value: Band | float, outcome: Outcome) -> str:
    """What was measured, with its unit."""
    return value_said(value, _FIELDS[outcome])


def range_said(band: Band) -> str:
    """`2 to 29% less`, `7% less to 12% more`, `5 to 20% more`, `2.1 to 4 times as much`."""
    low, high = band.p5, band.p95
    if low >= MANY or (low >= 1 and high >= 2 * MANY):
        return _("%(low)s to %(high)s times as much") % {"low": figure(low), "high": figure(high)}
    told = {"low": _percent_off(low), "high": _percent_off(high)}
    if high <= 1:
        return _("%(high)s to %(low)s%% less") % told
    if low >= 1:
        return _("%(low)s to %(high)s%% more") % told
    if high >= MANY:
        return _("%(low)s%% less to %(high)s times as much") % {**told, "high": figure(high)}
    return _("%(low)s%% less to %(high)s%% more") % told


def ratio_said(factor: float) -> str:
    """`16% less`, `12% more`, `as much`, `3.1 times as much`."""
    if abs(factor - 1) < SAME:
        return _("as much")
    if factor >= MANY:
        return _("%(factor)s times as much") % {"factor": figure(factor)}
    told = {"share": _percent_off(factor)}
    return _("%(share)s%% less") % told if factor < 1 else _("%(share)s%% more") % told


def grams(band: Band | None) -> str:
    """A band of grams, or a dash."""
    return "–" if band is None else ranged(band, "g")


def _percent_off(factor: float) -> str:
    return f"{100 * abs(factor - 1):.0f}"
