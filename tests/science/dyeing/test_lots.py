"""Jars for a job: the exact mix against a search through all weighings, by hand, and what cannot be."""

from itertools import product
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.dyeing.lots import lots, mix
from bluewright.science.dyeing.lots_record import LotsAnswer, LotsRecord


def jar(name: str, mass_g: float, purity: float, sd: float, filled: str | None = None) -> dict[str, Any]:
    told = {"name": name, "mass_g": mass_g, "purity_frac": purity, "purity_sd_frac": sd}
    return told if filled is None else told | {"filled": filled}


def told(jars: list[dict[str, Any]], pure_g: float, **parts: Any) -> LotsRecord:
    return read(LotsRecord, {"jars": jars, "pure_g": pure_g} | parts)


def answered(jars: list[dict[str, Any]], pure_g: float, **parts: Any) -> LotsAnswer:
    return lots(told(jars, pure_g, **parts), rng=np.random.default_rng(1))


def spread(record: LotsRecord, amounts: np.ndarray) -> float:
    return float(np.sum((np.array([j.purity_sd_frac for j in record.jars]) * amounts) ** 2))


def searched(record: LotsRecord, steps: int = 60) -> float:
    """The least variance of all weighings of the jars but one on a grid; the last makes up the rest."""
    p, m = (np.array([getattr(j, name) for j in record.jars]) for name in ("purity_frac", "mass_g"))
    best = np.inf
    for amounts in product(*(np.linspace(0.0, most, steps) for most in m[:-1])):
        last = (record.pure_g - p[:-1] @ np.array(amounts)) / p[-1]
        if -1e-9 <= last <= m[-1] * (1 + 1e-9):
            whole = np.array([*amounts, last])
            if np.sum(whole > 1e-9) <= record.most_jars:
                best = min(best, spread(record, whole))
    return best


@settings(deadline=None, max_examples=40)
@given(
    jars=st.lists(
        st.tuples(st.floats(5, 100), st.floats(0.1, 0.6), st.floats(0.005, 0.08)), min_size=2, max_size=3
    ),
    share=st.floats(0.05, 0.98), most=st.integers(1, 3),
)  # fmt: skip
def test_no_weighing_on_a_grid_beats_the_mix(jars, share, most):
    held = sum(mass * purity for mass, purity, _ in jars)
    record = told([jar(str(k), *one) for k, one in enumerate(jars)], share * held, most_jars=most)
    found, grid = mix(record), searched(record)
    if found is None:
        assert grid == np.inf
        return
    p, m = (np.array([getattr(j, name) for j in record.jars]) for name in ("purity_frac", "mass_g"))
    assert p @ found == pytest.approx(record.pure_g)
    assert np.all((found >= 0) & (found <= m * (1 + 1e-9)))
    assert np.sum(found > 1e-9) <= most
    assert spread(record, found) <= grid * (1 + 1e-9)


@settings(deadline=None, max_examples=25)
@given(
    jars=st.lists(
        st.tuples(st.floats(5, 100), st.floats(0.1, 0.6), st.floats(0.005, 0.08)), min_size=3, max_size=4
    ),
    share=st.floats(0.05, 0.98), weights=st.lists(st.floats(0, 1), min_size=4, max_size=4),
)  # fmt: skip
def test_at_a_wanted_purity_a_second_solver_finds_nothing_better(jars, share, weights):
    """SLSQP of SciPy, begun at a mix that is possible: of drawn shares of the jars, whose purity is then wanted."""
    m, p, s = np.array(jars).T
    start = share * (np.array(weights[: len(jars)]) + 0.01) / 1.01 * m
    need, purity = float(p @ start), float(p @ start / start.sum())
    record = told([jar(str(k), *one) for k, one in enumerate(jars)], need, wanted_purity_frac=purity, most_jars=4)
    found = mix(record)
    assert found is not None
    assert found.sum() * purity == pytest.approx(need, rel=1e-5)
    assert np.all((found >= 0) & (found <= m * (1 + 1e-9)))
    rows = np.array([p, p - purity])
    other = minimize(
        lambda x: np.sum((s * x) ** 2) / spread(record, start), start, bounds=[(0, most) for most in m],
        constraints=[{"type": "eq", "fun": lambda x: (rows @ x - [need, 0]) / need}],
        method="SLSQP",
    )  # fmt: skip
    met = max(abs(p @ other.x - need), abs((p - purity) @ other.x)) <= 1e-6 * need
    least = spread(record, other.x) if met else spread(record, start)
    assert spread(record, found) <= least * (1 + 1e-4)


