"""Hours that nobody noted: learned from one's own, and as wide as they should be."""

from math import exp, log, sqrt
from typing import Any

import numpy as np
import pytest

from bluewright.science.base.records import read
from bluewright.science.cost.call import cost
from bluewright.science.cost.cost_record import CostRecord
from bluewright.science.cost.hours import learned
from bluewright.science.cost.ledger import ledger
from bluewright.science.cost.priors import PICKING_MIN_PER_KG, WORK_BATCH_SD, WORK_MIN


def test_what_is_learned_has_the_closed_form_of_two_normals() -> None:
    """By hand, airing 40 min, log-sd 0.5, from batch to batch 0.3, noted 80 and 80: precision 4 + 2 / 0.09 = 26.2;
    mean log 80/40 weighed by 22.2 / 26.2 = 0.847, so 40 * 2^0.847 = 72.0; log-sd 26.2^-0.5 = 0.195."""
    found = learned("airing", [80.0, 80.0])
    assert found is not None
    assert found.centre == pytest.approx(72.0, abs=0.1)
    assert found.spread == pytest.approx(0.195, abs=0.001)


def test_without_notes_it_is_the_prior_and_of_beds_nothing_is_believed() -> None:
    assert learned("picking", []) == PICKING_MIN_PER_KG
    assert learned("bed", [600.0]) is None
    assert learned("other", []) is None


def test_a_note_of_no_work_teaches_nothing_and_keeps_it_at_none() -> None:
    assert learned("grinding", [0.0]) == WORK_MIN["grinding"]


def worked(work: list[dict[str, Any]], *, n: int = 2000) -> Any:
    batches = [{"id": "a", "leaf_kg": 6.0, "pigment_g": 20.0}, {"id": "b", "leaf_kg": 12.0, "pigment_g": 30.0}]
    return ledger(read(CostRecord, {"batches": batches, "work": work}), rng=np.random.default_rng(1), n=n).hours


def test_picking_goes_by_leaf() -> None:
    """Six minutes a kilogram: 6 kg 0.6 h, 12 kg 1.2 h."""
    found = worked([])
    assert np.median(found.work_h[1], axis=1) == pytest.approx([0.6, 1.2], rel=0.06)
    assert found.basis["picking"] == "prior"


def test_one_noted_batch_teaches_the_other() -> None:
    """24 min for 6 kg are 4 a kilogram; the other lies between that and the 6 of the prior, nearer to its own."""
    found = worked([{"kind": "picking", "spent_min": 24.0, "batch": "a", "off_frac": 0.02}])
    own, other = np.median(found.work_h[1], axis=1)
    assert own == pytest.approx(0.4, rel=0.01)
    assert 0.8 < other < 1.0
    assert found.basis["picking"] == "garden"


def test_work_noted_for_all_is_not_estimated_beside() -> None:
    found = worked([{"kind": "looking", "spent_min": 90.0}])
    assert float(np.median(found.work_h[3].sum(axis=0))) == pytest.approx(1.5, rel=0.02)
    assert found.basis["looking"] == "readings"


def test_a_batch_given_up_is_not_charged_with_work_it_never_saw() -> None:
    record = read(CostRecord, {"batches": [{"id": "a", "leaf_kg": 6.0, "failed": True}]})
    assert set(cost(record, rng=np.random.default_rng(1)).estimated) == {"picking", "filling", "looking", "straining"}


def test_without_leaf_s_weight_its_picking_is_in_no_figure_and_that_is_said() -> None:
    record = read(CostRecord, {"batches": [{"id": "a", "pigment_g": 10.0}]})
    found = cost(record, rng=np.random.default_rng(1))
    assert "picking" not in found.estimated
    assert "work-not-counted" in {caution.code for caution in found.cautions}


@pytest.mark.parametrize("notes", [0, 1, 4])
def test_nine_ranges_in_ten_hold_the_next_batch_of_gardens_drawn_from_the_prior(notes: int) -> None:
    """Simulated: a garden's middle from the prior, its batches about it; the predicted range against the next one."""
    rng, prior = np.random.default_rng(7), WORK_MIN["washing"]
    held, runs = 0, 1500
    for _ in range(runs):
        garden = prior.centre * exp(prior.spread * rng.standard_normal())
        own = list(garden * np.exp(WORK_BATCH_SD.value * rng.standard_normal(notes)))
        coming = garden * exp(WORK_BATCH_SD.value * rng.standard_normal())
        found = learned("washing", own)
        assert found is not None
        reach = 1.645 * sqrt(found.spread**2 + WORK_BATCH_SD.value**2)
        held += abs(log(coming / found.centre)) <= reach
    assert held / runs == pytest.approx(0.90, abs=0.025)
