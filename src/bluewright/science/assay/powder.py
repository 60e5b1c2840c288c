"""Purity by the colour of the dry powder: a rule fitted to its owner's assays that goes no further than they do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.assay.common import check_method
from bluewright.science.assay.powder_record import PowderAnswer, PowderRecord
from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.errors import InputError, ModelError
from bluewright.science.base.sourced import Floats, Sourced

DRAWS = 4000
NAMES: Final = ("L", "a", "b")
CHOICES: Final = ((0,), (2,), (0, 2), (0, 1, 2))
"""Predictors that are tried; the one with the least error when each assay is left out is taken."""
ROOM: Final = Sourced(
    value=0.05, unit="1", source="common-practice", low=0.0, high=0.15, grade="guess",
    note="of the range of your own assays: so far beyond its ends a colour is still told",
)  # fmt: skip
WEAK_FRAC: Final = 0.5
LEAST_SD: Final = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rule:
    """A straight rule for the logit of the purity."""

    chosen: tuple[int, ...]
    best: Floats
    inverse: Floats
    scatter: float
    dof: int
    left_out: float
    """Mean square of the errors when each is left out."""


def powder(record: PowderRecord, *, rng: np.random.Generator) -> PowderAnswer:
    """The new powder's indigo by a straight rule of logit(indigo) on L, a or b, fitted to the record's own assays.

    The band is that of a new assay: scatter and doubt of the rule with Student's t. Raises InputError where the colour
    lies beyond the assays that the rule rests on, and ModelError where they do not tell one from another.
    Source: Hartl 2024 found that L*a*b* of dry pigment tells its indigo; no coefficients are taken from there.
    """
    lab = np.array([one.lab for one in record.known])
    purity = np.array([one.indigo_frac for one in record.known])
    logit = np.log(purity / (1 - purity))
    rule = min((_rule(lab, logit, chosen) for chosen in CHOICES), key=lambda one: one.left_out)
    explained = 1 - rule.left_out / max(float(np.var(logit)), 1e-12)
    if explained <= 0:
        raise ModelError(
            "The colours of these powders do not tell their indigo better than the mean of all does: grind and measure "
            "them alike, or assay more of them."
        )
    new = np.array(record.lab)
    _inside(new, lab, rule.chosen)
    row = np.append(new[list(rule.chosen)], 1.0)
    wide = rule.scatter * np.sqrt(1 + row @ rule.inverse @ row)
    told = row @ rule.best + wide * rng.standard_t(rule.dof, DRAWS)
    pct = band(100 / (1 + np.exp(-np.clip(told, -30, 30))))
    return PowderAnswer(
        id=record.id, indigo_pct=pct, predictors=tuple(NAMES[i] for i in rule.chosen),
        left_out_sd=significant(float(np.sqrt(rule.left_out)), 3), explained_frac=significant(explained, 3),
        assays=len(logit), basis="readings", inputs=record,
        cautions=(*_cautions(explained, len(logit)), *check_method(pct)), sources=("common-practice", "hartl-2024"),
    )  # fmt: skip


def _rule(lab: Floats, logit: Floats, chosen: tuple[int, ...]) -> _Rule:
    """Least squares, with the error that each assay has when it is left out: e / (1 - its leverage)."""
    columns = np.column_stack([lab[:, list(chosen)], np.ones(len(lab))])
    inverse = np.linalg.pinv(columns.T @ columns)
    best = inverse @ columns.T @ logit
    left = logit - columns @ best
    leverage = np.clip(np.einsum("ij,jk,ik->i", columns, inverse, columns), 0.0, 0.999)
    dof = len(logit) - columns.shape[1]
    scatter = max(float(np.sqrt(np.sum(left**2) / dof)), LEAST_SD)
    return _Rule(
        chosen=chosen, best=best, inverse=inverse, scatter=scatter, dof=dof,
        left_out=float(np.mean((left / (1 - leverage)) ** 2)),
    )  # fmt: skip


def _inside(new: Floats, lab: Floats, chosen: tuple[int, ...]) -> None:
    """Raise InputError unless the new colour lies among those of the assays, each coordinate and all together."""
    for i in chosen:
        low, high = float(lab[:, i].min()), float(lab[:, i].max())
        room = ROOM.value * (high - low)
        if not low - room <= new[i] <= high + room:
            raise InputError(
                where="lab", what=f"{NAMES[i]} of {new[i]:g} lies beyond your assays ({low:g} to {high:g})",
                right="assay this pigment another way; then it widens your rule",
            )  # fmt: skip
    columns = np.column_stack([lab[:, list(chosen)], np.ones(len(lab))])
    inverse = np.linalg.pinv(columns.T @ columns)
    row = np.append(new[list(chosen)], 1.0)
    most = float(np.max(np.einsum("ij,jk,ik->i", columns, inverse, columns)))
    if float(row @ inverse @ row) > (1 + ROOM.value) * most + 1e-9:
        raise InputError(
            where="lab", what="such a colour is like none of your assays, though each of its numbers is in their range",
            right="assay this pigment another way; then it widens your rule",
        )  # fmt: skip


def _cautions(explained: float, many: int) -> tuple[Caution, ...]:
    found = [
        caution(
            "own-rule",
            f"The rule rests on {many} of your own assays and holds for powder that is ground, pressed flat and "
            "photographed as those were.",
        )
    ]
    if explained < WEAK_FRAC:
        found.append(
            caution("weak-rule", f"It explains only {100 * explained:.0f}% of the difference among your assays.")
        )
    return tuple(found)
