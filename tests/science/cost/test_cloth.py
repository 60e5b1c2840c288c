"""What a dyed piece costs. Expected figures by own hand, the working shown."""

from typing import Any

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.cost.cloth import cloth_cost
from bluewright.science.cost.cloth_record import ClothCostAnswer, ClothCostRecord

SURE = {"drawn_off_frac": 0.0, "put_in_off_frac": 0.0, "blue_off_frac": 0.0}
VAT: dict[str, Any] = {
    "name": "Crock", "drawn_g": 2.0, "put_in_g": 8.0, "blue_money_per_g": 10.0, **SURE,
    "others": [{"name": "fructose", "used_g": 40.0, "pack_g": 1000.0, "pack_money": 5.0}],
}  # fmt: skip


def found(**other: Any) -> ClothCostAnswer:
    plain: dict[str, Any] = {"vats": [VAT], "spent_min": 90.0, "spent_off_frac": 0.0, "wage_money_per_h": 12.0}
    return cloth_cost(read(ClothCostRecord, plain | other), rng=np.random.default_rng(1))


def test_its_parts_are_the_blue_its_share_of_the_vat_and_the_hours() -> None:
    """2 g at 10 are 20; a quarter of 40 g at 5 a kilogram is 0.05; an hour and a half at 12 is 18: 38.05."""
    told = found()
    assert {part.item: part.cost_money.p50 for part in told.parts} == {"blue": 20.0, "work": 18.0, "vat": 0.05}
    assert told.cost_money is not None and told.cost_money.p5 == told.cost_money.p95 == pytest.approx(38.05)
    assert told.most == "blue" and told.blue_g.p50 == 2.0 and told.work_h is not None and told.work_h.p50 == 1.5
    assert sum(part.share_frac for part in told.parts) == pytest.approx(1.0, abs=0.002)


def test_pieces_that_fail_are_carried_by_the_others() -> None:
    """38.05 + 10 for the cloth, over 0.8."""
    told = found(own_money=10.0, failed_frac=0.2)
    assert told.cost_money is not None and told.cost_money.p50 == pytest.approx(48.05 / 0.8, rel=1e-3)


def test_nobody_pays_for_more_than_the_whole_vat() -> None:
    told = found(vats=[VAT | {"drawn_g": 20.0}])
    assert {part.item: part.cost_money.p50 for part in told.parts}["vat"] == 0.2


def test_what_has_no_price_is_named_and_not_guessed() -> None:
    bare = VAT | {"blue_money_per_g": None, "others": [{"name": "bran", "used_g": 6.0}]}
    told = found(vats=[bare], spent_min=None, wage_money_per_h=None)
    assert told.cost_money is None and told.parts == () and told.most is None
    assert told.unpriced == ("blue of Crock", "bran")
    assert {caution.code for caution in told.cautions} == {"alkali-unpriced", "work-not-counted"}


def test_the_range_is_that_of_the_product() -> None:
    """Log-sd ln 1.3 and ln 1.2: together hypot(0.2624, 0.1823) = 0.3195; p95/p50 = exp(1.645 * 0.3195) = 1.69."""
    doubt = VAT | {"drawn_off_frac": 0.3, "blue_off_frac": 0.2, "others": []}
    told = found(vats=[doubt], spent_min=0.0)
    assert told.cost_money is not None
    assert told.cost_money.p95 / told.cost_money.p50 == pytest.approx(1.69, rel=0.06)


def test_work_at_the_vat_is_shared_by_what_was_dipped() -> None:
    """A third of 120 minutes at the vat, and 90 on the piece: 2.1667 h, of them 0.6667; at 12 they are 26."""
    shared = VAT | {"spent_min": 120.0, "dipped_frac": 1 / 3}
    told = found(vats=[shared])
    assert told.work_h is not None and told.work_h.p50 == pytest.approx(13 / 6, rel=1e-3)
    assert told.vats_work_h is not None and told.vats_work_h.p50 == pytest.approx(2 / 3, rel=1e-3)
    assert {part.item: part.cost_money.p50 for part in told.parts}["work"] == 26.0
    alone = found(vats=[shared], spent_min=None)
    assert alone.work_h is not None and alone.work_h.p50 == pytest.approx(2 / 3, rel=1e-3)
    assert any("only its share" in caution.text for caution in alone.cautions)


def test_work_at_a_vat_without_the_share_is_refused() -> None:
    with pytest.raises(InputError, match="dipped_frac"):
        found(vats=[VAT | {"spent_min": 120.0}])


def test_a_price_without_its_pack_is_refused() -> None:
    with pytest.raises(InputError, match="pack_g"):
        found(vats=[VAT | {"others": [{"name": "x", "used_g": 1.0, "pack_money": 2.0}]}])
