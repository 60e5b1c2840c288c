"""Cautions with this case's figures, and ammonia in the air of a room."""

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.alkali.hazards import on_the_shelf
from bluewright.science.alkali.record import Alkali, Room
from bluewright.science.alkali.room import above_liquor_ppm, room_ppm
from bluewright.science.media.calcite import VINEGAR_ML_PER_G_CALCITE
from bluewright.science.media.tub import surface_m2
from tests.science.alkali.liquors import JAR, answer

ROOM = {"volume_m3": 30, "air_changes_per_h": 2}


def texts(**fields: Any) -> dict[str, str]:
    return {caution.code: caution.text for caution in answer(**fields).cautions}


def test_ammonia_over_a_tub_by_hand() -> None:
    """Own hand: 10 mmol/L, pH 9.5, 25 C: free share 0.643, K_aw 6.84e-4: 10 * 0.643 * 6.84e-4 = 4.40e-3 mol/m3,
    and one mole of gas is 0.02447 m3: 108 ppm."""
    found = above_liquor_ppm(np.array([0.010]), ph=np.array([9.5]), temp_c=np.array([25.0]))
    assert found[0] == pytest.approx(108, rel=0.01)


@pytest.mark.parametrize(("changes", "ppm"), [(0.5, 8.3), (2.0, 2.24), (10.0, 0.45)])
def test_ammonia_in_a_room_by_hand(changes: float, ppm: float) -> None:
    """Own hand: 5 mm/s over 0.07 m2 is 3.5e-4 m3/s; 30 m3 * 2 / 3600 = 0.01667 m3/s: 108 * 3.5e-4 / 0.01702 = 2.2."""
    room = Room(volume_m3=30.0, air_changes_per_h=changes)
    found = room_ppm(np.array([108.0]), room=room, surface_m2=0.07, z=np.zeros(1))
    assert found[0] == pytest.approx(ppm, rel=0.02)


@given(volume=st.floats(0.5, 1e4), changes=st.floats(0.01, 100.0), surface=st.floats(0.001, 100.0))
def test_a_room_never_holds_more_than_the_air_on_the_liquor(volume: float, changes: float, surface: float) -> None:
    """Law: and a draught only lowers it."""
    still, draught = (
        room_ppm(np.array([100.0]), room=Room(volume_m3=volume, air_changes_per_h=c), surface_m2=surface, z=np.zeros(1))
        for c in (changes, 2 * changes)
    )
    assert 0.0 < draught[0] < still[0] < 100.0


def test_the_surface_of_a_bucket() -> None:
    """Own hand: 20 L as deep as wide: d = (4 * 0.02 / pi)^(1/3) = 0.294 m, surface 0.068 m2."""
    assert surface_m2(20.0) == pytest.approx(0.068, abs=0.0005)


def test_ammonia_is_cautioned_with_this_rooms_figures_beside_the_limits() -> None:
    found = answer(room=ROOM, jar=JAR)
    band = found.ammonia_room_ppm
    assert band is not None and 0 < band.p5 < band.p50 < band.p95
    text = texts(room=ROOM, jar=JAR)["ammonia-air"]
    assert "30 m3" in text and f"{band.p50:.2g} ppm" in text
    assert "25 ppm over eight hours" in text and "35 over a quarter of an hour" in text


def test_without_a_room_the_figure_over_the_liquor_still_stands() -> None:
    assert answer().ammonia_room_ppm is None
    assert "ppm of ammonia stands in the air" in texts()["ammonia-air"]
    assert answer(alkali={"kind": "lye"}, room=ROOM).ammonia_room_ppm is None


def test_a_hot_tub_in_a_shut_room_is_far_worse() -> None:
    cool, hot = (
        answer(room={"volume_m3": 30, "air_changes_per_h": 0.5}, temp_c=t).ammonia_room_ppm for t in (15.0, 45.0)
    )
    assert cool is not None and hot is not None and hot.p50 > 5 * cool.p50


@pytest.mark.parametrize(
    ("alkali", "wanted"),
    [
        ({"kind": "lye"}, {"eyes", "heat-of-lye", "overdose", "drain", "bleach"}),
        ({"kind": "slaked_lime"}, {"eyes", "alkali-into-water", "overdose", "bleach"}),
        ({"kind": "ammonia", "percent_w_w": 25.0}, {"eyes", "ammonia-air", "bleach", "alkali-into-water"}),
        ({"kind": "ammonia", "percent_w_w": 5.0}, {"ammonia-air", "bleach", "alkali-into-water"}),
        ({"kind": "soda_ash"}, {"alkali-into-water", "bleach"}),
    ],
    ids=lambda v: v.get("kind", "") if isinstance(v, dict) else "",
)
def test_each_alkali_has_its_own_cautions(alkali: dict[str, Any], wanted: set[str]) -> None:
    assert wanted <= set(texts(alkali=alkali))


def test_a_caustic_jar_is_cautioned_even_when_the_tub_gets_soda() -> None:
    jar = {"sample_ml": 500, "alkali": {"kind": "lye", "percent_w_w": 2.0}, "steps": [{"added_ml": 3.0, "ph": 9.0}]}
    assert "eyes" in texts(alkali={"kind": "soda_ash"}, jar=jar)


def test_no_caution_claims_that_anything_is_safe() -> None:
    for alkali in ({"kind": "lye"}, {"kind": "slaked_lime"}, {"kind": "ammonia", "percent_w_w": 5.0}):
        for text in texts(alkali=alkali, room=ROOM).values():
            assert "safe" not in text.lower() and "harmless" not in text.lower()


def test_the_vinegar_for_a_gram_of_chalk() -> None:
    """Own hand: 2 / 100.09 mol of acid; 5 % w/v vinegar is 50 / 60.05 = 0.833 mol/L: 24.0 mL."""
    assert pytest.approx(2 / 100.09 / (50 / 60.05) * 1000, rel=0.005) == VINEGAR_ML_PER_G_CALCITE


def test_every_caution_and_every_source_is_said_once() -> None:
    found = answer(room=ROOM)
    codes = [caution.code for caution in found.cautions]
    assert len(codes) == len(set(codes)) and len(found.sources) == len(set(found.sources))


@pytest.mark.parametrize(
    ("alkali", "codes"),
    [
        (Alkali(kind="ammonia", percent_w_w=25.0), {"eyes", "alkali-into-water", "bleach"}),
        (Alkali(kind="ammonia", percent_w_w=5.0), {"irritant", "alkali-into-water", "bleach"}),
        (Alkali(kind="lye"), {"eyes", "heat-of-lye", "bleach"}),
        (Alkali(kind="slaked_lime"), {"eyes", "alkali-into-water", "bleach"}),
        (Alkali(kind="soda_ash"), {"irritant", "alkali-into-water", "bleach"}),
    ],
)
def test_each_alkali_carries_its_cautions_on_the_shelf(alkali: Alkali, codes: set[str]) -> None:
    """Caustic are lye, lime and ammonia of more than 10 %; lye grows hot in water; nothing goes near bleach."""
    found = on_the_shelf(alkali)
    assert {caution.code for caution in found} == codes
    assert ("chloramine" in " ".join(c.text for c in found)) is (alkali.kind == "ammonia")
