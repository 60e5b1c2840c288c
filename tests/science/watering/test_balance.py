"""One day of the root zone, against the worked examples of FAO-56 and against arithmetic."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.watering.balance import next_depletion, store, thirst
from tests.published import Row, rows


def missing_after(days: float) -> float:
    """Example 37: a root zone of 160 mm, 40 % easy, 55 mm missing, a wish of 5 mm times 1.2 a day, no rain."""
    missing = 55.0
    for _ in range(int(days)):
        missing = float(next_depletion(missing, wanted_mm=6.0, gained_mm=0.0, store_mm=160.0, easy_frac=0.40))
    return missing


FORMULAS = {"store": store, "thirst": thirst, "missing after days": missing_after}


@pytest.mark.parametrize("row", rows("fao-56-water"), ids=lambda row: row.what)
def test_a_worked_example_of_fao_56(row: Row) -> None:
    assert row.agrees(float(FORMULAS[row.what](**row.given)))  # type: ignore[operator]


def test_the_store_of_a_bed_and_its_easy_part() -> None:
    """Own hand: 0.23 less 0.10 of the volume over 0.6 m is 78 mm, of which 45 % are 35.1 mm."""
    held = float(store(available_frac=0.13, root_m=0.6))
    assert held == pytest.approx(78.0)
    assert float(thirst(35.1, store_mm=held, easy_frac=0.45)) == pytest.approx(1.0)
    assert float(thirst(35.2, store_mm=held, easy_frac=0.45)) < 1.0


@given(
    missing=st.floats(0, 100), wanted=st.floats(0, 12), gained=st.floats(0, 80), easy=st.floats(0.1, 0.8)
)  # fmt: skip
def test_water_is_neither_made_nor_lost_within_the_store(
    missing: float, wanted: float, gained: float, easy: float
) -> None:
    found = float(next_depletion(missing, wanted_mm=wanted, gained_mm=gained, store_mm=100.0, easy_frac=easy))
    used = float(thirst(missing, store_mm=100.0, easy_frac=easy)) * wanted
    assert 0.0 <= found <= 100.0
    overflow = max(0.0, gained - used - missing)
    assert found == pytest.approx(min(100.0, missing + used - gained + overflow), abs=1e-9)
