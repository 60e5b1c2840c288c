"""The state is not over-confident: vats drawn from the priors, seen through the model's own signs, ranked in the
ensemble.

Named coverage within Monte Carlo error (Talts et al. 2018, key talts-2018), and two parameters found again.
"""

import numpy as np
import pytest

from bluewright.science.base.records import read
from bluewright.science.base.sourced import Floats
from bluewright.science.vat.course import run
from bluewright.science.vat.learn import learn
from bluewright.science.vat.setting import setting
from bluewright.science.vat.state_record import VatRecord
from tests.science.vat.otherwise import one_otherwise
from tests.science.vat.simulated import made, one_truth

SIMULATIONS = 60
MEMBERS = 300
OTHERWISE = 40
QUANTITIES = ("reduced_mmol", "waiting_mmol", "ph", "taken_mmol")
FOUND_AGAIN = ("start_ph", "mv_bias")


@pytest.fixture(scope="module")
def ranks() -> tuple[Floats, Floats]:
    """Ranks of the truth in the ensemble (simulations, quantities), and true and found scores of the parameters."""
    rng, base = np.random.default_rng(7), made()
    found, scores = [], []
    for _ in range(SIMULATIONS):
        truth_z, truth, fields = one_truth(base, rng)
        case = setting(read(VatRecord, fields))
        learned = learn(case, rng=rng, members=MEMBERS).population
        course, row = run(case, learned.z), []
        for name in QUANTITIES:
            values, true = course.of(name)[-1], truth.of(name)[-1]
            row.append(learned.weights @ ((values < true) + 0.5 * (values == true)))
        found.append(row)
        columns = [case.names.index(name) for name in FOUND_AGAIN]
        scores.append(np.concatenate([truth_z[0, columns], learned.weights @ learned.z[:, columns]]))
    return np.array(found), np.array(scores)


@pytest.mark.parametrize("column", range(len(QUANTITIES)), ids=QUANTITIES)
@pytest.mark.parametrize("named_frac", [0.5, 0.9])
def test_bands_hold_the_truth_as_often_as_named(ranks: tuple[Floats, Floats], column: int, named_frac: float) -> None:
    held = np.mean(np.abs(ranks[0][:, column] - 0.5) <= named_frac / 2)
    error = np.sqrt(named_frac * (1 - named_frac) / SIMULATIONS)
    assert abs(held - named_frac) < 3 * error + 0.02, f"{held:.2f} for {named_frac:.2f}"


@pytest.mark.parametrize("column", range(len(FOUND_AGAIN)), ids=FOUND_AGAIN)
def test_looks_find_the_parameters_again(ranks: tuple[Floats, Floats], column: int) -> None:
    """Their means follow the truth: without looks the correlation would be nothing."""
    true, mean = ranks[1][:, column], ranks[1][:, len(FOUND_AGAIN) + column]
    assert np.corrcoef(true, mean)[0, 1] > 0.4


def test_bands_hold_where_the_vat_is_built_otherwise_and_its_reader_slanted() -> None:
    """Another law of reduction, other noise, a slant: at least as often as named, within the error of so few vats."""
    rng, held = np.random.default_rng(3), []
    for _ in range(OTHERWISE):
        truth, fields = one_otherwise(rng)
        case = setting(read(VatRecord, fields))
        learned = learn(case, rng=rng, members=MEMBERS).population
        now = run(case, learned.z).rows[-1]
        unreduced = now.waiting_mmol + now.grains_mmol
        found = {
            "reduced": now.reduced_mmol, "unreduced": unreduced, "all": now.reduced_mmol + unreduced, "ph": now.ph,
            "taken": now.taken_mmol,
        }  # fmt: skip
        held.append([abs(learned.weights @ (found[name] < value) - 0.5) for name, value in truth.items()])
    for named_frac in (0.5, 0.9):
        error = np.sqrt(named_frac * (1 - named_frac) / OTHERWISE)
        for name, share in zip(truth, np.mean(np.array(held) <= named_frac / 2, axis=0), strict=True):
            assert share > named_frac - 3 * error - 0.02, f"{name}: {share:.2f} for {named_frac:.2f}"
