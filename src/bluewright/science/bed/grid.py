"""Draws of two unknowns from their posterior, by a grid that closes in on where the weight is."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats

LogDensity = Callable[[Floats, Floats], Floats]
"""Log density of the two at vectors of shape (a,) and (b,); gives shape (a, b)."""

CELLS: Final = 64
ROUNDS: Final = 4
REACH_Z: Final = 6.0
"""Spreads to either side of the middle that the grid keeps when it closes in."""


def drawn(
    log_density: LogDensity, *, box: tuple[tuple[float, float], tuple[float, float]], n: int, rng: np.random.Generator
) -> tuple[Floats, Floats]:
    """`n` draws of both, each (n,), from a density within `box` (low and high of the first and of the second).

    Midpoint sums over 64 by 64 cells, four rounds of closing in; a draw lies anywhere in its cell.
    """
    edges = box
    for _ in range(ROUNDS):
        middles, widths, weights = _weighed(log_density, edges)
        edges = tuple(_closed_in(middles[k], weights.sum(axis=1 - k), edges[k], widths[k]) for k in (0, 1))  # type: ignore[assignment]
    middles, widths, weights = _weighed(log_density, edges)
    cells = rng.choice(weights.size, size=n, p=weights.ravel())
    rows, columns = np.divmod(cells, weights.shape[1])
    first = middles[0][rows] + widths[0] * (rng.random(n) - 0.5)
    second = middles[1][columns] + widths[1] * (rng.random(n) - 0.5)
    return first, second


def _weighed(
    log_density: LogDensity, edges: tuple[tuple[float, float], ...]
) -> tuple[list[Floats], list[float], Floats]:
    widths = [(high - low) / CELLS for low, high in edges]
    middles = [
        np.asarray(low + width * (np.arange(CELLS) + 0.5), dtype=np.float64)
        for (low, _), width in zip(edges, widths, strict=True)
    ]
    found = log_density(middles[0], middles[1])
    weights = np.exp(found - found.max())
    return middles, widths, np.asarray(weights / weights.sum())


def _closed_in(middles: Floats, weights: Floats, edge: tuple[float, float], width: float) -> tuple[float, float]:
    mean = float(weights @ middles)
    reach = REACH_Z * (float(np.sqrt(weights @ (middles - mean) ** 2)) + width)
    return max(edge[0], mean - reach), min(edge[1], mean + reach)
