"""Worked examples from the books, through the same fit that tells a trial."""

import math
from collections import defaultdict

import numpy as np
import pytest

from bluewright.science.base.t_and_f import t_cdf
from bluewright.science.learn.pairs_tests import sign_flip
from bluewright.science.learn.trial_beliefs import flat, own_noise
from bluewright.science.learn.trial_fit import Fit, fit_alone, fit_in_blocks
from tests.published import rows
from tests.science.learn.worked import cell


def paired(stem: str) -> tuple[Fit, list[float]]:
    """First minus second of each pair, by the fit in blocks."""
    found = rows(stem, "pair")
    first, second = found[0].given
    cells = [
        cell(way, str(k), row.given[name]) for k, row in enumerate(found) for way, name in ((1, first), (0, second))
    ]
    return fit_in_blocks(cells, ways=2), [row.value for row in found]


def t_of(fit: Fit) -> float:
    return float(fit.estimate_log[0] / math.sqrt(fit.rss / fit.dof * fit.unit_factor[0, 0]))


@pytest.mark.parametrize("stem", ["student-1908", "darwin-1876", "immer-1934"])
def test_pairs_have_the_published_t_and_p(stem: str) -> None:
    fit, differences = paired(stem)
    assert fit.dof == len(differences) - 1
    assert fit.estimate_log[0] == pytest.approx(np.mean(differences))
    assert rows(stem, "t")[0].agrees(t_of(fit))
    assert rows(stem, "p")[0].agrees(2 * t_cdf(-abs(t_of(fit)), dof=fit.dof))


def test_student_s_interval_is_that_of_the_tubs_alone() -> None:
    fit, _differences = paired("student-1908")
    known = flat(fit, own_noise(fit), 0)
    assert rows("student-1908", "low_h")[0].agrees(known.point(0.025))
    assert rows("student-1908", "high_h")[0].agrees(known.point(0.975))


def test_four_of_all_sign_choices_lie_as_far_off_as_student_s_sleep() -> None:
    _fit, differences = paired("student-1908")
    chance, least = sign_flip(differences, rng=np.random.default_rng(1))
    assert rows("student-1908", "flip")[0].agrees(chance)
    assert least == 2 / 1024


def test_darwin_s_maize_lies_as_far_off_as_fisher_counted() -> None:
    """863 of the 32768 choices of signs on either side."""
    chance, _least = sign_flip(paired("darwin-1876")[1], rng=np.random.default_rng(1))
    assert rows("darwin-1876", "flip")[0].agrees(chance)


@pytest.mark.parametrize(
    ("stem", "what", "way"),
    [
        ("nist-strd-sirstv", "resistance", "instrument"),
        ("nist-strd-atmwtag", "weight", "instrument"),
        ("nist-strd-smls04", "number", "treatment"),
    ],
)
def test_tubs_that_stand_alone_have_the_certified_sums_of_squares(stem: str, what: str, way: str) -> None:
    """The second's numbers differ in their last digits alone; in the third each stands so many times."""
    data = [row for row in rows(stem, what) for _again in range(int(row.given.get("times", 1)))]
    ways = len({row.given[way] for row in data})
    fit = fit_alone([cell(int(row.given[way]), "", row.value) for row in data], ways=ways)
    mean = np.mean([row.value for row in data])
    between = float(len(data) / ways * np.sum((fit.estimate_log - mean) ** 2))
    assert rows(stem, "between_ss")[0].agrees(between)
    assert rows(stem, "within_ss")[0].agrees(fit.rss)
    assert rows(stem, "f")[0].agrees(between / (ways - 1) / (fit.rss / fit.dof))


def test_three_ways_in_blocks_have_yates_s_whole_plot_error() -> None:
    plots = defaultdict(list)
    for row in rows("yates-1935", "yield"):
        plots[int(row.given["variety"]), int(row.given["block"])].append(row.value)
    cells = [cell(way, str(block), float(np.mean(values))) for (way, block), values in plots.items()]
    fit = fit_in_blocks(cells, ways=3)
    assert fit.dof == 10
    assert rows("yates-1935", "whole_plot_ss")[0].agrees(4 * fit.rss)
    means = np.array([0.0, *fit.estimate_log])
    variety = 6 * np.sum((means - means.mean()) ** 2) / 2
    assert rows("yates-1935", "variety_f")[0].agrees(variety / (fit.rss / fit.dof))


def test_four_doses_within_whole_plots_have_yates_s_sums() -> None:
    """The error beside nitrogen alone is that of the sub-plots and of both factors together."""
    cells = [
        cell(int(row.given["nitrogen"]), f"{row.given['block']} {row.given['variety']}", row.value)
        for row in rows("yates-1935", "yield")
    ]
    fit = fit_in_blocks(cells, ways=4)
    means = np.array([0.0, *fit.estimate_log])
    assert rows("yates-1935", "nitrogen_ss")[0].agrees(float(18 * np.sum((means - means.mean()) ** 2)))
    wanted = rows("yates-1935", "subplot_ss")[0].value + rows("yates-1935", "both_ss")[0].value
    assert fit.rss == pytest.approx(wanted, abs=0.05)
    assert fit.dof == 45 + 6
