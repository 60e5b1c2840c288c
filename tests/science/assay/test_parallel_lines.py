"""Parallel lines: a pharmacopoeia's worked example, numpy as a second opinion, and coverage by simulation."""

from dataclasses import replace

import numpy as np
import pytest

from bluewright.science.assay.design import design
from bluewright.science.assay.design_record import DesignRecord
from bluewright.science.assay.dyeing import dyeing
from bluewright.science.assay.dyeing_record import DyedSwatch, DyeingAnswer, DyeingRecord
from bluewright.science.assay.parallel_lines import ParallelLines, parallel_lines
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from tests.published import rows

STANDARD = ((300, 310, 330, 290, 364, 328, 390, 360, 342, 306), (289, 221, 267, 236, 250, 231, 229, 269, 233, 259))
TESTED = ((310, 290, 360, 341, 321, 370, 303, 334, 295, 315), (230, 210, 280, 261, 241, 290, 223, 254, 216, 235))


def test_the_pharmacopoeia_s_example_is_found_again() -> None:
    """Its error is that within groups (36 degrees of freedom), ours that about the lines: the limits take its own."""
    known = {row.what: row for row in rows("ph-eur-corticotrophin")}
    x = np.log(np.repeat([0.25, 1.0, 0.25, 1.0], 10))
    y = np.array([*STANDARD[0], *STANDARD[1], *TESTED[0], *TESTED[1]], float)
    lines = parallel_lines(x, y, np.repeat([False, False, True, True], 10))
    within = float(np.mean([np.var(group, ddof=1) for group in (*STANDARD, *TESTED)]))
    same = replace(lines, covariance=lines.covariance * within / lines.scatter_sd**2, dof=36)
    limits = same.fieller(0.95)
    assert limits is not None
    assert known["residual mean square"].agrees(within)
    assert known["common slope"].agrees(lines.slope)
    assert known["chance if parallel"].agrees(lines.parallel_chance)
    assert known["potency"].agrees(float(np.exp(lines.lift / lines.slope)))
    assert known["lower limit"].agrees(float(np.exp(limits[0])))
    assert known["upper limit"].agrees(float(np.exp(limits[1])))


def test_its_own_limits_lie_where_the_difference_is_just_two_standard_errors() -> None:
    """Own hand: at a limit r, (lift - r slope)^2 = t^2 (v22 - 2 r v12 + r^2 v11)."""
    lines = fitted(np.random.default_rng(3))
    limits = lines.fieller(0.95)
    assert limits is not None
    v = lines.covariance
    for r in limits:
        t = (lines.lift - r * lines.slope) / np.sqrt(v[1, 1] - 2 * r * v[0, 1] + r * r * v[0, 0])
        assert abs(t) == pytest.approx(2.2622, abs=1e-4), "the 97.5 % point of t with 9 degrees of freedom"


def fitted(rng: np.random.Generator) -> ParallelLines:
    masses, of = layout()
    y = depth(masses, of, rho=0.4, scatter=0.1, rng=rng)
    return parallel_lines(np.log(masses), np.log(y), of)


def layout(repeats: int = 2) -> tuple[np.ndarray, np.ndarray]:
    masses = np.repeat([20.0, 40.0, 80.0, 20.0, 40.0, 80.0], repeats)
    return masses, np.repeat([False, False, False, True, True, True], repeats)


def depth(masses: np.ndarray, of: np.ndarray, *, rho: float, scatter: float, rng: np.random.Generator) -> np.ndarray:
    strong = np.where(of, rho, 1.0) * masses
    return np.asarray(3.0 * (strong / 40.0) ** 0.85 * np.exp(scatter * rng.standard_normal(len(masses))))


def test_the_interval_covers_as_named() -> None:
    """1000 simulated studies, strength 0.40, scatter 10 %: Fieller's 95 % holds it 935 to 965 times (two in a hundred
    thousand such runs would be outside by chance), and the 90 % band 870 to 930 times."""
    rng, inside, narrow = np.random.default_rng(20), 0, 0
    for _ in range(1000):
        lines = fitted(rng)
        low, high = lines.fieller(0.95) or (-np.inf, np.inf)
        inside += low <= np.log(0.4) <= high
        low, high = lines.fieller(0.90) or (-np.inf, np.inf)
        narrow += low <= np.log(0.4) <= high
    assert 930 <= inside <= 970
    assert 870 <= narrow <= 930


