"""The liquor record: what it takes, and what it refuses by name."""

import re
from typing import Any

import pytest

from bluewright.science.alkali.record import LiquorRecord
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from tests.science.alkali.liquors import JAR, TUB, record

REFUSED: list[tuple[dict[str, Any], str]] = [
    ({"ph": 15}, r"ph: 15 is not possible here; it must be at most 12"),
    ({"ph": 9.6}, r"target_ph: 9.5 is not above the pH of the liquor \(9.6\)"),
    ({"target_ph": 5.0}, r"target_ph: 5.0 is not possible here; it must be at least 7"),
    ({"liquor_l": 0}, r"liquor_l: 0 is not possible here; it must be more than 0"),
    ({"temp_c": -3.0}, r"temp_c: .* it must be at least 0"),
    ({"temp_c": "64 F"}, r"temp_c: '64 F' .* give a bare number"),
    ({"alkali": {"kind": "ammonia", "percent_w_w": 0}}, r"alkali.percent_w_w: 0 is not possible here; .* more than 0"),
    ({"alkali": {"kind": "ammonia", "percent_w_w": 60.0}}, r"alkali.percent_w_w: 60 % is stronger .* at most 35 %"),
    ({"alkali": {"kind": "bleach"}}, r"alkali.kind: 'bleach' is not possible here; use one of"),
    ({"alkali": {"kind": "soda_ash", "percent_w_w": 99.0}}, r"alkali.percent_w_w: soda_ash has no percentage here"),
    ({"alkali": {"kind": "ash_lye"}}, r"alkali.mol_per_l: ash lye differs from pot to pot, .*; titrate it"),
    ({"alkali": {"kind": "slaked_lime", "mol_per_l": 0.02}}, r"alkali.mol_per_l: slaked lime is dosed dry"),
    (
        {"alkali": {"kind": "lye", "mol_per_l": 1.0, "percent_w_w": 4.0}},
        r"alkali.mol_per_l: both percent_w_w and mol_per_l are given; give one of the two",
    ),
    ({"jar": {"sample_ml": 500, "steps": []}}, r"jar.steps: .* at least 1 entries"),
    (
        {"jar": {"sample_ml": 500, "steps": [{"added_ml": 1.0, "ph": 8.0}, {"added_ml": 0.5, "ph": 9.0}]}},
        r"jar.steps\[1\].added_ml: 0.5 is not more than the 1 of the step before",
    ),
    ({"jar": {"sample_ml": 500, "steps": [{"added_g": 1.0, "ph": 8.0}]}}, r"jar.steps\[0\]: .* measured in ml"),
    ({"jar": {"sample_ml": 500, "steps": [{"ph": 8.0}]}}, r"jar.steps\[0\]: .* give added_ml"),
    (
        {"jar": {"sample_ml": 0.5, "steps": [{"added_ml": 60.0, "ph": 9.0}]}},
        r"jar.steps\[0\].added_ml: 60 ml cannot go into 0.5 mL of liquor; at most 50 ml; check the unit of both",
    ),
    ({"added_so_far": [{"added_ml": 30.0, "ph": 15.0}]}, r"added_so_far\[0\].ph: 15.0 is not possible here"),
    ({"leaf_kg": 60.0}, r"leaf_kg: 60 kg of leaf does not fit .*; give at most 40 kg"),
    ({"ph_sd": 0.0}, r"ph_sd: .* more than 0"),
    ({"room": {"volume_m3": 30}}, r"room.air_changes_per_h: this field is missing"),
    ({"vinegar": 1}, r"vinegar: there is no such field"),
]


@pytest.mark.parametrize(("fields", "message"), REFUSED, ids=lambda v: v if isinstance(v, str) else "")
def test_a_wrong_record_is_refused_by_the_name_of_the_field(fields: dict[str, Any], message: str) -> None:
    with pytest.raises(InputError, match=message):
        record(**fields)


def test_only_the_volume_and_the_alkali_are_required() -> None:
    made = read(LiquorRecord, {"liquor_l": 20.0, "alkali": {"kind": "soda_ash"}})
    assert made.target_ph == 9.5
    with pytest.raises(InputError, match=r"alkali: this field is missing"):
        read(LiquorRecord, {"liquor_l": 20.0})


def test_a_solution_is_measured_in_millilitres_and_a_dry_alkali_in_grams() -> None:
    units = {
        "ml": [{"kind": "ammonia"}, {"kind": "lye", "percent_w_w": 5.0}, {"kind": "soda_ash", "mol_per_l": 0.5}],
        "g": [{"kind": "lye"}, {"kind": "slaked_lime"}, {"kind": "washing_soda"}],
    }
    for unit, alkalis in units.items():
        assert [record(alkali=alkali).alkali.unit for alkali in alkalis] == [unit] * 3


def test_the_jar_may_have_another_alkali_measured_in_another_unit() -> None:
    made = record(
        jar={"sample_ml": 500, "alkali": {"kind": "soda_ash"}, "steps": [{"added_g": 0.4, "ph": 8.9}]},
        added_so_far=[{"added_ml": 20.0, "ph": 8.5}],
    )
    assert made.jar is not None and made.jar.steps[0].added("g") == 0.4


def test_a_record_survives_the_round_trip() -> None:
    made = record(jar=JAR)
    assert read(LiquorRecord, dump(made)) == made
    assert re.match(r"ammonia", made.alkali.kind) and TUB["alkali"]["kind"] == "ammonia"
