"""Ammonia: strength of a bottle, free gas, what the air takes up, limits; densities of lye; lime and chalk."""

import numpy as np
import pytest
from chemicals.safety import STEL, TWA
from hypothesis import given
from hypothesis import strategies as st
from thermo.electrochem import Laliberte_density

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Sourced
from bluewright.science.media.acids import pk
from bluewright.science.media.ammonia import (
    AMMONIA_G_PER_MOL,
    EXPOSURE_PPM,
    HYDROXIDE_G_PER_MOL,
    air_water_ratio,
    ammonia_mol_per_l,
    free_frac,
    gas_ppm,
)
from bluewright.science.media.calcite import CALCITE, PAIR, lime_solubility_g_per_l
from bluewright.science.media.solutions import Solute, density_kg_per_l
from bluewright.science.media.water import density_kg_per_m3
from tests.published import Row, rows

CAS: dict[Solute, str] = {
    "ammonia": "7664-41-7",
    "sodium_hydroxide": "1310-73-2",
    "potassium_hydroxide": "1310-58-3",
}


@pytest.mark.parametrize("row", rows("cooley-1880"), ids=lambda r: f"{r.given['percent_w_w']:g}%")
def test_the_density_agrees_with_a_table_of_the_hydrometer_age(row: Row) -> None:
    """Published: Cooley's Cyclopaedia; specific gravity at 60 F (15.56 C), water 1."""
    found = density_kg_per_l(row.given["percent_w_w"] / 100, solute="ammonia", temp_c=15.56)
    assert row.agrees(found / (density_kg_per_m3(15.56) / 1000))


@pytest.mark.parametrize("solute", list(CAS))
@pytest.mark.parametrize(("solute_frac", "temp_c"), [(0.02, 20.0), (0.1, 20.0), (0.25, 20.0), (0.1, 35.0)])
def test_densities_agree_with_a_reference_library(solute: Solute, solute_frac: float, temp_c: float) -> None:
    """Reference library: `thermo.electrochem.Laliberte_density`, which takes the density of water from elsewhere."""
    reference = Laliberte_density(temp_c + 273.15, [solute_frac], [CAS[solute]]) / 1000
    assert density_kg_per_l(solute_frac, solute=solute, temp_c=temp_c) == pytest.approx(reference, rel=2e-4)


def test_five_per_cent_ammonia_is_nearly_three_molar() -> None:
    """Own hand: 50 g in 1000 g; 0.978 kg/L: 48.9 g/L / 17.031 = 2.87 mol/L."""
    assert ammonia_mol_per_l(5.0) == pytest.approx(2.87, abs=0.005)


def test_concentrated_ammonia_has_its_handbook_strength() -> None:
    """Published: laboratory tables print 28 %, 0.90 kg/L, 14.8 mol/L (common practice of laboratories)."""
    assert ammonia_mol_per_l(28.0) == pytest.approx(14.8, abs=0.1)


def test_a_label_in_ammonium_hydroxide_counts_half() -> None:
    """Own hand: 17.031 / 35.046 = 0.486, so 5 % is 2.43 %."""
    assert AMMONIA_G_PER_MOL.value / HYDROXIDE_G_PER_MOL.value == pytest.approx(0.486, abs=0.0005)
    assert ammonia_mol_per_l(5.0, label_as="nh4oh") == pytest.approx(ammonia_mol_per_l(2.43), rel=0.001)


@pytest.mark.parametrize("percent", [0.0, -1.0, 36.0, float("nan")])
def test_an_impossible_strength_is_refused(percent: float) -> None:
    with pytest.raises(InputError, match="is not a strength of ammonia solution"):
        ammonia_mol_per_l(percent)


@pytest.mark.parametrize("row", rows("sander-2023"), ids=lambda r: f"{r.given['temp_c']:g}C")
def test_air_over_water(row: Row) -> None:
    """Published: Sander 2023; 1 / (0.59 * 8.314 * 298.15) = 6.84e-4 at 25 C by hand."""
    assert row.agrees(air_water_ratio(row.given["temp_c"]))


@given(ph=st.floats(4.0, 13.0), temp_c=st.floats(0.0, 60.0))
def test_half_is_free_at_the_pk_and_more_when_warmer_or_more_alkaline(ph: float, temp_c: float) -> None:
    assert free_frac(pk("ammonia", temp_c=temp_c), temp_c=temp_c) == pytest.approx(0.5)
    assert 0.0 < free_frac(ph, temp_c=temp_c) < free_frac(ph + 0.1, temp_c=temp_c) < 1.0
    assert free_frac(ph, temp_c=temp_c) < free_frac(ph, temp_c=temp_c + 1.0)


def test_one_ppm_is_seven_tenths_of_a_milligram() -> None:
    """Published: NIOSH, 1 ppm of ammonia = 0.70 mg/m3 at 25 C."""
    assert gas_ppm(0.70e-3 / AMMONIA_G_PER_MOL.value, temp_c=25.0) == pytest.approx(1.0, abs=0.01)


def test_exposure_limits_agree_with_another_country() -> None:
    """Reference library: `chemicals.safety` carries the list of Ontario (25 and 35 ppm)."""
    assert TWA("7664-41-7") == (EXPOSURE_PPM["eight_hours"].value, "ppm")
    assert STEL("7664-41-7") == (EXPOSURE_PPM["fifteen_minutes"].value, "ppm")
    for limit in EXPOSURE_PPM.values():
        assert limit.low <= limit.value <= limit.high


@pytest.mark.parametrize("row", rows("seidell-1940"), ids=lambda r: f"{r.given['temp_c']:g}C")
def test_lime_dissolves_as_handbooks_say(row: Row) -> None:
    """Published: a second set of handbook values; not a tenth of it, as some pages print."""
    assert row.agrees(lime_solubility_g_per_l(row.given["temp_c"]))


@pytest.mark.parametrize(("terms", "log_k"), [(CALCITE, -8.48), (PAIR, 3.22)], ids=["calcite", "pair"])
def test_calcite_and_its_dissolved_pair_are_as_measured(terms: tuple[Sourced, ...], log_k: float) -> None:
    """Published: Plummer & Busenberg 1982 state log K = -8.48 and 3.22 at 25 C."""
    a, b, c, d = (term.value for term in terms)
    assert a + b * 298.15 + c / 298.15 + d * np.log10(298.15) == pytest.approx(log_k, abs=0.01)
