"""Costs and stock as they are said."""

from typing import Any

import numpy as np

from bluewright.science.base.bands import Band
from bluewright.science.base.records import read
from bluewright.science.cost.call import cost
from bluewright.science.cost.cost_record import CostRecord
from bluewright.words.cost import hours_said, said
from bluewright.words.money import money, price
from bluewright.words.said import Rows
from bluewright.words.stock import difference_said

BATCH = {"id": "July 3", "leaf_kg": 6.0, "pigment_g": 20.0, "steep_l": 40.0}


def lines(**fields: Any) -> list[str]:
    found = cost(read(CostRecord, {"batches": [BATCH]} | fields), rng=np.random.default_rng(1))
    return [part for part in said(found).parts if isinstance(part, str)]


def test_money_is_never_finer_than_its_smallest_coin() -> None:
    fine = Band(p5=0.0111, p50=0.0234, p95=0.0456)
    assert money(fine, currency="EUR", decimals=2) == "0.02 EUR (0.01 to 0.05)"
    assert money(Band(p5=1200.4, p50=1534.0, p95=1900.0), currency="¥", decimals=0) == "1,500 ¥ (1,200 to 1,900)"
    assert money(fine, currency="", decimals=2).startswith("0.02 in your money")


def test_what_was_typed_keeps_its_coins() -> None:
    assert price(3.2, currency="EUR", decimals=2) == "3.20 EUR"
    assert price(14.0, currency="EUR", decimals=2) == "14 EUR"


def test_few_hours_are_said_in_minutes() -> None:
    assert hours_said(Band(p5=0.25, p50=0.5, p95=0.75)) == "30 minutes (15 to 45)"
    assert hours_said(Band(p5=1.0, p50=2.0, p95=3.0)) == "2 h (1 to 3)"


def test_a_gram_stands_first_with_money_only_where_there_is_a_price() -> None:
    assert lines()[0].startswith("A gram of pure blue took ")
    assert lines(wage_money_per_h=12.0, currency="EUR")[0].startswith("A gram of pure blue cost ")
    assert "EUR" in lines(wage_money_per_h=12.0, currency="EUR")[0]


def test_an_hour_s_earning_is_said_at_the_price_that_is_asked() -> None:
    told = lines(wage_money_per_h=12.0, currency="EUR", price_money_per_g=12.5)
    assert any(line.startswith("At 12.50 EUR a gram of pure blue an hour of work earns ") for line in told)
    assert not any("earns" in line for line in lines())


def test_before_any_pigment_it_says_so() -> None:
    assert lines(batches=[{"id": "a", "steep_l": 10.0}])[0].startswith("No batch has given pigment yet")


def test_each_table_has_its_columns() -> None:
    batches = [BATCH, BATCH | {"id": "July 9"}]
    found = cost(read(CostRecord, {"batches": batches}), rng=np.random.default_rng(1))
    tables = [part for part in said(found).parts if isinstance(part, Rows)]
    assert [table.caption for table in tables] == ["Where it goes", "Batch by batch"]
    assert all(len(row) == len(table.head) for table in tables for row in table.rows)


def test_a_difference_is_said_as_more_or_less_and_whether_it_is_usual() -> None:
    usual = difference_said("Jar 1", difference_g=-1.0, usual_g=2.1, chance=0.4)
    assert usual == "Jar 1 weighs 1 g less than booked; scale and damp bring up to 2.1 g."
    assert "taken or spilt" in difference_said("Jar 1", difference_g=-9.0, usual_g=2.1, chance=0.001)
    assert "more than booked" in difference_said("Jar 1", difference_g=9.0, usual_g=2.1, chance=0.001)