def test_the_whole_answer_covers_too() -> None:
    """250 studies with a standard of exactly 95 %: the band of the purity holds 40 % x 0.95 nine times in ten."""
    rng, inside, told = np.random.default_rng(5), 0, 0
    masses, of = layout()
    for _ in range(250):
        depths = depth(masses, of, rho=0.4, scatter=0.1, rng=rng)
        found = answered(masses, of, depths, standard_sd_frac=0.001, moisture_frac=0.0)
        if found.indigo_pct is not None:
            told += 1
            inside += found.indigo_pct.p5 <= 38.0 <= found.indigo_pct.p95
    assert told >= 225, "a true strength is refused as not parallel one time in twenty"
    assert 0.84 <= inside / told <= 0.95


def answered(masses: np.ndarray, of: np.ndarray, depths: np.ndarray, **fields: float) -> DyeingAnswer:
    swatches = tuple(
        DyedSwatch(of="sample" if second else "standard", pigment_mg=float(mass), k_over_s=float(k))
        for mass, second, k in zip(masses, of, depths, strict=True)
    )
    return dyeing(DyeingRecord(swatches=swatches, **fields), rng=np.random.default_rng(1))


def test_lines_that_are_not_parallel_get_no_strength() -> None:
    masses, of = layout()
    rng = np.random.default_rng(2)
    y = 3 * (masses / 40) ** np.where(of, 0.4, 1.0) * np.exp(0.05 * rng.standard_normal(len(masses)))
    found = answered(masses, of, y)
    assert found.verdict == "not_parallel"
    assert found.indigo_pct is None
    assert found.parallel_chance < 0.001


def test_depth_that_does_not_rise_gets_no_strength() -> None:
    masses, of = layout()
    found = answered(masses, of, 3 * np.exp(0.3 * np.random.default_rng(2).standard_normal(len(masses))))
    assert (found.verdict, found.indigo_pct, found.strength_low_factor) == ("flat", None, None)


def test_the_test_of_parallelism_is_wrong_as_often_as_it_says() -> None:
    rng = np.random.default_rng(11)
    surprised = sum(fitted(rng).parallel_chance < 0.05 for _ in range(1000))
    assert 25 <= surprised <= 78, "50 expected, standard deviation 7"


def test_numpy_gives_the_same_slopes() -> None:
    masses, of = layout()
    y = depth(masses, of, rho=0.4, scatter=0.1, rng=np.random.default_rng(9))
    lines = parallel_lines(np.log(masses), np.log(y), of)
    for which, slope in zip((~of, of), lines.apart_slope, strict=True):
        assert slope == pytest.approx(np.polyfit(np.log(masses[which]), np.log(y[which]), 1)[0], rel=1e-9)


def test_one_amount_is_no_line() -> None:
    masses, of = np.array([20.0, 40, 80, 60, 60, 60]), np.array([False] * 3 + [True] * 3)
    with pytest.raises(InputError, match=r"the sample has 1 amount; dye with two or more"):
        answered(masses, of, masses / 20)


@pytest.mark.parametrize(
    ("amounts", "repeats", "scatter", "told"),
    [(3, 1, 0.05, 12), (3, 1, 0.1, 24), (3, 2, 0.05, 9), (3, 2, 0.1, 17), (3, 2, 0.2, 34), (4, 2, 0.1, 13),
     (4, 3, 0.1, 11), (4, 3, 0.2, 21)],
)  # fmt: skip
def test_expected_precision_is_that_of_simulated_studies(
    amounts: int, repeats: int, scatter: float, told: float
) -> None:
    """Told: half ranges (per cent of a strength of 0.40, slope 0.85, masses not matched) of a simulation that was made
    apart from this program, before it was written."""
    found = design(
        read(
            DesignRecord,
            {"wanted_pct": 15.0, "scatter_sd": scatter, "slope": 0.85, "guess_factor": 0.4, "matched": False},
        ),
        rng=np.random.default_rng(1),
    )
    plan = next(one for one in found.designs if (one.amounts, one.repeats) == (amounts, repeats))
    assert plan.spread_pct == pytest.approx(told, abs=0.8 + 0.03 * told)
    assert plan.half_range_pct.p95 > 1.3 * plan.spread_pct, "few swatches do not know their own scatter well"


def test_the_smallest_plan_that_is_good_enough_is_advised() -> None:
    found = design(read(DesignRecord, {"wanted_pct": 20.0}), rng=np.random.default_rng(1))
    assert found.advised is not None
    smaller = [one for one in found.designs if one.swatches < found.advised.swatches]
    assert all(one.half_range_pct.p50 > 20.0 for one in smaller)
    assert found.sample_mg[0] == pytest.approx(found.standard_mg[0] / 0.4)
