"""What is said of a plan: the area first; jars that will do; what matters and what to do about it."""

import json
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from bluewright.cli.record_command import example_text
from bluewright.science.base.records import read
from bluewright.science.plan.chain_record import ClothPlanAnswer, ClothPlanRecord
from bluewright.science.thread import plan_cloth
from bluewright.words.measures import amount
from bluewright.words.plan_cloth import odds, said, said_of_beds, too_late_said
from bluewright.words.said import Rows, text


def answer(**other: Any) -> ClothPlanAnswer:
    record = read(ClothPlanRecord, json.loads(example_text("plan-cloth")) | other)
    return plan_cloth(record, rng=np.random.default_rng(record.seed))


@pytest.fixture(scope="module")
def found() -> ClothPlanAnswer:
    return answer()


def test_the_area_stands_first_with_its_odds(found: ClothPlanAnswer) -> None:
    first = said(found).first
    assert first.startswith("Sow ")
    assert "of woad for a four-in-five chance" in first


def test_the_even_chance_is_told_where_more_is_asked_for(found: ClothPlanAnswer) -> None:
    middle = amount(found.total.area_m2.p50, "area_m2")
    assert said(found).first.endswith(f"that it is enough. With {middle} the chance is only even.")
    assert said(answer(wanted_chance=0.5)).first.endswith("of woad for an even chance that it is enough.")


def test_what_cannot_be_sown_in_time_is_told_beside_the_headline(found: ClothPlanAnswer) -> None:
    """The same wants asked for in spring and with all days long past the last sowing: all are named."""
    assert not list(too_late_said(found)), "asked in spring, all can still be sown"
    late = replace(found, days=tuple(replace(one, slack_d=None) for one in found.days))
    assert said(late).parts[1] == (
        "What is sown now will hardly be ready in time for: a jar for the market, two shawls, table linen. "
        "That leaves jars, a bed that stands, or a later day."
    )
    jars = replace(late, days=tuple(replace(one, from_jars=True) for one in late.days))
    assert not list(too_late_said(jars)), "what comes from the jars needs no bed"


def test_what_is_known_least_comes_with_what_to_do(found: ClothPlanAnswer) -> None:
    line = next(part for part in said(found).parts if isinstance(part, str) and part.startswith("What is known least"))
    assert "of the doubt." in line and line.endswith(".")


def test_each_want_has_its_row_and_the_vat_too(found: ClothPlanAnswer) -> None:
    (table,) = (p for p in said(found).parts if isinstance(p, Rows) and p.caption == "What each takes")
    assert [row[0] for row in table.rows] == [
        "a jar for the market", "what stays in the vat", "two shawls", "table linen",
    ]  # fmt: skip


def test_days_stand_in_a_column_for_each_want(found: ClothPlanAnswer) -> None:
    (table,) = (p for p in said(found).parts if isinstance(p, Rows) and p.caption.startswith("Begin each by"))
    assert table.head[1:] == ("a jar for the market", "two shawls", "table linen")
    assert table.rows[-1] == ("ready", "Sun 20 Sep", "Fri 20 Nov", "Thu 10 Dec")
    assert "too late" in text(said(found)), "three cuts do not come in time"


def test_jars_that_will_do_ask_for_no_bed() -> None:
    told = text(said(answer(jars=[{"pure_g": 900.0}])))
    assert told.startswith("The jars will do")
    assert "of bed" not in told and "known least" not in told


def test_without_a_want_only_the_jars_are_told() -> None:
    told = said(answer(cloth=[], pigment=[]))
    assert told.first.startswith("Nothing is wanted")
    assert [part.caption for part in told.parts if isinstance(part, Rows)] == [
        "What the jars alone are enough for, one of these"
    ]


def test_odds_that_have_no_name_are_percent() -> None:
    assert (odds(0.8), odds(0.83)) == ("a four-in-five chance", "a chance of 83%")


def test_a_batch_of_ones_own_is_counted_in_words(found: ClothPlanAnswer) -> None:
    assert "your 3 batches count for" in text(said(found))
    own = {"blue_g_per_kg": [1.0]}
    assert "your 1 batch counts for" in text(said(answer(own=own)))
    assert "as other gardens have it" in text(said(answer(own={})))


BED = {"name": "Long bed", "leaf_kg": 12.0, "cuts": 2}


def test_what_stands_is_told_first_where_it_is_asked_for() -> None:
    told = said_of_beds(answer(beds=[BED, BED | {"name": "Wall bed"}]))
    assert told.first.startswith("What stands will probably give ")
    assert "enough for all wants with a chance of" in text(told)
    (table,) = (p for p in told.parts if isinstance(p, Rows) and p.caption.startswith("What the beds"))
    assert [row[0] for row in table.rows] == ["Long bed", "Wall bed", "together"]


def test_only_what_is_missing_is_to_be_sown() -> None:
    assert " more of woad for a four-in-five chance" in said(answer(beds=[BED])).first


def test_beds_that_will_do_ask_for_nothing_more() -> None:
    told = text(said(answer(beds=[BED | {"leaf_kg": 900.0}])))
    assert told.startswith("What stands will do")
    assert "known least" not in told


def test_without_beds_the_jars_are_told() -> None:
    assert said_of_beds(answer(cloth=[], pigment=[])).first.startswith("Nothing is wanted")


def test_a_step_whose_day_is_past_is_too_late() -> None:
    """Wanted ten days after today: steeping should have begun long ago."""
    wants = [{"name": "gift", "fibre": "wool", "mass_kg": 0.3, "depth": "medium", "by": "2026-08-20"}]
    told = said(answer(cloth=wants, pigment=[], jars=[], now="2026-08-10"))
    (table,) = (p for p in told.parts if isinstance(p, Rows) and p.caption.startswith("Begin each by"))
    assert dict(table.rows)["steep"] == "too late"
    assert dict(table.rows)["ready"] == "Thu 20 Aug"
