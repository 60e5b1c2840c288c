"""Studied ranges as data."""

import numpy as np
import pytest

from bluewright.science.base.validity import Studied


def test_the_ends_are_inside() -> None:
    studied = Studied(low=0.0, high=40.0, unit="C", source="benson-krause-1984")
    assert studied.holds(0.0)
    assert studied.holds(np.array([0.0, 40.0]))
    assert not studied.holds(np.array([20.0, 40.1]))
    assert not studied.holds(float("nan"))


def test_a_range_without_a_source_or_with_its_ends_swapped_is_refused() -> None:
    with pytest.raises(ValueError, match="needs a unit and a source"):
        Studied(low=0.0, high=1.0, unit="C", source="")
    with pytest.raises(ValueError, match="holds nothing"):
        Studied(low=1.0, high=0.0, unit="C", source="kell-1975")
