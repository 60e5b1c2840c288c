"""The weighing of draws, against a case that can be solved by hand."""

import numpy as np
import pytest

from bluewright.science.air.weighing import weigh
from bluewright.science.base.errors import ModelError


@pytest.mark.parametrize(("seen", "error_sd"), [(0.5, 1.0), (2.0, 0.2), (4.0, 0.05)])
def test_it_finds_the_normal_posterior(seen: float, error_sd: float) -> None:
    """Own hand: prior N(0, 1), reading y with deviation s: mean y / (1 + s2), variance s2 / (1 + s2).

    Mild readings are only weighed, sharp ones far out in the prior's tail are tempered and moved.
    """

    def fit(z: np.ndarray) -> np.ndarray:
        return np.asarray(-0.5 * ((z[:, 0] - seen) / error_sd) ** 2)

    found = weigh(fit, causes=6, n=3000, rng=np.random.default_rng(1))
    mean = float(found.weights @ found.z[:, 0])
    deviation = float(np.sqrt(found.weights @ (found.z[:, 0] - mean) ** 2))
    variance = error_sd**2 / (1 + error_sd**2)
    assert mean == pytest.approx(seen / (1 + error_sd**2), abs=0.15 * np.sqrt(variance))
    assert deviation == pytest.approx(np.sqrt(variance), rel=0.12)
    others = found.weights @ found.z[:, 1:] ** 2
    assert others == pytest.approx(np.ones(5), abs=0.15), "what was not read keeps its prior"
    assert found.ess > 500
    assert np.sum(found.weights) == pytest.approx(1.0)


def test_two_humps_are_both_kept() -> None:
    """Own hand: |z| read as 2: half of the belief on either side."""

    def fit(z: np.ndarray) -> np.ndarray:
        return np.asarray(-0.5 * ((np.abs(z[:, 0]) - 2.0) / 0.1) ** 2)

    found = weigh(fit, causes=3, n=3000, rng=np.random.default_rng(2))
    assert float(found.weights @ (found.z[:, 0] > 0)) == pytest.approx(0.5, abs=0.08)


def test_what_no_draw_explains_is_said() -> None:
    with pytest.raises(ModelError, match="no batch within what is believed"):
        weigh(lambda z: np.full(len(z), -np.inf), causes=2, n=100, rng=np.random.default_rng(3))


def test_readings_out_of_all_reach_are_said() -> None:
    with pytest.raises(ModelError, match="contradict"):
        weigh(lambda z: -1e12 * (z[:, 0] - 3.0) ** 2, causes=2, n=200, rng=np.random.default_rng(4))
