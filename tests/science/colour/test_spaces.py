"""Spaces: published whites and codes, the way back, and what a profile is worth."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.colour import spaces

CODES = st.tuples(*[st.floats(0.0, 1.0)] * 3)


def test_white_and_black_have_no_colour() -> None:
    """By definition: the white of the space is L* 100, black 0, both without a* and b*."""
    for space in ("srgb", "display-p3"):
        found = spaces.lab_of_code([[1.0, 1.0, 1.0], [0.0, 0.0, 0.0]], space=space)
        np.testing.assert_allclose(found, [[100.0, 0.0, 0.0], [0.0, 0.0, 0.0]], atol=1e-9)


def test_the_matrix_of_srgb_is_the_published_one() -> None:
    """IEC 61966-2-1:1999, equation 7, printed with four decimals."""
    printed = [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]
    np.testing.assert_allclose(spaces.XYZ_OF_LINEAR["srgb"], printed, atol=6e-5)


@given(CODES)
def test_there_and_back_again(code: tuple[float, float, float]) -> None:
    lab = spaces.lab_of_code(code)
    np.testing.assert_allclose(spaces.code_of_lab(lab), code, atol=1e-7)


def test_codes_of_display_p3_read_as_srgb_lose_chroma() -> None:
    """A law: P3 is the wider space, so the same codes mean more colour in it."""
    code = [0.3, 0.6, 0.3]
    as_p3 = spaces.chroma_of_lab(spaces.lab_of_code(code, space="display-p3"))
    assert as_p3 > 1.1 * spaces.chroma_of_lab(spaces.lab_of_code(code))


def test_hue_is_told_in_the_direction_of_the_axes() -> None:
    """By definition of h_ab (CIE 15:2004, 8.2.3)."""
    found = spaces.hue_deg_of_lab([[50, 10, 0], [50, 0, 10], [50, -10, 0], [50, 0, -10], [50, 0, 0]])
    np.testing.assert_allclose(found, [0.0, 90.0, 180.0, 270.0, 0.0])
