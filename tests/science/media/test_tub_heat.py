"""Tub temperature: the heat balance, its time constants, and what readings teach."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.air_temp import (
    DAY_TO_DAY,
    DAY_TO_DAY_H,
    GUSTS,
    GUSTS_H,
    HALF_RANGE,
    HALF_RANGE_DAY,
    HALF_RANGE_DAY_H,
    HALF_RANGE_SEASON,
    SEASON_SWING,
    SHARED_ERROR_FRAC,
    YEAR_MEAN,
    daily_curve,
    season,
)
from bluewright.science.media.tub import Tub
from bluewright.science.media.tub_heat import START_SPREAD, Seen, follow, forecast, sample_paths
from bluewright.science.media.tub_walls import (
    NIGHT_OFFSET,
    SUN_BY_WALL,
    SUN_DAY_H,
    SUN_OFFSET,
    SUN_OWN_DAY_FRAC,
    conductance_w_per_k,
    sun_curve,
    surface_m2,
    tau_prior,
    time_constant_h,
)
from tests.published import Row, rows

NOTHING = Seen.nothing()
HOURS = np.arange(0.0, 97.0, 1.0)
JULY = 190


def seen(hours: object, temp_c: object, sd_c: float = 0.5) -> Seen:
    at = np.atleast_1d(np.asarray(hours, dtype=float))
    return Seen(
        hours=at, temp_c=np.broadcast_to(np.asarray(temp_c, dtype=float), at.shape), sd_c=np.full(len(at), sd_c)
    )


def paths(*, hours: Floats = HOURS, tub: Seen = NOTHING, air: Seen = NOTHING, **other: object) -> Floats:
    arguments: dict[str, object] = {
        "tub": Tub(), "liquid_l": 50.0, "clock_h": 11.0, "day_of_year": JULY, "hold_c": None,
        "rng": np.random.default_rng(3), "n": 1500,
    }  # fmt: skip
    return sample_paths(hours, tub_seen=tub, air_seen=air, **(arguments | other))  # type: ignore[arg-type]


# --- the heat balance itself ------------------------------------------------------------------------------------


def test_a_sinusoid_is_damped_and_delayed_as_analysis_says() -> None:
    """Own hand: tau 12 h, period 24 h: amplitude 1/sqrt(1 + pi^2) = 0.3033, lag atan(pi) * 24 / (2 pi) = 4.823 h."""
    step_h = 0.1
    hours = np.arange(0, 144, step_h)
    path = follow(np.cos(2 * np.pi * hours / 24), step_h=step_h, tau_h=12.0, start_c=0.0)
    last = slice(int(120 / step_h), None)
    wave = np.exp(-2j * np.pi * hours[last] / 24)
    answer = 2 * np.mean(path[last] * wave)
    assert abs(answer) == pytest.approx(1 / math.sqrt(1 + math.pi**2), abs=1e-4)
    assert -np.angle(answer) * 24 / (2 * np.pi) == pytest.approx(4.823, abs=1e-3)


@pytest.mark.parametrize("tau_h", [3.0, 12.0, 80.0])
def test_the_path_is_that_of_a_reference_solver(tau_h: float) -> None:
    """Reference library: `scipy.integrate.solve_ivp` on dT/dt = (Te - T)/tau with the same piecewise-linear Te."""
    hours = np.arange(0.0, 73.0, 1.0)
    felt = 16 + 5 * daily_curve(np.mod(hours + 11, 24)) + np.random.default_rng(4).normal(0, 1, len(hours))
    found = solve_ivp(
        lambda t, y: (np.interp(t, hours, felt) - y) / tau_h,
        (0, 72),
        [25.0],
        t_eval=hours,
        rtol=1e-9,
        atol=1e-10,
        max_step=0.1,
    )
    assert follow(felt, step_h=1.0, tau_h=tau_h, start_c=25.0) == pytest.approx(found.y[0], abs=1e-4)


@pytest.mark.parametrize("row", rows("insulated-tank"), ids=lambda r: r.what)
def test_an_insulated_tank_cools_as_worked_elsewhere(row: Row) -> None:
    """A worked example: 1000 L, 6 m2, 50.8 mm of foam at 0.02 W/(m K), from 90 C in air at 10 C."""
    given = row.given
    tau_h = time_constant_h(1000.0, conductance_w_per_k=given["k_w_per_m_k"] / given["wall_m"] * given["area_m2"])
    steps = 2001
    path = follow(np.full(steps, 10.0), step_h=given["after_h"] / (steps - 1), tau_h=tau_h, start_c=90.0)
    assert row.agrees(path[-1])


@pytest.mark.parametrize("row", rows("glass-wool-tank"), ids=lambda r: r.what)
def test_a_glass_wool_tank_has_the_published_area_and_the_time_constant_that_follows(row: Row) -> None:
    """Published: a 100 L tank, 0.44 m by 0.66 m, 50 mm glass wool of 0.037 W/(m K), area 1.22 m2 (Faiman 2001)."""
    given = row.given
    area_m2 = math.pi * given["width_m"] * given["height_m"] + math.pi * given["width_m"] ** 2 / 2
    w_per_k = area_m2 * given["k_w_per_m_k"] / given["wall_m"]
    found = {
        "area m2": area_m2,
        "conductance W/K": w_per_k,
        "time constant h": time_constant_h(100.0, conductance_w_per_k=w_per_k),
    }
    assert row.agrees(found[row.what])


@pytest.mark.parametrize(
    ("litres", "open_h", "lid_h", "wrapped_h"),
    [(20, 5.6, 7.9, 41), (60, 8.1, 11.3, 59), (120, 10.1, 14.3, 74), (200, 12.0, 16.9, 88), (1000, 20.6, 28.9, 151)],
)
def test_time_constants_of_ordinary_tubs(litres: float, open_h: float, lid_h: float, wrapped_h: float) -> None:
    """Own hand: cylinder of height 1.2 D, U 9 wall, 5 lid, 25 open, 1.5 wrapped, floor half of min(U, 2), W/(m2 K)."""
    for expected, covered, insulated in ((open_h, False, False), (lid_h, True, False), (wrapped_h, True, True)):
        tub = Tub(volume_l=float(litres), covered=covered, insulated=insulated)
        assert tau_prior(tub, liquid_l=float(litres)).centre == pytest.approx(expected, rel=0.01)


def test_the_surface_of_the_default_tub_is_that_of_a_cylinder() -> None:
    """Own hand: D = (0.24 / (1.2 pi))^(1/3) = 0.3993 m, area 0.1252 m2."""
    assert surface_m2(Tub()) == pytest.approx(0.1252, abs=1e-4)
    assert surface_m2(Tub(surface_m2=0.2)) == 0.2


@given(st.floats(5, 500), st.floats(0.05, 2.0))
def test_a_lid_or_a_wrapping_never_speeds_the_tub(liquid_l: float, area_m2: float) -> None:
    def conductance(covered: bool, insulated: bool) -> float:
        tub = Tub(surface_m2=area_m2, covered=covered, insulated=insulated)
        return conductance_w_per_k(tub, liquid_l=liquid_l)

    assert conductance(True, False) <= conductance(False, False)
    assert conductance(True, True) <= conductance(True, False)
    assert conductance(False, True) <= conductance(False, False)


def test_readings_teach_the_time_constant() -> None:
    """Own hand: warm water cooling by tau 6 h in steady air of 15 C; the wall figures alone say about 11 h."""
    hours = np.array([0.0, 2.0, 4.0, 6.0, 8.0, 10.0])
    tub = seen(hours, 15 + 35 * np.exp(-hours / 6.0), 0.3)
    found = forecast(
        np.arange(0.0, 25.0), tub=Tub(sun="shade"), liquid_l=55.0, clock_h=20.0, day_of_year=JULY,
        tub_seen=tub, air_seen=seen(np.arange(0.0, 13.0), 15.0, 0.3), hold_c=None,
    )  # fmt: skip
    assert found.tau_h[49] == pytest.approx(6.0, rel=0.06)
    assert found.tau_h[94] / found.tau_h[4] < 1.3


# --- the air curve ----------------------------------------------------------------------------------------------


def test_the_daily_curve_has_its_ends_at_six_and_three() -> None:
    """Common practice: coldest at 06:00, warmest at 15:00, the middle between them at half past ten."""
    assert daily_curve(np.array([6.0, 10.5, 15.0, 22.5])) == pytest.approx([-1, 0, 1, 0], abs=1e-12)
    assert daily_curve(np.arange(0, 24, 0.01)).mean() == pytest.approx(0.0, abs=1e-3)


def test_the_sun_is_down_at_night_and_its_mean_is_that_of_the_season() -> None:
    day = sun_curve(np.arange(0, 24, 0.01), day_of_year=172)
    assert day.mean() == pytest.approx(1.0, abs=0.01)
    assert day[0] == 0


# --- what is believed -------------------------------------------------------------------------------------------


def test_with_no_data_at_all_july_is_wide_about_sixteen() -> None:
    """Own judgement, said in the docs: July air about 16 C, the tub a little above, sd about 5."""
    found = paths()
    assert 15 < found.mean() < 19.5
    assert 4.0 < found[:, 48].std() < 6.5


def test_uncertainty_grows_ahead_of_the_last_reading() -> None:
    found = paths(air=seen(np.arange(-24.0, 1.0), 16.0, 0.5), tub=seen([0.0], 16.0)).std(axis=0)
    assert found[0] < 0.6
    assert found[3] < found[12] < found[48] < found[96]


def test_a_tub_reading_narrows_the_tub_around_it_and_after() -> None:
    without, with_one = paths(), paths(tub=seen([24.0], 19.0))
    assert with_one[:, 24].std() < 0.6
    assert with_one[:, 24].mean() == pytest.approx(19.0, abs=0.4)
    assert with_one[:, 72].std() < without[:, 72].std()


def test_a_logger_series_pins_the_tub() -> None:
    hours = np.arange(0.0, 97.0, 2.0)
    series = 17 + 2 * np.sin(2 * np.pi * (hours - 2) / 24)
    found = paths(tub=seen(hours, series, 0.2))
    assert np.abs(found.mean(axis=0)[::2] - series).max() < 0.4
    assert found.std(axis=0).max() < 0.4


def test_a_long_logger_series_of_the_air_alone_narrows_the_tub() -> None:
    hours = np.arange(-48.0, 97.0, 1.0)
    found = paths(air=seen(hours, 16 + 5 * daily_curve(np.mod(hours + 11, 24)), 0.3), tub=seen([0.0], 16.0))
    assert found.std(axis=0).max() < 2.5


def test_a_warmed_tub_that_is_read_does_not_warm_the_garden() -> None:
    """Water read at 80 C at the start cools to the season's temperature; the air is not believed to be at 80 C."""
    found = paths(tub=seen([0.0], 80.0))
    assert found[:, 0].mean() == pytest.approx(80.0, abs=0.3)
    assert 13 < found[:, 96].mean() < 22


