"""Dissolved oxygen at saturation, and the pressure of the air at a height."""

import gsw
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.media.oxygen import (
    pressure_at_kpa,
    pressure_factor,
    saturation_mg_per_l,
    saturation_mmol_per_l,
)
from bluewright.science.media.water import density_kg_per_m3
from tests.published import Row, rows


@pytest.mark.parametrize("row", rows("en-25814", "saturation"), ids=str)
def test_saturation_agrees_with_the_european_standard(row: Row) -> None:
    """Published."""
    assert row.agrees(saturation_mg_per_l(row.given["temp_c"]))


@pytest.mark.parametrize("row", rows("benson-krause-1984", "saturation"), ids=str)
def test_saturation_agrees_with_its_own_printed_table(row: Row) -> None:
    """Published."""
    assert row.agrees(saturation_mg_per_l(row.given["temp_c"]))


@pytest.mark.parametrize("temp_c", [0.5, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0])
@pytest.mark.parametrize("salinity_g_per_kg", [0.0, 5.0])
def test_saturation_agrees_with_the_oceanographers_fit(temp_c: float, salinity_g_per_kg: float) -> None:
    """Reference library: gsw.O2sol_SP_pt (Garcia & Gordon 1992), umol/kg, times density and molar mass; 0.1 %."""
    heavier = gsw.rho_t_exact(salinity_g_per_kg, temp_c, 0.0) / gsw.rho_t_exact(0.0, temp_c, 0.0)
    kg_per_l = density_kg_per_m3(temp_c) * float(heavier) / 1000.0
    found = gsw.O2sol_SP_pt(salinity_g_per_kg, temp_c) * kg_per_l * 31.998e-3
    assert saturation_mg_per_l(temp_c, salinity_g_per_kg=salinity_g_per_kg) == pytest.approx(float(found), rel=1e-3)


@pytest.mark.parametrize("row", rows("iso-2533", "pressure"), ids=str)
def test_pressure_falls_with_height_as_in_the_standard_atmosphere(row: Row) -> None:
    """Published."""
    assert row.agrees(pressure_at_kpa(row.given["altitude_m"]))


def test_half_a_pressure_holds_a_little_less_than_half_the_oxygen() -> None:
    """Own hand, 20 C: Pw 0.0231 atm: (0.5 - 0.0231) / (1 - 0.0231) = 0.488, times 1.0004 for theta."""
    assert pressure_factor(20.0, pressure_kpa=101.325 / 2) == pytest.approx(0.4883, abs=0.0003)
    assert pressure_factor(20.0, pressure_kpa=101.325) == pytest.approx(1.0, abs=1e-12)


def test_millimoles_are_milligrams_over_the_molar_mass() -> None:
    """Own hand: 9.092 mg/L / 31.998 g/mol = 0.2841 mmol/L."""
    assert saturation_mmol_per_l(20.0) == pytest.approx(0.2842, abs=1e-4)


@given(temp_c=st.floats(0.0, 90.0), altitude_m=st.floats(-400.0, 2500.0), salinity=st.floats(0.0, 40.0))
def test_colder_lower_and_fresher_water_holds_more(temp_c: float, altitude_m: float, salinity: float) -> None:
    pressure_kpa = pressure_at_kpa(altitude_m)
    here = saturation_mg_per_l(temp_c, pressure_kpa=pressure_kpa, salinity_g_per_kg=salinity)
    assert 0 < here < saturation_mg_per_l(temp_c, pressure_kpa=pressure_kpa + 1, salinity_g_per_kg=salinity)
    assert here > saturation_mg_per_l(temp_c + 0.5, pressure_kpa=pressure_kpa, salinity_g_per_kg=salinity)
    assert here > saturation_mg_per_l(temp_c, pressure_kpa=pressure_kpa, salinity_g_per_kg=salinity + 1)


def test_arrays_give_what_single_numbers_give() -> None:
    found = saturation_mg_per_l(np.array([5.0, 20.0]), pressure_kpa=90.0)
    assert found[1] == pytest.approx(saturation_mg_per_l(20.0, pressure_kpa=90.0), rel=1e-14)


def test_impossible_water_is_refused() -> None:
    with pytest.raises(InputError, match="water boils at 99 C and 80 kPa"):
        saturation_mg_per_l(99.0, pressure_kpa=80.0)
    with pytest.raises(InputError, match="salinity_g_per_kg: -1 g/kg"):
        saturation_mg_per_l(20.0, salinity_g_per_kg=-1.0)
    with pytest.raises(InputError, match="temp_c: nan C is not liquid water"):
        saturation_mg_per_l(float("nan"))
    with pytest.raises(InputError, match="altitude_m: 12000 m"):
        pressure_at_kpa(12_000.0)
