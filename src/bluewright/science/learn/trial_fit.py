"""Least squares on logarithms: ways within blocks, or ways alone; and what shared errors of assays add."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bluewright.science.base.sourced import Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """The tubs of one way in one block as one number; two tubs of one picking are no two results."""

    way: int
    """Place of the way in the record."""
    block: str
    """Empty where the tub stands alone."""
    mean_log: float
    """Mean of the logarithms."""
    own_sd: float
    """What measuring each tub by itself adds (standard deviation of the mean)."""
    assays: tuple[tuple[str, float, float], ...]
    """Each assay by name, its error as a share, and its part in the mean."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Estimates of `names` with what they rest on; variances are sigma^2 `unit` + `shared`."""

    estimate_log: Floats
    """Shape (k,)."""
    unit_factor: Floats
    """Covariance for a noise of 1, shape (k, k)."""
    shared: Floats
    """Covariance that errors of shared assays add beyond what the scatter shows, shape (k, k)."""
    rss: float
    """Sum of squared residuals."""
    dof: int
    """Degrees of freedom of the residuals."""
    measured: float
    """What measuring by itself is expected to add to the noise's variance."""


def fit_in_blocks(cells: Sequence[Cell], *, ways: int) -> Fit:
    """Log ratios of ways 1, 2, ... to way 0, each block with its own level.

    Formula: y = block + way; least squares. With two ways the estimate is the mean of the pairs' log ratios and twice
    its residual variance is theirs. Source: Yates 1935 for blocks, Student 1908 for pairs.
    """
    blocks = sorted({cell.block for cell in cells})
    design = np.zeros((len(cells), ways - 1 + len(blocks)))
    for row, cell in enumerate(cells):
        if cell.way:
            design[row, cell.way - 1] = 1.0
        design[row, ways - 1 + blocks.index(cell.block)] = 1.0
    return _fit(cells, design, keep=ways - 1)


def fit_alone(cells: Sequence[Cell], *, ways: int) -> Fit:
    """The mean logarithm of each way, noise pooled over the ways."""
    design = np.zeros((len(cells), ways))
    for row, cell in enumerate(cells):
        design[row, cell.way] = 1.0
    return _fit(cells, design, keep=ways)


def ratios(cells: Sequence[Cell], *, ways: int, in_blocks: bool) -> Fit:
    """Log ratios to the usual way, in blocks or of ways that stand alone."""
    return fit_in_blocks(cells, ways=ways) if in_blocks else to_first(fit_alone(cells, ways=ways))


def to_first(fit: Fit) -> Fit:
    """Means of ways turned into log ratios to the first of them."""
    turn = np.hstack([-np.ones((len(fit.estimate_log) - 1, 1)), np.eye(len(fit.estimate_log) - 1)])
    return Fit(
        estimate_log=turn @ fit.estimate_log, unit_factor=turn @ fit.unit_factor @ turn.T, shared=turn @ fit.shared @
        turn.T, rss=fit.rss, dof=fit.dof, measured=fit.measured,
    )  # fmt: skip


def _fit(cells: Sequence[Cell], design: Floats, *, keep: int) -> Fit:
    y = np.array([cell.mean_log for cell in cells])
    solve = np.linalg.pinv(design)
    rest = np.eye(len(y)) - design @ solve
    dof = round(float(np.trace(rest)))
    residual = rest @ y
    errors, own = _assay_errors(cells), np.array([cell.own_sd**2 for cell in cells])
    shown = float(np.sum(errors * rest)) + float(own @ np.diag(rest))
    unit = (solve @ solve.T)[:keep, :keep]
    added = (solve @ errors @ solve.T)[:keep, :keep]
    # The part of the shared errors that lifts single tubs is in the scatter already.
    seen = float(np.sum(errors * rest)) / dof if dof else 0.0
    return Fit(
        estimate_log=(solve @ y)[:keep], unit_factor=unit, shared=_no_less_than_nothing(added - seen * unit),
        rss=float(residual @ residual), dof=dof, measured=shown / dof if dof else 0.0,
    )  # fmt: skip


def _assay_errors(cells: Sequence[Cell]) -> Floats:
    """Covariance of the cells by errors of the assays that they share."""
    names = sorted({name for cell in cells for name, _error, _part in cell.assays})
    load = np.zeros((len(cells), len(names)))
    for row, cell in enumerate(cells):
        for name, error, part in cell.assays:
            load[row, names.index(name)] += error * part
    return np.asarray(load @ load.T)


def _no_less_than_nothing(covariance: Floats) -> Floats:
    values, vectors = np.linalg.eigh(0.5 * (covariance + covariance.T))
    kept = np.where(values > 1e-12, values, 0.0)
    return np.asarray((vectors * kept) @ vectors.T)