def test_a_held_tub_stays_where_it_is_held_unless_it_is_read_elsewhere() -> None:
    hold = Prior(kind="normal", centre=35.0, spread=2.0, unit="C", source="common-practice", grade="guess")
    held = paths(hold_c=hold)
    assert held.mean() == pytest.approx(35.0, abs=0.3)
    assert held.std() == pytest.approx(math.hypot(2.0, 1.0), abs=0.15)
    cooled = paths(hold_c=hold, tub=seen([6.0, 12.0, 18.0, 24.0], [29.0, 25.0, 22.0, 20.0]))
    assert cooled[:, 24].mean() == pytest.approx(20.0, abs=0.5)
    assert cooled[:, 60].mean() < 24.0


def test_a_lognormal_hold_has_the_same_middle() -> None:
    hold = Prior(kind="lognormal", centre=70.0, spread=0.05, unit="C", source="common-practice", grade="guess")
    assert paths(hours=np.linspace(0, 2, 30), hold_c=hold).mean() == pytest.approx(70.0, abs=0.5)


def test_readings_before_the_steep_began_count() -> None:
    assert paths(tub=seen([-2.0], 22.0))[:, 0].mean() == pytest.approx(21.0, abs=1.2)


def test_the_same_seed_gives_the_same_paths() -> None:
    assert (paths(tub=seen([3.0], 18.0)) == paths(tub=seen([3.0], 18.0))).all()


