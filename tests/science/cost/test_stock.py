"""What is left, and whether scale and book agree."""

from math import exp, hypot, sqrt
from typing import Any

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.cost.priors import DRIFT_SD, LOST_PER_MONTH, WATER_OF_WASHING_SODA_FRAC
from bluewright.science.cost.stock import explained_chance, lasts_batches, stock, strength_factor
from bluewright.science.cost.stock_record import StockAnswer, StockRecord

JAR = {"name": "Jar 1", "filled": "2026-07-19", "put_in_g": 40.0, "purity": {"mean_frac": 0.3, "sd_frac": 0.03}}
SODA = {"name": "Soda", "kind": "soda_ash", "pack_amount": 1000.0}


def left(**fields: Any) -> StockAnswer:
    return stock(read(StockRecord, {"now": "2026-11-20"} | fields), rng=np.random.default_rng(1))


def test_the_book_by_hand() -> None:
    """40 g less 15 g are 25 g, dry 23.75 g, of them 0.3 pure: 7.1 g."""
    found = left(jars=[JAR | {"taken_g": 15.0, "takings": 2}])
    (jar,) = found.jars
    assert jar.booked_g == 25.0
    assert jar.pure_g.p50 == pytest.approx(7.125, rel=0.02)
    assert jar.difference_g is None


def test_a_weighing_within_scale_and_damp_is_explained() -> None:
    """By hand: booked 25 g, off by 0.5 sqrt(3) = 0.87, the weighing by 0.5 and 3 % = 0.90: 1.25 in all."""
    found = left(jars=[JAR | {"taken_g": 15.0, "takings": 2, "weighed_g": 24.0}])
    (jar,) = found.jars
    assert jar.difference_g == -1.0
    sd = hypot(0.5 * sqrt(3), hypot(0.5, DRIFT_SD.value * 25))
    assert jar.usual_difference_g is not None
    assert jar.usual_difference_g.p95 == pytest.approx(1.645 * sd, rel=0.05)
    assert jar.explained_chance == pytest.approx(explained_chance(1.0, sd_g=sd), rel=1e-3)
    assert found.unexplained_jars == ()


def test_a_loss_beyond_them_is_named() -> None:
    found = left(jars=[JAR | {"taken_g": 15.0, "weighed_g": 15.0, "dried_again": True}])
    assert found.unexplained_jars == ("Jar 1",)
    assert found.jars[0].left_g.p50 == pytest.approx(15.0, rel=0.01)


def test_a_difference_of_one_and_two_spreads_as_tables_of_the_normal_have_it() -> None:
    """Two-sided tails of the normal distribution: 0.3173 beyond one, 0.0455 beyond two (any table)."""
    assert explained_chance(1.0, sd_g=1.0) == pytest.approx(0.3173, abs=5e-5)
    assert explained_chance(-2.0, sd_g=1.0) == pytest.approx(0.0455, abs=5e-5)


def test_as_many_honest_jars_are_named_as_the_level_says() -> None:
    """Simulated: jars with nothing lost, weighed anew with scale and damp: one in twenty is named."""
    rng, named, runs = np.random.default_rng(2), 0, 1500
    for _ in range(runs):
        true = 25.0
        booked = true + 0.5 * sqrt(3) * rng.standard_normal()
        weighed = true * exp(DRIFT_SD.value * rng.standard_normal()) + 0.5 * rng.standard_normal()
        sd = hypot(0.5 * sqrt(3), hypot(0.5, DRIFT_SD.value * true))
        named += explained_chance(weighed - booked, sd_g=sd) < 0.05
    assert named / runs == pytest.approx(0.05, abs=0.015)


def test_the_sum_of_jars_of_one_doubt_is_as_wide_as_each() -> None:
    found = left(jars=[JAR | {"name": name, "scale_sd_g": 0.001} for name in "abc"])
    one, whole = found.jars[0].pure_g, found.pure_g
    assert whole is not None
    assert whole.p5 == pytest.approx(3 * one.p5, rel=0.01)
    assert whole.p95 == pytest.approx(3 * one.p95, rel=0.01)


def test_the_oldest_stands_first_and_empty_jars_last() -> None:
    found = left(
        jars=[
            JAR | {"name": "new", "filled": "2026-10-01"},
            JAR | {"name": "empty", "filled": "2026-05-01", "taken_g": 40.0},
            JAR | {"name": "old", "filled": "2026-06-01"},
        ]
    )
    assert [jar.name for jar in found.jars] == ["old", "new", "empty"]
    assert found.jars[-1].pure_g.p95 == 0


def test_alkali_by_hand() -> None:
    """1,000 g less 640 g are 360 g; six batches of 58 g and a bit, closed and as strong as new."""
    found = left(alkalis=[SODA | {"used_amount": 640.0, "batch_takes_amount": 58.0, "batches_seen": 400}])
    (one,) = found.alkalis
    assert one.left_amount.p50 == pytest.approx(360.0, rel=0.02)
    assert one.strength_factor.p5 == one.strength_factor.p95 == 1.0
    assert one.lasts_batches is not None
    assert one.lasts_batches.p50 == pytest.approx(360 / 58, rel=0.02)
    assert lasts_batches(np.array([360.0]), strength_factor=np.array([0.5]), takes_amount=np.array([60.0])) == [3.0]


def test_lime_in_an_open_bag_falls_by_halves() -> None:
    """exp(-k t): at 2 % a month a half is left after ln 2 / 0.02 = 34.7 months."""
    assert LOST_PER_MONTH["slaked_lime"].centre == 0.02
    found = strength_factor("slaked_lime", lost_per_month=np.array([0.02]), open_months=34.657)
    assert found[0] == pytest.approx(0.5, abs=1e-4)


def test_washing_soda_that_has_dried_wholly_is_as_strong_as_its_monohydrate() -> None:
    """By molar mass: 286.14 g of crystals dry to 286.14 - 9 x 18.015 = 124.0 g: 2.307 times as strong."""
    found = strength_factor("washing_soda", lost_per_month=np.array([1.0]), open_months=1000.0)
    assert found[0] == pytest.approx(286.14 / 124.005, rel=2e-4)
    assert WATER_OF_WASHING_SODA_FRAC.value == pytest.approx(9 * 18.015 / 286.14, abs=1e-4)


def test_old_lime_is_cautioned_and_closed_lime_is_not() -> None:
    lime = {"name": "Lime", "kind": "slaked_lime", "pack_amount": 2000.0}
    codes = {caution.code for caution in left(alkalis=[lime | {"opened": "2024-05-01"}]).cautions}
    assert {"alkali-weak", "alkali-storage"} <= codes
    assert "alkali-weak" not in {caution.code for caution in left(alkalis=[lime]).cautions}


@pytest.mark.parametrize(
    ("fields", "where"),
    [
        ({}, "jars"),
        ({"jars": [JAR | {"taken_g": 60.0}]}, "jars[0].taken_g"),
        ({"jars": [JAR | {"filled": "2026-12-01"}]}, "jars[0].filled"),
        ({"alkalis": [SODA | {"used_amount": 1300.0}]}, "alkalis[0].used_amount"),
        ({"alkalis": [SODA | {"opened": "2027-01-01"}]}, "alkalis[0].opened"),
    ],
)
def test_what_cannot_be_is_refused_where_it_stands(fields: dict[str, Any], where: str) -> None:
    with pytest.raises(InputError) as error:
        left(**fields)
    assert error.value.where == where
