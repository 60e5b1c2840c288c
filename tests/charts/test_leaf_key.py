"""Drawn leaves of known damage: what is painted is what they are named for, counted point by point on the drawing."""

import math
import re

import numpy as np
import pytest

from bluewright.charts.leaf_key import SIDE, Damage, drawn_leaf, spots
from bluewright.science.base.errors import InputError
from bluewright.science.bed.disease import GRADE_TOPS

SHARES = [top for top in GRADE_TOPS.values() if top <= 0.5]
FINE = 1600
"""Points along a side: 0.06 units apart, the smallest spot is ten of them wide."""


def painted_frac(drawing: str) -> float:
    """The share of the blade's points that lie in a disc, from the drawing's own text."""
    x, y = np.meshgrid(*[(np.arange(FINE) + 0.5) * SIDE / FINE] * 2)
    outline = next(d for d in re.findall(r'd="(M[^"]*Z)"', drawing))
    corners = np.array(re.findall(r"-?\d+\.?\d*", outline), dtype=float).reshape(-1, 2)
    inside = np.zeros_like(x, dtype=bool)
    for (x1, y1), (x2, y2) in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        if y1 != y2:
            inside ^= ((y1 < y) != (y2 < y)) & (x < x1 + (y - y1) / (y2 - y1) * (x2 - x1))
    damaged = np.zeros_like(inside)
    for tag in re.findall(r"<circle[^>]*>", drawing):
        cx, cy, r = (float(re.search(rf' {name}="([^"]+)"', tag)[1]) for name in ("cx", "cy", "r"))  # type: ignore[index]
        disc = (x - cx) ** 2 + (y - cy) ** 2 < r * r
        assert not (disc & ~inside).any(), "a spot sticks out of the leaf"
        assert not (disc & damaged).any(), "two spots lie over each other"
        damaged |= disc
    return float(damaged.sum() / inside.sum())


@pytest.mark.parametrize("damage", ["spots", "holes"])
@pytest.mark.parametrize("share", SHARES)
def test_the_painted_share_is_the_one_it_is_named_for(share: float, damage: Damage) -> None:
    """To a fiftieth of it: coordinates are written with two decimals."""
    assert painted_frac(drawn_leaf(share, damage)) == pytest.approx(share, rel=0.02)


def test_more_damage_is_more_spots_or_larger_ones_and_spots_differ_from_holes() -> None:
    areas = [sum(math.pi * r * r for *_, r in spots(share)) for share in SHARES]
    assert areas == sorted(areas)
    assert min(len(spots(share)) for share in SHARES[1:]) >= 6
    assert drawn_leaf(0.1, "spots") != drawn_leaf(0.1, "holes")


@pytest.mark.parametrize("share", [-0.1, 0.6, 1.0])
def test_what_cannot_be_drawn_is_refused(share: float) -> None:
    with pytest.raises(InputError, match=r"0 to 0\.55"):
        drawn_leaf(share, "spots")