def test_purity_enters_once():
    """Half as pure and half as surely known: twice the mass, the same grams of indigo and the same share of spread."""
    strong = answered([jar("a", 200, 0.4, 0.04), jar("b", 200, 0.5, 0.02)], 30.0)
    weak = answered([jar("a", 400, 0.2, 0.02), jar("b", 400, 0.25, 0.01)], 30.0)
    assert [part.take_g for part in weak.parts] == pytest.approx([2 * part.take_g for part in strong.parts], rel=1e-3)
    assert sum(part.pure_g for part in weak.parts) == pytest.approx(30.0, rel=1e-3)
    assert weak.spread_pct == strong.spread_pct
    assert weak.purity_pct.p50 == pytest.approx(strong.purity_pct.p50 / 2, rel=1e-3)


def test_two_equal_jars_are_taken_by_halves_and_halve_the_variance():
    """By hand: 100 g of 0.3 from two jars of sd 0.03: 50 and 50, sd 0.03 x sqrt(2) x 50 = 2.12 g of 30, 7.1 %."""
    found = answered([jar("a", 100, 0.3, 0.03), jar("b", 100, 0.3, 0.03)], 30.0)
    assert [part.take_g for part in found.parts] == pytest.approx([50, 50])
    assert found.spread_pct == pytest.approx(7.07, abs=0.01)
    assert found.single_spread_pct == pytest.approx(10.0)


def test_a_wanted_purity_is_met_by_the_lever_rule():
    """By hand: 0.3 from 0.2 and 0.5 is two parts to one: 100 g hold 30 g, 66.7 and 33.3."""
    found = answered([jar("poor", 100, 0.2, 0.02), jar("rich", 100, 0.5, 0.02)], 30.0, wanted_purity_frac=0.3)
    assert {part.name: part.take_g for part in found.parts} == pytest.approx({"poor": 66.67, "rich": 33.33}, abs=0.01)
    assert found.purity_pct.p50 == pytest.approx(30.0)


def test_oldest_first_empties_the_oldest_and_breaks_into_the_next():
    jars = [jar("new", 100, 0.4, 0.01, "2026-09-01"), jar("old", 50, 0.2, 0.05, "2025-08-01")]
    found = answered(jars, 30.0, oldest_first=True)
    assert {part.name: (part.take_g, part.left_g) for part in found.parts} == {"old": (50, 0), "new": (50, 50)}
    assert answered(jars, 30.0).parts[0].name == "new"
    assert answered(jars, 30.0, oldest_first=True, most_jars=1).mixed is False


def test_jars_that_do_not_hold_enough_are_told_by_how_much():
    found = answered([jar("a", 100, 0.3, 0.03)], 50.0)
    assert found.mixed is False
    assert found.missing_g == pytest.approx(20.0)
    assert found.parts == ()
    assert "no-mix" not in {c.code for c in found.cautions}


def test_enough_in_all_but_in_too_many_jars_is_said():
    found = answered([jar(str(k), 10, 0.3, 0.03) for k in range(5)], 14.0, most_jars=4)
    assert found.missing_g == 0.0
    assert "no-mix" in {c.code for c in found.cautions}


def test_the_chance_to_fall_short_is_that_of_a_normal():
    """By hand: 30 g give or take 3 g fall below 27 g with 15.9 in 100."""
    found = answered([jar("a", 100, 0.3, 0.03)], 30.0)
    assert found.short_chance == pytest.approx(0.159, abs=0.001)
    assert found.pure_g.p5 == pytest.approx(30 - 1.6449 * 3, abs=0.01)


def test_names_stand_once_and_days_are_needed_for_oldest_first():
    for jars, parts, where in (
        ([jar("a", 10, 0.3, 0.03), jar("a", 20, 0.3, 0.03)], {}, "jars[1].name"),
        ([jar("a", 10, 0.3, 0.03)], {"oldest_first": True}, "jars[0].filled"),
        (
            [jar("a", 10, 0.3, 0.03, "2026-07-01")],
            {"oldest_first": True, "wanted_purity_frac": 0.3},
            "wanted_purity_frac",
        ),
    ):
        with pytest.raises(InputError) as caught:
            told(jars, 1.0, **parts)
        assert caught.value.where == where
