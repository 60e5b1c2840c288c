"""Marked plants: what their longest leaves tell of the next cut."""

from datetime import date, timedelta

import numpy as np
import pytest
from scipy.stats import multivariate_normal

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.bed.growth import growth
from bluewright.science.bed.growth_lengths import LengthsSeen, log_likelihood
from bluewright.science.bed.growth_model import CutSeen, Growth, leaf_frac, learn
from bluewright.science.bed.growth_priors import (
    FULL_LENGTH_MM,
    LENGTH_LEAF_SD,
    LENGTH_LEVEL_SD,
    LENGTH_LOOK_SD,
    LENGTH_POWER,
    RIPE_SD,
)
from bluewright.science.bed.growth_record import GrowthRecord
from tests.science.bed.beds_grown import CENTRAL_ENGLAND, Bed, a_bed, cut, weather

WEEKS = np.array([150.0, 220.0, 290.0, 360.0, 430.0])
"""Degree-days since the cut at each week's look."""


def seen_at(bed: Bed, gone: np.ndarray, *, own: float, rng: np.random.Generator, plants: int = 10) -> LengthsSeen:
    """Marked plants of a regrowth after a cut, whose ripeness is off by a factor, by the model's own law."""
    grown = bed.season(0)
    ripe = grown.again_degree_d * own
    share = leaf_frac(gone, ripe_degree_d=ripe, rise_degree_d=grown.rise_degree_d)
    full = np.log(FULL_LENGTH_MM["woad"].draw(rng, 1)) + LENGTH_LEVEL_SD.value * rng.standard_normal()
    noise = LENGTH_LOOK_SD.value * rng.standard_normal(len(gone))
    noise += LENGTH_LEAF_SD.value / np.sqrt(plants) * rng.standard_normal(len(gone))
    log_mm = full + LENGTH_POWER.draw(rng, 1) * np.log(share) + noise
    return LengthsSeen(
        regrowth=0, start=None, gone_degree_d=gone, gone_sd=np.zeros(len(gone)), log_mm=log_mm,
        marked_plants=np.full(len(gone), float(plants)),
    )  # fmt: skip


def ripe(grown: Growth, rng: np.random.Generator) -> np.ndarray:
    n = len(grown.again_degree_d)
    own = np.exp(RIPE_SD.value * rng.standard_normal(n)) if grown.own_factor is None else grown.own_factor
    return grown.again_degree_d * own


def test_the_likelihood_is_that_of_a_normal_whose_looks_hang_together() -> None:
    """Reference: scipy's multivariate normal with the covariance written out, less its constant."""
    rng = np.random.default_rng(5)
    k = 4
    seen = LengthsSeen(
        regrowth=0, start=None, gone_degree_d=WEEKS[:k], gone_sd=np.array([5.0, 9.0, 14.0, 20.0]),
        log_mm=rng.normal(5.0, 0.3, k), marked_plants=np.array([10.0, 8.0, 10.0, 3.0]),
    )  # fmt: skip
    log_share, slope = -rng.exponential(1.0, (3, k)), rng.exponential(0.01, (3, k))
    full, power = rng.normal(5.8, 0.2, 3), rng.uniform(0.3, 0.5, 3)
    found = log_likelihood(seen, log_share_frac=log_share, slope=slope, log_full_mm=full, power_factor=power)
    own = np.diag(LENGTH_LOOK_SD.value**2 + LENGTH_LEAF_SD.value**2 / seen.marked_plants)
    for n in range(3):
        moved = power[n] * slope[n] * seen.gone_sd
        covariance = own + LENGTH_LEVEL_SD.value**2 + np.outer(moved, moved)
        wanted = multivariate_normal(full[n] + power[n] * log_share[n], covariance).logpdf(seen.log_mm)
        assert found[n] == pytest.approx(wanted + k / 2 * np.log(2 * np.pi), rel=1e-9)


