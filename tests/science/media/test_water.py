"""Water: density, viscosity, vapour pressure."""

import numpy as np
import pytest
from CoolProp import CoolProp
from hypothesis import given
from hypothesis import strategies as st
from thermo import IAPWS95Liquid

from bluewright.science.base.errors import InputError
from bluewright.science.media.water import STUDIED_C, density_kg_per_m3, vapour_pressure_kpa, viscosity_pa_s
from tests.published import Row, rows

WARM_C = [5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0]


@pytest.mark.parametrize("temp_c", WARM_C)
def test_density_agrees_with_the_standard_equation_of_state(temp_c: float) -> None:
    """Reference library: IAPWS-95 in CoolProp at 1 atm; Kell's older fit lies within 0.005 kg/m3."""
    found = CoolProp.PropsSI("D", "T", temp_c + 273.15, "P", 101325, "Water")
    assert density_kg_per_m3(temp_c) == pytest.approx(found, abs=0.005)


def test_density_agrees_with_a_second_library() -> None:
    """Reference library: IAPWS-95 in thermo, 20 C and 1 atm."""
    found = IAPWS95Liquid(T=293.15, P=101325.0, zs=[1]).rho_mass()
    assert density_kg_per_m3(20.0) == pytest.approx(found, abs=0.005)


@pytest.mark.parametrize("temp_c", WARM_C)
def test_viscosity_agrees_with_the_standard(temp_c: float) -> None:
    """Reference library: IAPWS R12-08 in CoolProp; the short formula lies within 0.01 % of it."""
    found = CoolProp.PropsSI("V", "T", temp_c + 273.15, "P", 1e5, "Water")
    assert viscosity_pa_s(temp_c) == pytest.approx(found, rel=1e-4)


@pytest.mark.parametrize("temp_c", [0.5, *WARM_C, 80.0, 100.0])
def test_vapour_pressure_agrees_with_the_standard(temp_c: float) -> None:
    """Reference library: IAPWS-95 in CoolProp; the two differ by less than 0.01 % below boiling."""
    found = CoolProp.PropsSI("P", "T", temp_c + 273.15, "Q", 0, "Water") / 1e3
    assert vapour_pressure_kpa(temp_c) == pytest.approx(found, rel=1e-4)


@pytest.mark.parametrize("row", rows("iapws-water", "viscosity_upa_s"), ids=str)
def test_viscosity_gives_the_check_value_of_the_release(row: Row) -> None:
    """Published."""
    assert row.agrees(1e6 * viscosity_pa_s(row.given["temp_c"]))


@pytest.mark.parametrize("row", rows("iapws-water", "vapour_kpa"), ids=str)
def test_vapour_pressure_gives_the_fixed_points(row: Row) -> None:
    """Published: triple point and normal boiling point."""
    assert row.agrees(vapour_pressure_kpa(row.given["temp_c"]))


def test_water_is_densest_at_four_degrees() -> None:
    """Published: Kell 1975 gives the maximum at 3.98 C."""
    temp_c = np.linspace(0.0, 10.0, 1001)
    assert temp_c[np.argmax(density_kg_per_m3(temp_c))] == pytest.approx(3.98, abs=0.02)


@given(temp_c=st.floats(0.0, 99.0))
def test_warmer_water_is_thinner_and_evaporates_harder(temp_c: float) -> None:
    assert viscosity_pa_s(temp_c + 1.0) < viscosity_pa_s(temp_c)
    assert vapour_pressure_kpa(temp_c + 1.0) > vapour_pressure_kpa(temp_c)


def test_arrays_give_what_single_numbers_give() -> None:
    temp_c = np.array([[5.0, 20.0], [40.0, 60.0]])
    for formula in (density_kg_per_m3, viscosity_pa_s, vapour_pressure_kpa):
        found = formula(temp_c)
        assert found.shape == temp_c.shape
        assert found[1, 0] == pytest.approx(formula(40.0), rel=1e-14)


@pytest.mark.parametrize("temp_c", [-10.5, 110.5, float("nan"), float("inf")])
def test_ice_and_steam_are_refused(temp_c: float) -> None:
    for formula in (density_kg_per_m3, viscosity_pa_s, vapour_pressure_kpa):
        with pytest.raises(InputError, match=r"temp_c: .* is not liquid water; give a temperature from -10 to 110 C"):
            formula(np.array([20.0, temp_c]))


def test_the_studied_ranges_are_data() -> None:
    assert STUDIED_C["density"].holds(np.array([0.0, 100.0]))
    assert not STUDIED_C["density"].holds(-0.1)
