"""How often chance alone would do it: every way in which the lots could have been drawn, counted."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from math import comb
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats

MOST_FLIPPED: Final = 30
"""Up to so many pairs all signs are counted: 2^30, about a thousand million, as two lists of 2^15."""
MOST_SPLITS: Final = 50_000
DRAWN: Final = 20_000
CLOSE: Final = 1e-9


def sign_flip(ratios_log: Sequence[float], *, rng: np.random.Generator) -> tuple[float, float]:
    """Chance of a mean at least so far from 0 if each pair could as well have gone the other way, and its least.

    Formula: share of the 2^n choices of signs whose sum is at least as large; the least is 2 / 2^n. All are counted by
    pairing the sums of one half of the pairs with those of the other. Beyond 30 pairs, 20,000 drawn choices,
    (1 + hits) / (1 + drawn). Source: Fisher 1935 (from memory), Ernst 2004.
    """
    sizes = np.abs(np.asarray(ratios_log, dtype=float))
    n, seen = len(sizes), abs(float(np.sum(ratios_log)))
    edge = seen * (1 - CLOSE) - CLOSE
    if n > MOST_FLIPPED:
        signs = rng.integers(0, 2, size=(DRAWN, n)) * 2.0 - 1.0
        return _drawn_share(np.abs(signs @ sizes), seen), 1.0 / (DRAWN + 1)
    if edge <= 0:
        return 1.0, 2.0 ** (1 - n)
    one, other = _sums(sizes[: n // 2]), np.sort(_sums(sizes[n // 2 :]))
    above = len(other) - np.searchsorted(other, edge - one, side="left")
    below = np.searchsorted(other, -edge - one, side="right")
    return float(np.sum(above + below)) / 2.0**n, 2.0 ** (1 - n)


def _sums(sizes: Floats) -> Floats:
    """All sums of the sizes with either sign, (2^n,)."""
    sums = np.zeros(1)
    for size in sizes:
        sums = np.concatenate([sums + size, sums - size])
    return sums


def regroup(usual_log: Floats, other_log: Floats, *, rng: np.random.Generator) -> tuple[float, float]:
    """The same for tubs that stand alone, shapes (m,) and (n,): every way to split them into two groups of that size.

    Formula: share of the splits whose means differ at least as much; drawn beyond 50,000 splits. Source: Pitman 1937
    (from memory), Ernst 2004.
    """
    both = np.concatenate([usual_log, other_log])
    few, total, n = min(len(usual_log), len(other_log)), float(both.sum()), len(both)
    own = float((usual_log if len(usual_log) <= len(other_log) else other_log).sum())
    splits = comb(n, few)
    seen = _apart(np.array([own]), total, few, n)[0]
    if splits <= MOST_SPLITS:
        chosen = np.array(list(combinations(range(n), few)))
        least = (2.0 if len(usual_log) == len(other_log) else 1.0) / splits
        return _share(_apart(both[chosen].sum(axis=1), total, few, n), seen), least
    order = np.argsort(rng.random((DRAWN, n)), axis=1)[:, :few]
    return _drawn_share(_apart(both[order].sum(axis=1), total, few, n), seen), 1.0 / (DRAWN + 1)


def _apart(sums: Floats, total: float, few: int, n: int) -> Floats:
    return np.asarray(np.abs(sums / few - (total - sums) / (n - few)))


def _share(found: Floats, seen: float) -> float:
    return float(np.mean(found >= seen * (1 - CLOSE) - CLOSE))


def _drawn_share(found: Floats, seen: float) -> float:
    return float((1 + np.sum(found >= seen * (1 - CLOSE) - CLOSE)) / (len(found) + 1))
