"""What one batch says: signs and numbers taken in as Bayes would, and the steep's own sampler as a second opinion."""

import json
from importlib import resources

import numpy as np
import pytest

from bluewright.science import thread
from bluewright.science.base.levels import level_chance
from bluewright.science.base.records import read
from bluewright.science.memory.record import GardenRecord
from bluewright.science.memory.told import Seen, SeenSign, message, told
from bluewright.science.steep.signs import SIGNS

LIMP, SMELL = SIGNS["limpness"], SIGNS["smell"]


def test_two_signs_are_taken_in_as_on_a_fine_grid_of_scores() -> None:
    slopes = np.array([[0.4, 0.1], [0.05, 0.3]])
    at = np.array([0.5, 0.2])
    seen = Seen([SeenSign(0, "limpness", LIMP, 2), SeenSign(0, "smell", SMELL, 1)], [], np.array([]), np.array([]))
    precision, push = message(seen, at=at, slopes=slopes, extra=np.zeros((2, 2)))
    covariance = np.linalg.inv(np.eye(2) + precision)
    line = np.linspace(-6, 6, 401)
    one, two = np.meshgrid(line, line, indexing="ij")
    weight = np.exp(-0.5 * (one**2 + two**2))
    for k, (sign, level) in enumerate(((LIMP, 2), (SMELL, 1))):
        cue = at[k] + slopes[k, 0] * one + slopes[k, 1] * two
        weight *= level_chance(cue, cuts=sign.cuts, slope=sign.slope, level=level)
    weight /= weight.sum()
    middle = np.array([(weight * one).sum(), (weight * two).sum()])
    spread = np.sqrt([(weight * (one - middle[0]) ** 2).sum(), (weight * (two - middle[1]) ** 2).sum()])
    assert covariance @ push == pytest.approx(middle, abs=0.02)
    assert np.sqrt(np.diag(covariance)) == pytest.approx(spread, rel=0.02)


def test_a_number_alone_is_the_rule_of_normals() -> None:
    """By hand: y = 1 + 2 z, read as 3 with variance 0.5 and scatter 0.5 beside: precision 2*2/1, push 2*(3 - 1)/1."""
    seen = Seen([], [(0, "ph")], np.array([3.0]), np.array([0.5]))
    precision, push = message(seen, at=np.array([1.0]), slopes=np.array([[2.0]]), extra=np.array([[0.5]]))
    assert precision[0, 0] == pytest.approx(4.0, rel=1e-5)
    assert push[0] == pytest.approx(4.0, rel=1e-5)


def test_the_steeps_own_sampler_finds_the_same_from_the_same_looks() -> None:
    """An ensemble of 2,000 after all looks, no yield: means within 0.3 and spreads within a fifth."""
    text = resources.files("bluewright").joinpath("examples", "learned.json").read_text("utf-8")
    plain = json.loads(text)
    batch = {key: value for key, value in plain["batches"][0].items() if not key.startswith("pure")}
    made = read(GardenRecord, plain | {"batches": [batch]}).batches[0]
    found = told(made, rng=np.random.default_rng(1))
    covariance = np.linalg.inv(np.eye(len(found.names)) + found.precision)
    mean = covariance @ found.push
    ensemble = thread.begin_steep(made.steep, rng=np.random.default_rng(2))
    for name in ("kill_25c_per_h", "limpness", "darkness", "brown_25c_per_h", "dye_index"):
        z = ensemble.setting.column(ensemble.population.z, name)
        middle = float(ensemble.weights @ z)
        sd = float(np.sqrt(ensemble.weights @ (z - middle) ** 2))
        k = found.names.index(name)
        assert mean[k] == pytest.approx(middle, abs=0.3), name
        assert np.sqrt(covariance[k, k]) == pytest.approx(sd, rel=0.2), name
