"""Single grains: Stokes' law, where it holds, and crowding."""

import fluids
import numpy as np
import pytest
from CoolProp import CoolProp
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.settle.sinking import MM_PER_H, cold_factor, crowding_factor, grain_um, stokes


@pytest.mark.parametrize(
    ("size_um", "excess_kg_per_m3"),
    [(0.5, 450), (1, 450), (2, 450), (5, 450), (10, 450), (20, 450), (50, 20), (100, 10)],
)
def test_stokes_agrees_with_a_drag_library(size_um: float, excess_kg_per_m3: float) -> None:
    """Reference library: `fluids.v_terminal` (a general drag curve), with water of CoolProp at 20 C; Re below 0.01."""
    water = CoolProp.PropsSI("D", "T", 293.15, "P", 101325, "Water")
    viscosity = CoolProp.PropsSI("V", "T", 293.15, "P", 101325, "Water")
    found = stokes(size_um=size_um, grain_kg_per_m3=water + excess_kg_per_m3, temp_c=20.0)
    outside = fluids.v_terminal(D=size_um * 1e-6, rhop=water + excess_kg_per_m3, rho=water, mu=viscosity) * MM_PER_H
    assert found.valid
    assert found.fall_mm_per_h == pytest.approx(outside, rel=0.005)


@pytest.mark.parametrize(
    ("size_um", "excess_kg_per_m3", "fall_mm_per_h"),
    [(0.5, 450, 0.22), (1, 450, 0.88), (5, 450, 22), (20, 450, 353), (100, 10, 196), (200, 5, 392)],
)
def test_stokes_by_hand(size_um: float, excess_kg_per_m3: float, fall_mm_per_h: float) -> None:
    """Own hand: 450 * 9.807 * (5e-6)^2 / (18 * 1.0016e-3) = 6.12e-6 m/s = 22 mm/h, and so on."""
    found = stokes(size_um=size_um, grain_kg_per_m3=998.2 + excess_kg_per_m3, temp_c=20.0)
    assert found.fall_mm_per_h == pytest.approx(fall_mm_per_h, rel=0.01)


def test_stokes_says_where_it_no_longer_holds() -> None:
    """Reference library: at Re about 0.9 the drag curve of `fluids` gives 8 to 18 % less speed than Stokes' law."""
    found = stokes(size_um=160, grain_kg_per_m3=1448.2, temp_c=20.0)
    outside = fluids.v_terminal(D=160e-6, rhop=1448.2, rho=998.2, mu=1.0016e-3) * MM_PER_H
    assert found.reynolds == pytest.approx(0.998, rel=0.02)
    assert not found.valid
    assert 0.80 < outside / found.fall_mm_per_h < 0.92


def test_the_limit_of_stokes_is_where_the_drag_library_parts_from_it() -> None:
    """Reference library: just inside the limit (Re 0.19) `fluids` is within 5 % of Stokes' law."""
    found = stokes(size_um=92, grain_kg_per_m3=1448.2, temp_c=20.0)
    outside = fluids.v_terminal(D=92e-6, rhop=1448.2, rho=998.2, mu=1.0016e-3) * MM_PER_H
    assert found.valid and 0.15 < found.reynolds < 0.2
    assert outside == pytest.approx(found.fall_mm_per_h, rel=0.05)


def test_a_crowd_sinks_slower() -> None:
    """Own hand: 0.9^4.65 = exp(4.65 * ln 0.9) = exp(-0.4899) = 0.6127; Richardson & Zaki 1954."""
    assert crowding_factor(np.array([0.0, 0.1])) == pytest.approx([1.0, 0.6127], abs=1e-4)


def test_cold_water_slows_the_fall() -> None:
    """Reference library: viscosities of CoolProp; 5 C over 25 C is 0.586."""
    thick, thin = (CoolProp.PropsSI("V", "T", t + 273.15, "P", 101325, "Water") for t in (5.0, 25.0))
    assert cold_factor(5.0) / cold_factor(25.0) == pytest.approx(thin / thick, rel=1e-3)


@given(size_um=st.floats(0.1, 30.0), temp_c=st.floats(1.0, 60.0))
def test_the_grain_of_a_speed_has_that_speed(size_um: float, temp_c: float) -> None:
    fall = stokes(size_um=size_um, grain_kg_per_m3=1475.0, temp_c=temp_c).fall_mm_per_h
    assert grain_um(np.array([fall]), temp_c=temp_c)[0] == pytest.approx(size_um, rel=1e-9)


def test_what_is_lighter_than_water_rises() -> None:
    assert stokes(size_um=10, grain_kg_per_m3=900.0, temp_c=20.0).fall_mm_per_h < 0