def test_they_narrow_the_next_cut_and_nine_ranges_in_ten_hold_it() -> None:
    """Forty beds, each with five looks at ten plants before its next cut is ready.

    Binomial: of 40 with a chance of 0.9 it is 31 to 40 all but one time in a hundred.
    """
    rng = np.random.default_rng(12)
    held, widths = 0, []
    for _ in range(40):
        bed = a_bed(rng, seasons=1)
        own = float(np.exp(RIPE_SD.value * rng.standard_normal()))
        true = float(bed.season(0).again_degree_d[0]) * own
        with_them = ripe(learn("woad", [], lengths=[seen_at(bed, WEEKS, own=own, rng=rng)], n=600, rng=rng), rng)
        without = ripe(learn("woad", [], n=600, rng=rng), rng)
        low, high = np.quantile(with_them, [0.05, 0.95])
        held += bool(low <= true <= high)
        widths.append(float(np.std(np.log(with_them)) / np.std(np.log(without))))
    assert 31 <= held <= 40
    assert np.median(widths) < 0.75


def test_a_slower_regrowth_is_told_from_the_bed_s_usual_one() -> None:
    """The same bed, its cuts judged right at 550: leaves that lag two weeks of warmth behind move this cut alone."""
    rng = np.random.default_rng(3)
    known = [
        CutSeen(season=0, start=None, gone_degree_d=550.0, gone_sd=0.0, leaf_kg_per_m2=None, state="right")
        for _ in range(4)
    ]
    bed = Bed(z=np.zeros(6))
    early, late = (
        learn("woad", known, lengths=[seen_at(bed, WEEKS, own=own, rng=np.random.default_rng(7))], n=1500, rng=rng)
        for own in (0.85, 1.15)
    )
    assert np.median(ripe(late, rng)) > 1.05 * np.median(ripe(early, rng))
    moved = np.median(late.again_degree_d) / np.median(early.again_degree_d)
    assert 1.0 <= moved < np.median(ripe(late, rng)) / np.median(ripe(early, rng))


def test_a_cut_after_marked_plants_shares_its_ripeness_with_them() -> None:
    rng = np.random.default_rng(8)
    bed = Bed(z=np.zeros(6))
    marked = seen_at(bed, WEEKS, own=1.0, rng=rng)
    ended = cut(bed, season=0, first=False, rng=rng)
    found = learn(
        "woad", [CutSeen(**{f: getattr(ended, f) for f in ended.__slots__} | {"regrowth": 1})],
        lengths=[LengthsSeen(**{f: getattr(marked, f) for f in marked.__slots__} | {"regrowth": 1})], n=500, rng=rng,
    )  # fmt: skip
    assert found.own_factor is None, "nothing of the present regrowth was measured"


def record(**fields: object) -> GrowthRecord:
    plain: dict[str, object] = {
        "plant": "woad", "began": "2026-04-01", "now": "2026-06-20", "bed_m2": 10.0,
        "weather": weather(CENTRAL_ENGLAND, 52.0),
    }  # fmt: skip
    return read(GrowthRecord, plain | fields)


def weekly(*lengths_cm: float, first: str = "2026-05-16") -> list[dict[str, object]]:
    return [
        {"on": (date.fromisoformat(first) + timedelta(days=7 * k)).isoformat(), "longest_mm": [10 * cm] * 10}
        for k, cm in enumerate(lengths_cm)
    ]


def test_in_a_record_they_move_and_narrow_the_day() -> None:
    """Leaves of 20 to 30 cm in June are nearly ready; of 4 to 9 cm they are late."""
    rng = np.random.default_rng(1)
    usual, tall, small = (
        growth(record(lengths=lengths), rng=rng)
        for lengths in ([], weekly(9, 13, 18, 23, 27), weekly(2.5, 3.5, 5, 7, 9))
    )
    assert tall.lengths_learned == small.lengths_learned == 5
    assert (usual.lengths_learned, usual.basis, tall.basis) == (0, "prior", "garden")
    assert tall.ready_on.middle is not None
    assert small.ready_on.middle is not None
    assert usual.ready_on.middle is not None
    assert tall.ready_on.middle < usual.ready_on.middle < small.ready_on.middle
    assert tall.ripe_degree_d.p95 / tall.ripe_degree_d.p5 < usual.ripe_degree_d.p95 / usual.ripe_degree_d.p5


@pytest.mark.parametrize("first", ["2026-03-20", "2026-06-19", "2026-04-01"])
def test_looks_before_the_beginning_or_after_today_are_refused(first: str) -> None:
    with pytest.raises(InputError, match=r"lengths\[\d\]\.on"):
        record(lengths=weekly(5, 6, first=first))
