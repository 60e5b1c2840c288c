"""The forecast is not over-confident: simulation-based calibration of the whole learning step.

A truth is drawn from the prior and read through the model's own signs and instruments; the ensemble learns from those
readings alone. Then the truth must be an ordinary member of the ensemble: its rank uniform, and a band named q % must
hold it in q % of the simulations, within Monte-Carlo error (Talts et al. 2018, key talts-2018).
"""

import numpy as np
import pytest

from bluewright.science.base.sourced import Floats
from bluewright.science.steep.decide import outlook
from bluewright.science.steep.ensemble import learn
from bluewright.science.steep.kinetics import Course
from bluewright.science.steep.setting import Setting
from tests.science.steep.simulate import blank, draw, record

SIMULATIONS = 120
MEMBERS = 500
QUANTITIES = ("hour of the peak", "share of the best now", "recoverable now", "temperature now", "speed of dying")


def quantities(base: Setting, z: Floats, course: Course) -> list[Floats]:
    now = base.row(base.record.now)
    view = outlook(course, np.full(len(z), 1 / len(z)))
    kill = base.column(z, "kill_25c_per_h")
    return [view.peak_h, view.share_frac[now], course.recoverable_mmol_per_l[now], course.temp_c[now], kill]


@pytest.fixture(scope="module")
def ranks() -> Floats:
    """Ranks (simulations, quantities) of the truth in the ensemble, 0 to 1."""
    rng = np.random.default_rng(2026)
    base = blank(record(), [18.0, 30.0, 45.0], rng)
    found = []
    for _ in range(SIMULATIONS):
        case = draw(base, rng)
        learned = learn(case.setting, members=MEMBERS, rng=rng)
        z = learned.population.z
        ours = quantities(case.setting, z, case.setting.course(z))
        truth = quantities(case.setting, case.truth_z, case.course)
        found.append([learned.weights @ ((a < t) + 0.5 * (a == t)) for a, t in zip(ours, truth, strict=True)])
    return np.array(found)


@pytest.mark.parametrize("column", range(len(QUANTITIES)), ids=QUANTITIES)
def test_ranks_of_the_truth_are_uniform(ranks: Floats, column: int) -> None:
    """Chi-square of ten bins: 23.6 is passed by chance once in two hundred times at 9 degrees of freedom."""
    counts = np.histogram(ranks[:, column], bins=10, range=(0, 1))[0]
    expected = SIMULATIONS / 10
    assert ((counts - expected) ** 2 / expected).sum() < 23.6


@pytest.mark.parametrize("column", range(len(QUANTITIES)), ids=QUANTITIES)
@pytest.mark.parametrize("named_frac", [0.5, 0.8, 0.95])
def test_bands_hold_the_truth_as_often_as_named(ranks: Floats, column: int, named_frac: float) -> None:
    held = np.mean(np.abs(ranks[:, column] - 0.5) <= named_frac / 2)
    error = np.sqrt(named_frac * (1 - named_frac) / SIMULATIONS)
    assert abs(held - named_frac) < 3 * error + 0.01, f"{held:.2f} for {named_frac:.2f}"


def test_the_check_would_see_an_over_confident_ensemble() -> None:
    """Ranks of a truth against bands that are a third too narrow fail the same checks."""
    rng = np.random.default_rng(0)
    truth = rng.standard_normal(SIMULATIONS)
    narrow = np.array([np.mean(0.66 * rng.standard_normal(MEMBERS) < t) for t in truth])
    counts = np.histogram(narrow, bins=10, range=(0, 1))[0]
    assert ((counts - SIMULATIONS / 10) ** 2 / (SIMULATIONS / 10)).sum() > 23.6
