"""Charts of colours: equal axes, even factors, both words of a difference, what calls for a look."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from bluewright.charts.ab_plane import NINE_OF_TEN, ab_plane
from bluewright.charts.colours import Chip, hex_of_lab, ink_on
from bluewright.charts.control_chart import control_chart
from bluewright.charts.depth_ladder import Rung, depth_ladder
from bluewright.charts.palette import contrast
from bluewright.charts.split_square import split_square
from bluewright.science.base.errors import InputError
from tests.charts.colour_samples import chips, control_sample, ladder_sample, plane_sample, square_sample
from tests.charts.test_drawings import parts, said


def test_one_unit_of_a_is_as_long_on_paper_as_one_of_b() -> None:
    """Own hand: ellipses of equal spreads are circles; unequal ones keep the ratio of their spreads."""
    for ellipse, chip in zip(parts(ab_plane(plane_sample()), "ellipse"), chips(), strict=False):
        ratio = float(ellipse.get("rx", "0")) / float(ellipse.get("ry", "1"))
        assert ratio == pytest.approx(chip.lab_sd[1] / chip.lab_sd[2], rel=0.01)


def test_the_ellipse_holds_nine_in_ten_of_two_normal_errors() -> None:
    """By the Rayleigh distribution: 1 - exp(-r^2/2) = 0.9."""
    assert 1 - math.exp(-(NINE_OF_TEN**2) / 2) == pytest.approx(0.9, abs=1e-4)


def test_every_colour_has_number_name_and_words() -> None:
    drawing = ab_plane(plane_sample())
    for number, chip in enumerate(chips(), start=1):
        assert f"{chip.name}, {chip.said}" in said(drawing)
        assert f"{number} {chip.name}: {chip.said}, L\u00a0{chip.lab[0]}" in (parts(drawing, "desc")[0].text or "")
    assert "D65, 2° observer" in (parts(drawing, "desc")[0].text or "")
    assert "yours may differ" in said(drawing)


def test_colours_without_spread_or_all_alike_are_drawn_too() -> None:
    grey = Chip(name="grey", lab=(50.0, 0.0, 0.0))
    drawing = ab_plane(replace(plane_sample(), chips=(grey, grey)))
    assert not parts(drawing, "ellipse")
    with pytest.raises(InputError, match="chips: there are 0"):
        replace(plane_sample(), chips=())


def test_each_doubling_of_dips_and_each_factor_of_depth_is_as_wide() -> None:
    squares = [r for r in parts(depth_ladder(ladder_sample()), "rect") if r.get("width") == "12"][1:]
    upper = [float(r.get("x", "0")) for r in squares[:4]]
    steps = [b - a for a, b in pairwise(upper)]
    assert steps == pytest.approx([steps[0]] * 3, rel=0.001)


def test_a_single_rung_and_no_depth_at_all_are_drawn() -> None:
    first = ladder_sample().rungs[0]
    bare = replace(first, depth=replace(first.depth, low=-0.1, mid=0.0, high=0.01))
    assert "one dip" in said(depth_ladder(replace(ladder_sample(), rungs=(bare,))))
    with pytest.raises(InputError, match="x: 0 has no place"):
        Rung(x=0.0, chip=first.chip, depth=first.depth)


def test_a_difference_has_both_words_of_each_way_and_its_figures() -> None:
    drawing = split_square(square_sample())
    for word in ("← darker", "lighter →", "−13.2", "← greener", "redder →", "+2.4", "linen, four dips", "deep blue"):
        assert word in said(drawing)
    assert "darker by 13.2 (−15.8 to −10.6)" in (parts(drawing, "desc")[0].text or "")


def test_names_on_a_colour_are_in_the_ink_that_is_read_there() -> None:
    """WCAG 2.1 success criterion 1.4.3: at least 4.5 on any colour of the ladder; at L* 50 no ink reaches more."""
    for light in range(0, 101, 5):
        lab = (float(light), 0.0, 0.0)
        assert contrast(hex_of_lab(lab), ink_on(lab)) >= 4.4, light


def test_what_is_above_the_limit_is_a_triangle_and_said() -> None:
    drawing = control_chart(control_sample())
    assert "above the limit" in said(drawing)
    assert "1 above the limit of 2" in (parts(drawing, "desc")[0].text or "")
    calm = replace(control_sample(), sessions=control_sample().sessions[:3])
    assert "above the limit" not in said(control_chart(calm))
    assert "0 above the limit" in (parts(control_chart(calm), "desc")[0].text or "")
