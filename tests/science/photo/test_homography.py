"""From places on the card to places in the picture."""

import cv2
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.base.errors import ModelError
from bluewright.science.photo.homography import homography, moved

SQUARE = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])


def test_a_square_seen_as_a_trapezium_has_its_middle_where_the_diagonals_cross() -> None:
    """Own hand: corners (0,0) (6,0) (4,2) (2,2); the diagonals y = x/2 and y = 3 - x/2 cross at (3, 1.5)."""
    seen = np.array([[0.0, 0.0], [6.0, 0.0], [4.0, 2.0], [2.0, 2.0]])
    found = moved(np.array([[0.5, 0.5]]), by=homography(SQUARE, seen))
    assert found[0] == pytest.approx([3.0, 1.5])


@given(st.integers(0, 10_000))
def test_of_four_points_it_is_the_one_that_opencv_finds(seed: int) -> None:
    """Reference library: `cv2.getPerspectiveTransform`, single precision in, hence the tolerance."""
    rng = np.random.default_rng(seed)
    on_card = SQUARE * [124.0, 194.0]
    seen = on_card * 10 + rng.uniform(-200, 200, size=(4, 2)) + 500
    theirs = cv2.getPerspectiveTransform(on_card.astype(np.float32), seen.astype(np.float32))
    inside = rng.uniform(0, 1, size=(20, 2)) * [124.0, 194.0]
    assert moved(inside, by=homography(on_card, seen)) == pytest.approx(moved(inside, by=theirs), abs=0.05)


def test_more_points_than_needed_even_out_their_errors() -> None:
    """Sixteen corners off by 1 point each: places between them are off by less than 1, as root mean square."""
    rng = np.random.default_rng(3)
    on_card = np.stack(np.meshgrid([0.0, 15.0, 109.0, 124.0], [0.0, 15.0, 179.0, 194.0]), axis=-1).reshape(-1, 2)
    true = np.array([[9.0, 0.5, 100.0], [-0.4, 8.0, 200.0], [1e-4, 2e-4, 1.0]])
    between = rng.uniform(20, 100, size=(50, 2))
    off = []
    for _ in range(40):
        found = homography(on_card, moved(on_card, by=true) + rng.normal(0, 1, size=on_card.shape))
        off.append(moved(between, by=found) - moved(between, by=true))
    assert np.sqrt(np.mean(np.sum(np.square(off), axis=-1))) < 1.0


def test_points_in_one_line_are_refused() -> None:
    line = np.array([[0.0, 0.0], [1.0, 1.0], [2.0, 2.0], [3.0, 3.0]])
    with pytest.raises(ModelError, match="one line"):
        homography(line, line)