@settings(max_examples=25, deadline=None)
@given(
    temp_c=st.floats(-5, 90),
    at=st.floats(0, 96),
    sd_c=st.floats(0.1, 0.7),
    insulated=st.booleans(),
    covered=st.booleans(),
)
def test_any_good_reading_is_believed(temp_c: float, at: float, sd_c: float, insulated: bool, covered: bool) -> None:
    tub = Tub(insulated=insulated, covered=covered)
    found = forecast(
        np.array([0.0, 100.0]), tub=tub, liquid_l=50.0, clock_h=11.0, day_of_year=JULY,
        tub_seen=seen([at], temp_c, sd_c), air_seen=NOTHING, hold_c=None,
    ).draw(np.array([at]), rng=np.random.default_rng(6), n=400)  # fmt: skip
    assert abs(found.mean() - temp_c) < 0.3 + 1.5 * sd_c
    assert found.std() < 1.3 * sd_c + 0.05


# --- does it cover as named? ------------------------------------------------------------------------------------


def _wander(rng: np.random.Generator, spread: float, memory_h: float, step_h: float, steps: int) -> Floats:
    """A stationary first-order process, step by step: another way to the covariances that the model uses."""
    path = np.empty(steps)
    path[0] = rng.normal(0, spread)
    kept = math.exp(-step_h / memory_h)
    for k in range(1, steps):
        path[k] = kept * path[k - 1] + spread * math.sqrt(1 - kept**2) * rng.normal()
    return path


