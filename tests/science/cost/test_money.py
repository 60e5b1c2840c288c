"""Kit, price and return, by hand and by published arithmetic."""

import numpy as np
import pytest

from bluewright.science.cost.call import per_g
from bluewright.science.cost.money import price_floor_money_per_g, return_money_per_h, straight_line_money
from tests.published import Row, rows


@pytest.mark.parametrize("row", rows("straight-line", "a year"))
def test_a_thing_s_price_is_shared_over_its_years_in_equal_parts(row: Row) -> None:
    given = row.given
    assert row.agrees(
        straight_line_money(given["paid_money"], left_money=given["left_money"], lasts=given["lasts_years"])
    )


def test_what_is_left_in_the_end_is_not_used_up() -> None:
    """By hand: (90 - 10) / 8 = 10 a year."""
    assert straight_line_money(90.0, left_money=10.0, lasts=8.0) == 10.0


def test_the_floor_pays_for_margin_and_for_what_is_never_sold() -> None:
    """By hand: 9 / (0.8 * 0.9) = 12.5; of 100 g made 90 are sold for 1,125, of which 0.8 are the 900 they cost."""
    assert price_floor_money_per_g(9.0, margin_frac=0.2, allowance_frac=0.1) == pytest.approx(12.5)


def test_at_the_floor_without_margin_an_hour_earns_the_wage() -> None:
    """Law: 20 h at 12 and 30 paid make 270, of 15 g 18 each; sold to a tenth less at 20 it is 270 again."""
    floor = price_floor_money_per_g((20 * 12 + 30) / 15, margin_frac=0.0, allowance_frac=0.1)
    assert return_money_per_h(floor, sold_g=0.9 * 15, paid_money=30.0, work_h=20.0) == pytest.approx(12.0)


def test_a_ratio_is_taken_draw_by_draw_as_the_guide_has_it() -> None:
    """Voltage over current, which go together: drawn apart the spread would be 0.204."""
    (mean,), (sd,) = rows("gum-h2", "ratio"), rows("gum-h2", "ratio_sd")
    given = mean.given
    spread = np.array([given["volt_sd"], given["ampere_sd"]])
    both = np.outer(spread, spread) * np.array([[1, given["correlation"]], [given["correlation"], 1]])
    volt, ampere = np.random.default_rng(1).multivariate_normal((given["volt"], given["ampere"]), both, 40_000).T
    found = per_g(volt, ampere)
    assert found is not None
    assert mean.agrees(float(np.mean(found)))
    assert sd.agrees(float(np.std(found)))
