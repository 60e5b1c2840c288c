"""Kit, price and return: the arithmetic of money, each step one line."""

from __future__ import annotations

from typing import TypeVar

from bluewright.science.base.sourced import Floats

F = TypeVar("F", float, Floats)


def straight_line_money(paid_money: float, *, left_money: float, lasts: F) -> F:
    """What one year, or one batch, takes of a thing: (paid - left) / lasts, in equal parts over its life."""
    return (paid_money - left_money) / lasts


def price_floor_money_per_g(cost_money_per_g: F, *, margin_frac: float, allowance_frac: float) -> F:
    """Least price of a gram: cost / ((1 - margin) (1 - allowance)); the margin is a share of the price."""
    return cost_money_per_g / ((1 - margin_frac) * (1 - allowance_frac))


def return_money_per_h(price_money_per_g: float, *, sold_g: F, paid_money: F, work_h: F) -> F:
    """What an hour earns: (price * grams sold - what is paid for all but wages) / hours."""
    return (price_money_per_g * sold_g - paid_money) / work_h