def _truth(rng: np.random.Generator, tub: Tub, clock_h: float, step_h: float, steps: int) -> tuple[Floats, Floats]:
    """Air and tub drawn from the stated priors by stepping through time (no covariance matrix anywhere)."""
    of_day = np.mod(clock_h + np.arange(steps) * step_h, 24.0)
    mean = rng.normal(YEAR_MEAN.centre + SEASON_SWING.value * season(JULY), YEAR_MEAN.spread)
    slow = mean + _wander(rng, DAY_TO_DAY.spread, DAY_TO_DAY_H.value, step_h, steps)
    half = rng.normal(HALF_RANGE.centre + HALF_RANGE_SEASON.value * season(JULY), HALF_RANGE.spread)
    half = half + _wander(rng, HALF_RANGE_DAY.spread, HALF_RANGE_DAY_H.value, step_h, steps)
    air = slow + half * daily_curve(of_day) + _wander(rng, GUSTS.spread, GUSTS_H.value, step_h, steps)
    sun, share = SUN_OFFSET[tub.sun], SUN_BY_WALL[tub.covered, tub.insulated]
    place = rng.normal(sun.centre, sun.spread * math.sqrt(1 - SUN_OWN_DAY_FRAC.value))
    cloud = _wander(rng, sun.spread * math.sqrt(SUN_OWN_DAY_FRAC.value), SUN_DAY_H.value, step_h, steps)
    lit = share * sun_curve(of_day, day_of_year=JULY)
    night = rng.normal(NIGHT_OFFSET.centre, NIGHT_OFFSET.spread)
    felt = air + (place + cloud) * lit + night * (lit == 0)
    tau_h = tau_prior(tub, liquid_l=50.0).draw(rng, 1)[0]
    path = np.empty(steps)
    path[0] = slow[0] + rng.normal(0, START_SPREAD.spread)
    for k in range(1, steps):
        path[k] = path[k - 1] + ((felt[k - 1] + felt[k]) / 2 - path[k - 1]) * (1 - math.exp(-step_h / tau_h))
    return air, path


def _air_errors(rng: np.random.Generator, hours: Floats, sd_c: float) -> Floats:
    shared = _wander(rng, 1.0, DAY_TO_DAY_H.value, hours[1] - hours[0], len(hours))
    part = SHARED_ERROR_FRAC.value
    return sd_c * (math.sqrt(part) * shared + math.sqrt(1 - part) * rng.normal(size=len(hours)))


