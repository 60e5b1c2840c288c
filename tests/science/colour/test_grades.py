"""Grades: the pairs of greys that define the scales, and the way between formula and scale."""

from __future__ import annotations

import numpy as np
import pytest

from bluewright.science.colour import grades
from tests.published import Row, rows

CHANGE, STAIN = rows("grey-scale-change"), rows("grey-scale-staining")


@pytest.mark.parametrize("row", CHANGE, ids=lambda row: f"{row.value:g}")
def test_a_pair_of_greys_gets_its_grade_by_eye_and_by_formula(row: Row) -> None:
    apart = row.given["de76"]
    assert float(grades.change_grade_by_eye(apart)) == row.value
    assert row.agrees(float(grades.change_grade([40.0 + apart, 0.0, 0.0], [40.0, 0.0, 0.0])))


@pytest.mark.parametrize("row", STAIN, ids=lambda row: f"{row.value:g}")
def test_a_pair_of_greys_gets_its_grade_of_staining(row: Row) -> None:
    apart = row.given["de76"]
    assert float(grades.stain_grade_by_eye(apart)) == row.value
    assert row.agrees(float(grades.stain_grade([94.0 - apart, 0.0, 0.0], [94.0, 0.0, 0.0])))


def test_half_grades_begin_at_the_quarters() -> None:
    """EN ISO 105-A04:1999, 6.6, as quoted: 4.25 to under 4.75 is 4-5."""
    np.testing.assert_allclose(grades.half_grade([4.75, 4.74, 4.25, 4.24, 1.24, 0.9]), [5.0, 4.5, 4.5, 4.0, 1.0, 1.0])


def test_a_change_of_chroma_counts_less_the_more_chroma_there_is() -> None:
    """Own hand, hue 100, far from blue: C 50, dC 3: 3/(1 + 1^2) = 1.5, 5 - 1.5/1.7 = 4.12; at C 2 it is 3/(1.0016)."""
    ray = np.array([0.0, np.cos(np.radians(100)), np.sin(np.radians(100))])
    strong = grades.change_grade([50, 0, 0] + 51.5 * ray, [50, 0, 0] + 48.5 * ray)
    weak = grades.change_grade([50, 0, 0] + 3.5 * ray, [50, 0, 0] + 0.5 * ray)
    assert float(strong) == pytest.approx(5 - 1.5 / 1.7, abs=0.001)
    assert float(weak) == pytest.approx(5 - 3 / 1.0016 / 1.7, abs=0.002)


def test_around_blue_chroma_and_hue_are_told_as_one() -> None:
    """Own hand at h 280, x 0, C 20, dC 2: D = 0.4; chroma 1.6/1.16, hue -0.4/1.04; together 1.432: 5 - 1.432/1.7."""
    ray = np.array([0.0, np.cos(np.radians(280)), np.sin(np.radians(280))])
    found = grades.change_grade([50, 0, 0] + 21 * ray, [50, 0, 0] + 19 * ray)
    assert float(found) == pytest.approx(5 - np.hypot(1.6 / 1.16, 0.4 / 1.04) / 1.7, abs=1e-6)
