"""Student's t and Fisher's F without a library: distribution functions and their inverses, for tests and intervals."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from bluewright.science.base.errors import InputError

TERMS: Final = 400
CLOSE: Final = 1e-15
_TINY: Final = 1e-300


def incomplete_beta(value: float, *, a_z: float, b_z: float) -> float:
    """The regularised incomplete beta function I_x(a, b) at x = `value` from 0 to 1, for a, b > 0.

    Formula: its continued fraction by Lentz's way, on the side on which it converges fast.
    Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.5.8.
    """
    if value <= 0.0 or value >= 1.0:
        return 0.0 if value <= 0.0 else 1.0
    if value > (a_z + 1) / (a_z + b_z + 2):
        return 1.0 - incomplete_beta(1.0 - value, a_z=b_z, b_z=a_z)
    front = math.exp(
        math.lgamma(a_z + b_z) - math.lgamma(a_z) - math.lgamma(b_z)
        + a_z * math.log(value) + b_z * math.log1p(-value)
    )  # fmt: skip
    return front * _fraction(value, a_z, b_z) / a_z


def _fraction(x: float, a: float, b: float) -> float:
    """Lentz's evaluation of the continued fraction."""
    c, d = 1.0, 1.0 / _not_nought(1.0 - (a + b) * x / (a + 1.0))
    found = d
    for m in range(1, TERMS):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        for term in (even, odd):
            d = 1.0 / _not_nought(1.0 + term * d)
            c = _not_nought(1.0 + term / c)
            found *= c * d
        if abs(c * d - 1.0) < CLOSE:
            break
    return found


def t_cdf(value: float, *, dof: int) -> float:
    """Chance that Student's t with `dof` degrees of freedom is below `value`."""
    tail = 0.5 * incomplete_beta(dof / (dof + value * value), a_z=0.5 * dof, b_z=0.5)
    return tail if value < 0 else 1.0 - tail


def f_cdf(value: float, *, dof_over: int, dof_under: int) -> float:
    """Chance that Fisher's F is below `value`."""
    if value <= 0:
        return 0.0
    share = dof_over * value / (dof_over * value + dof_under)
    return incomplete_beta(share, a_z=0.5 * dof_over, b_z=0.5 * dof_under)


def f_tail(value: float, *, dof_over: int, dof_under: int) -> float:
    """Chance that Fisher's F is above `value`: how surprising a ratio of variances is."""
    if value <= 0:
        return 1.0
    share = dof_under / (dof_over * value + dof_under)
    return incomplete_beta(share, a_z=0.5 * dof_under, b_z=0.5 * dof_over)


def t_quantile(below_chance: float, *, dof: int) -> float:
    """The t below which lies `below_chance` of Student's distribution; InputError unless it is between 0 and 1."""
    _check(below_chance, dof)
    if below_chance < 0.5:
        return -t_quantile(1.0 - below_chance, dof=dof)
    return _inverse(lambda t: t_cdf(t, dof=dof), below_chance)


def f_quantile(below_chance: float, *, dof_over: int, dof_under: int) -> float:
    """The F below which lies `below_chance` of Fisher's distribution; InputError as `t_quantile`."""
    _check(below_chance, min(dof_over, dof_under))
    return _inverse(lambda f: f_cdf(f, dof_over=dof_over, dof_under=dof_under), below_chance)


def _inverse(below: Callable[[float], float], chance: float) -> float:
    """The value at which a rising function of positive numbers reaches `chance`, by halving."""
    low, high = 0.0, 1.0
    while below(high) < chance and high < 1e12:
        low, high = high, 2.0 * high
    for _ in range(200):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if below(middle) < chance else (low, middle)
        if high - low <= 1e-13 * high:
            break
    return 0.5 * (low + high)


def _check(chance: float, dof: int) -> None:
    if not 0.0 < chance < 1.0:
        raise InputError(where="chance", what=f"{chance:g} is no chance", right="give one between 0 and 1")
    if dof < 1:
        raise InputError(where="dof", what=f"{dof} degrees of freedom are too few", right="there must be one at least")


def _not_nought(value: float) -> float:
    return value if abs(value) > _TINY else _TINY