def _covered(runs: int) -> Floats:
    """Share of the drawn paths that lie below the truth, at hours between (9, 27) and after (42, 60) the readings."""
    rng = np.random.default_rng(5)
    tub, step_h, start = Tub(sun="full"), 0.25, 12.0
    asked = np.array([9.0, 27.0, 42.0, 60.0])
    ranks = np.empty((runs, len(asked)))
    for run in range(runs):
        air, path = _truth(rng, tub, 8.0, step_h, int(73 / step_h) + 1)
        air, path = air[int(start / step_h) :], path[int(start / step_h) :]
        read_at, air_at = np.array([3.0, 12.0, 20.0, 30.0]), np.arange(0.0, 34.0, 3.0)
        drawn = sample_paths(
            np.arange(0.0, 61.0, 1.0), tub=tub, liquid_l=50.0, clock_h=20.0, day_of_year=JULY,
            tub_seen=seen(read_at, path[(read_at / step_h).astype(int)] + rng.normal(0, 0.5, 4)),
            air_seen=seen(air_at, air[(air_at / step_h).astype(int)] + _air_errors(rng, air_at, 1.0), 1.0),
            hold_c=None, rng=rng, n=300,
        )  # fmt: skip
        ranks[run] = (drawn[:, asked.astype(int)] < path[(asked / step_h).astype(int)]).mean(axis=0)
    return ranks


def test_bands_cover_as_named_when_the_truth_is_drawn_from_the_prior() -> None:
    """Simulation: 320 tubs; the share of truths inside the 50, 80, 95 % bands is as named within 3 standard errors."""
    runs = 320
    ranks = _covered(runs)
    for named in (0.50, 0.80, 0.95):
        inside = (np.abs(ranks - 0.5) < named / 2).mean(axis=0)
        assert np.abs(inside - named).max() < 3.2 * math.sqrt(named * (1 - named) / runs) + 0.01, (named, inside)
    assert np.abs(ranks.mean(axis=0) - 0.5).max() < 3.2 / math.sqrt(12 * runs)


# --- bad input --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("hours", "temp_c", "sd_c", "said"),
    [
        ([0.0], [106.0], [1.0], r"temp_c\[0\]: 106 C cannot be"),
        ([0.0, 1.0], [15.0, -31.0], [1.0, 1.0], r"temp_c\[1\]: -31 C"),
        ([0.0], [float("nan")], [1.0], r"temp_c\[0\]: nan"),
        ([float("nan")], [15.0], [1.0], "an hour or an error"),
        ([0.0], [15.0], [0.0], "an hour or an error"),
        ([0.0, 1.0], [15.0], [1.0], "differ in length"),
    ],
)
def test_impossible_readings_are_refused(hours: list[float], temp_c: list[float], sd_c: list[float], said: str) -> None:
    with pytest.raises(InputError, match=said):
        Seen(hours=np.array(hours), temp_c=np.array(temp_c), sd_c=np.array(sd_c))


def test_no_hours_no_liquid_and_a_share_as_temperature_are_refused() -> None:
    share = Prior(kind="logitnormal", centre=0.5, spread=1.0, unit="1", source="common-practice", grade="guess")
    with pytest.raises(InputError, match="hours"):
        paths(hours=np.empty(0))
    with pytest.raises(InputError, match="liquid_l"):
        paths(liquid_l=0.0)
    with pytest.raises(InputError, match="hold_c"):
        paths(hold_c=share)


@pytest.mark.parametrize("liquid_l", [1e-6, 46.0])
def test_readings_that_no_tub_would_show_are_still_answered_in_numbers(liquid_l: float) -> None:
    """A boiling reading in a tub left to the air leaves a belief narrower than the grid of time constants."""
    hours = np.linspace(0.0, 72.0, 73)
    drawn = paths(hours=hours, tub=seen([0.0, 4.0], [15.5, 96.7]), liquid_l=liquid_l)
    assert np.isfinite(drawn).all()
