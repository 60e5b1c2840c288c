"""Reference evapotranspiration against the worked examples of FAO-56 and against an independent library."""

from collections.abc import Callable

import numpy as np
import pytest
import refet
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.media.weather import evapotranspiration as fao
from bluewright.science.media.weather import sun
from tests.published import Row, rows


def by_rules(*, latitude_deg: float, day_of_year: float, min_c: float, max_c: float, altitude_m: float) -> float:
    """Penman-Monteith with FAO-56's rules: sun from the range, dew at the coldest, wind 2 m/s."""
    above = sun.extraterrestrial(day_of_year, latitude_deg=latitude_deg)
    vapour = fao.saturation(min_c)
    net = fao.net_radiation(
        min_c,
        max_c,
        vapour_kpa=vapour,
        sun_mj_per_m2=sun.from_range(max_c - min_c, above_mj_per_m2=above, coast=False),
        clear_mj_per_m2=sun.clear_sky(above, altitude_m=altitude_m),
    )
    return float(
        fao.penman_monteith(min_c, max_c, vapour_kpa=vapour, wind_m_per_s=2.0, net_mj_per_m2=net, altitude_m=altitude_m)
    )


def by_range_alone(*, latitude_deg: float, day_of_year: float, min_c: float, max_c: float) -> float:
    above = sun.extraterrestrial(day_of_year, latitude_deg=latitude_deg)
    return float(fao.hargreaves(min_c, max_c, above_mj_per_m2=above))


FORMULAS: dict[str, Callable[..., object]] = {
    "psychrometric constant": fao.psychrometric,
    "saturation": fao.saturation,
    "mean saturation": fao.mean_saturation,
    "slope": fao.saturation_slope,
    "vapour by both humidities": fao.vapour_by_extremes,
    "vapour by mean humidity": fao.vapour_by_humidity,
    "lacking vapour": lambda min_c, max_c, vapour_kpa: fao.mean_saturation(min_c, max_c) - vapour_kpa,
    "height of the sun": sun.declination,
    "nearness of the sun": sun.nearness,
    "sunset": sun.sunset_angle,
    "sun that grass keeps": lambda sun_mj_per_m2: (1 - fao.ALBEDO_FRAC.value) * sun_mj_per_m2,
    "sun above the air": sun.extraterrestrial,
    "daylight": sun.daylight,
    "sun from sunshine": sun.from_sunshine,
    "clear sky": lambda altitude_m, above_mj_per_m2: sun.clear_sky(above_mj_per_m2, altitude_m=altitude_m),
    "net longwave": fao.net_longwave,
    "net radiation": fao.net_radiation,
    "wind at 2 m": fao.wind_at_two_metres,
    "sun from range": lambda **given: sun.from_range(coast=False, **given),
    "penman-monteith": fao.penman_monteith,
    "penman-monteith by rules": by_rules,
    "hargreaves": by_range_alone,
}


@pytest.mark.parametrize("row", rows("fao-56"), ids=lambda row: row.what)
def test_a_worked_example_of_fao_56(row: Row) -> None:
    assert row.agrees(float(FORMULAS[row.what](**row.given))), FORMULAS[row.what](**row.given)  # type: ignore[arg-type]


@settings(max_examples=60)
@given(
    low=st.floats(-5, 25),
    range_c=st.floats(2, 20),
    dew=st.floats(-4, 0),
    sun_frac=st.floats(0.3, 1.0),
    wind=st.floats(0.8, 12),  # less stands below FAO-56's least wind, which refet does not have
    latitude=st.floats(-60, 60),
    altitude=st.floats(0, 2500),
    day=st.integers(1, 365),
)
def test_penman_monteith_agrees_with_an_independent_library(
    low: float, range_c: float, dew: float, sun_frac: float, wind: float, latitude: float, altitude: float, day: int
) -> None:
    """refet computes the ASCE's equation (2005), whose short reference is FAO-56's grass; its sun is a little other."""
    above = float(sun.extraterrestrial(day, latitude_deg=latitude))
    clear = float(sun.clear_sky(above, altitude_m=altitude))
    vapour = float(fao.saturation(low + dew))
    shone = max(sun_frac * clear, 0.1)
    theirs = refet.Daily(
        tmin=np.array([low]), tmax=np.array([low + range_c]), ea=np.array([vapour]), rs=np.array([shone]),
        uz=np.array([wind]), zw=10, elev=altitude, lat=latitude, doy=day, method="asce",
    ).eto()  # fmt: skip
    net = fao.net_radiation(
        low, low + range_c, vapour_kpa=vapour, sun_mj_per_m2=shone, clear_mj_per_m2=max(clear, 0.1)
    )  # fmt: skip
    ours = fao.penman_monteith(
        low, low + range_c, vapour_kpa=vapour, wind_m_per_s=fao.wind_at_two_metres(wind, height_m=10.0),
        net_mj_per_m2=net, altitude_m=altitude,
    )  # fmt: skip
    assert float(ours) == pytest.approx(float(theirs[0]), rel=0.01, abs=0.05)


def test_the_sun_at_the_pole_circle_neither_fails_nor_rises_at_midwinter() -> None:
    """Own hand: at 66 degrees the sun of 21 December hardly rises, and the day of 21 June hardly ends."""
    midwinter, midsummer = (float(sun.daylight(day, latitude_deg=66.0)) for day in (355, 172))
    assert midwinter < 3.0
    assert midsummer > 21.0
    assert float(sun.extraterrestrial(355, latitude_deg=66.0)) < 1.0
    assert float(sun.from_sunshine(0.0, daylight_h=0.0, above_mj_per_m2=0.0)) == 0.0
