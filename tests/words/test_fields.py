"""Fields of records and answers in words."""

from datetime import UTC, datetime

import pytest

from bluewright.cli.schemas import PUBLISHED
from bluewright.science.alkali.record import Dose
from bluewright.science.base.bands import Band, BandAt
from bluewright.science.base.records import meanings
from bluewright.science.media.basket import LeafState
from bluewright.science.steep.record import Reading, Signs
from bluewright.words.fields import UNITS, name_said, place_said, unit_said, value_said
from bluewright.words.reader import read_by
from tests.house.test_house import UNIT_ENDINGS

NOON = datetime(2026, 7, 5, 12, 0, tzinfo=UTC)


def test_every_ending_of_a_name_has_a_unit_in_print() -> None:
    assert set(UNIT_ENDINGS) <= set(UNITS)


@pytest.mark.parametrize(
    ("field", "name", "unit"),
    [
        ("leaf_kg", "leaf", "kg"),
        ("ph_after", "pH after", ""),
        ("ph", "pH", ""),
        ("dissolved_oxygen_mg_l", "dissolved oxygen", "mg/L"),
        ("frac_of_best_now", "share of the best, now", "%"),
        ("chance_ready_frac", "chance ready", "%"),
        ("gain_by_hand_frac", "gain by hand", "%"),
        ("edge_mm_by_h", "edge against time", "mm"),
        ("needed_pours", "needed pours", "pours"),
        ("percent_w_w", "strength", "% by mass"),
        ("held_temp_c", "held temperature", "°C"),
        ("fall_mm_per_h", "fall", "mm/h"),
        ("pours_per_min", "pours", "in a minute"),
    ],
)
def test_a_name_is_said_without_its_unit_and_the_unit_in_print(field: str, name: str, unit: str) -> None:
    assert (name_said(field), unit_said(field)) == (name, unit)


@pytest.mark.parametrize(
    ("value", "field", "said"),
    [
        (True, "covered", "yes"),
        (NOON, "time", "Sun 5 Jul 12:00"),
        (0.5, "chance_past_peak", "50%"),
        (0.001, "chance_past_peak", "under 1%"),
        (0.0012, "residue_frac", "0.12%"),
        (12.4886, "potential_typical_g", "12 g"),
        ("japanese_indigo", "plant", "japanese indigo"),
        ("188% above the tap's", "rule", "188% above the tap's"),
        (None, "x", "not known"),
        ((), "x", "none"),
        (("08:00", "18:00"), "can_strain", "08:00, 18:00"),
        (2, "limpness", "2 (limp, olive)"),
        (Band(p5=2.8, p50=4.8, p95=7.2), "pure_g", "4.8 g (2.8 to 7.2)"),
        (Band(p5=0.64, p50=0.82, p95=0.97), "of_potential_frac", "82% (64 to 97)"),
        (Dose(unit="ml", p5=140, p50=170, p95=230), "dose", "170 mL (140 to 230)"),
        (BandAt(at=1, p5=1, p50=2, p95=3), "edge_mm_by_h", "2 mm (1 to 3)"),
        (LeafState(cut="torn", held_h=2.0), "leaf", "age mixed; cut torn; damaged 0%; held 2 h"),
    ],
)
def test_a_value_is_said_with_its_unit_and_range(value: object, field: str, said: str) -> None:
    assert value_said(value, field) == said


def test_what_was_given_is_said_to_the_figure() -> None:
    assert value_said(0.992233, "leaf_kg", exact=True) == "0.9922 kg"
    assert value_said(1e-7, "lime_g", exact=True) == "0.0000001 g"
    assert value_said(12345.0, "water_l", exact=True) == "12345 L"


def test_a_record_within_a_record_says_its_own_fields() -> None:
    look = Reading(time=NOON, signs=Signs(scum=1), ph=6.1)
    assert value_said(look, "") == "time Sun 5 Jul 12:00; scum 1 (a thin shimmer); pH 6.1"


def test_a_place_on_a_curve_has_the_unit_of_its_name_s_end() -> None:
    assert place_said(9.057, "done_frac_by_min") == "9.1 min"
    assert place_said(3.0, "curve") == "3"


@pytest.mark.parametrize("name", PUBLISHED)
def test_no_field_of_a_record_or_answer_is_said_with_an_underscore(name: str) -> None:
    assert not [field for field in meanings(PUBLISHED[name]) if "_" in name_said(field) or not name_said(field)]


def test_a_us_reader_has_the_figures_of_an_answer_in_his_units() -> None:
    """NIST SP 811: 1 lb = 0.45359237 kg, 1 US gal = 3.785411784 L; a difference of 2 C is one of 3.6 °F."""
    with read_by(system="us"):
        assert value_said(0.90718474, "leaf_kg") == "2 lb"
        assert value_said(Band(p5=15.14, p50=18.93, p95=22.71), "liquor_out_l") == "5 gal (4 to 6)"
        assert value_said(20.0, "temp_c", exact=True) == "68 °F"
        assert value_said(2.0, "error_c") == "3.6 °F"
        assert value_said(2.0, "indigo_g_per_kg") == "0.91 g/lb"
        assert value_said(1.3, "kept_l_per_kg") == "0.16 gal/lb"
        assert value_said(12.7, "fall_mm_per_h") == "0.5 in/h"
        assert value_said(Band(p5=0.1, p50=0.2, p95=0.3), "kept_frac") == "20% (10 to 30)"
        assert value_said(20.0, "pigment_g") == "20 g"
