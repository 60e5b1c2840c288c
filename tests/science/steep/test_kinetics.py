"""The kinetic model: against an independent solver, against published and trade steeping times, and its laws."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from bluewright.science.base.sourced import Floats
from bluewright.science.media.basket import Cut, Plant
from bluewright.science.media.oxygen import saturation_mmol_per_l
from bluewright.science.steep.growth import cardinal_frac, flora_frac
from bluewright.science.steep.kinetics import FIELDS, OTHERS, Batch, Course, moments, solve
from bluewright.science.steep.priors import CUT_FACTOR, FREED_BY_ALKALI_FRAC, priors_of
from tests.published import Row, rows

LOAD_KG_PER_L = 0.1
CASES: dict[int, tuple[Plant, Cut]] = {
    1: ("woad", "whole"),
    2: ("japanese_indigo", "whole"),
    3: ("indigofera", "whole"),
    4: ("woad", "torn"),
    5: ("woad", "shredded"),
}
COVERED_PER_M = 0.75


def batch(plant: Plant, *, scores: Floats | None = None, cut: Cut = "whole", content: float = 25.0) -> Batch:
    """Members at `scores` (n, parameters); a single one at the priors' centres if left out."""
    priors = priors_of(plant)
    z = np.zeros((1, len(priors))) if scores is None else scores
    values = {name: prior.from_z(z[:, k]) for k, (name, prior) in enumerate(priors.items())}
    return Batch(
        values=values | {"content_mmol_per_kg": np.full(len(z), content)},
        leaf_kg_per_l=LOAD_KG_PER_L,
        cut_factor=CUT_FACTOR[cut],
        area_per_depth_per_m=COVERED_PER_M,
    )


def steady(plant: Plant, temp_c: float, hours: Floats, *, cut: Cut = "whole") -> Course:
    temps = np.full((len(hours), 1), temp_c)
    return solve(batch(plant, cut=cut), hours=hours, temp_c=temps, freed_frac=FREED_BY_ALKALI_FRAC[plant])


def peak_h(plant: Plant, temp_c: float, *, cut: Cut = "whole") -> float:
    hours = np.concatenate([[0.0], np.geomspace(1 / 120, 500, 700)])
    return float(hours[steady(plant, temp_c, hours, cut=cut).recoverable_mmol_per_l[:, 0].argmax()])


def right_side(b: Batch, temp_of: object, hour: float, y: Floats) -> Floats:
    """The model's equations written out once more, plainly, for one member (reference for the solver)."""
    v = {name: float(values[0]) for name, values in b.values.items()}
    temp = float(temp_of(hour))  # type: ignore[operator]
    leaf, tissue, trapped, bound, indoxyl, _, _, oxygen, flora, acid, enzyme, brown = y
    gas, load = 8.314462618, b.leaf_kg_per_l

    def arr(ea: float, at: float) -> float:
        return float(np.exp(ea / gas * (1 / (at + 273.15) - 1 / (temp + 273.15))))

    start = v["content_mmol_per_kg"] * load
    dead = 1 - leaf / start
    growth = float(flora_frac(np.array(temp)))
    cut = b.cut_factor * v["cut_scatter"]
    ph = v["water_ph"] - v["sap_drop_ph"] * dead * min(1.5, load / 0.1) - v["acid_drop_ph"] * acid
    slow = v["kill_25c_per_h"] * v["kill_q10"] ** ((min(temp, 45) - 25) / 10)
    slow_and_hot = min(cut * slow + v["heat_kill_48c_per_h"] * arr(280e3, 48), 200)
    kill = min(slow_and_hot + cut * v["microbe_kill_30c_per_h"] * growth * flora, 200)
    leach = min(cut * v["leach_25c_per_h"] * arr(45e3, 25), 40)
    active = v["enzyme_25c_mmol_per_kg_h"] * arr(45e3, 25) * enzyme
    alone = v.get("self_split_ph7_per_h", 0.0) * arr(80e3, 25) * 10 ** (0.7 * (ph - 7))
    split = active / (v["half_mmol_per_l"] + tissue / load) + alone
    split_liquor = active * load * 0.3 * dead / (v["half_mmol_per_l"] + bound) + alone
    side = v["side_loss_25c_per_h"] * arr(85e3, 25) * 10 ** (0.25 * (ph - 6))
    eaten = v["microbe_loss_30c_per_h"] * 2 ** ((min(temp, 40) - 30) / 10) * flora
    oxidation = v["oxidation_ph7_per_mmol_h"] * 10 ** (0.35 * (ph - 7)) * 2 ** ((temp - 25) / 10)
    burnt = oxidation * indoxyl * oxygen
    breath = (
        v["leaf_breath_mmol_per_l_h"] * (1 - dead) * load / 0.1 + v["flora_breath_mmol_per_l_h"] * flora * growth**0.7
    )
    transfer = v["surface_cm_per_h"] / 100 * b.area_per_depth_per_m
    saturation = float(saturation_mmol_per_l(min(temp, 40.0)))
    lost = (0.6 * side * tissue, side * trapped, (0.6 * side + 0.3 * eaten) * bound, (side + eaten) * indoxyl)
    return np.array([
        -kill * leaf,
        kill * leaf - (leach + split) * tissue - lost[0],
        split * tissue - leach * trapped - lost[1],
        leach * tissue - split_liquor * bound - lost[2],
        leach * trapped + split_liquor * bound - lost[3] - burnt,
        burnt,
        sum(lost),
        transfer * (saturation - oxygen) - breath * oxygen / (oxygen + 0.005) - 0.75 * burnt,
        v["growth_best_per_h"] * growth * (0.2 + 0.8 * dead) * flora * (1 - flora),
        v["acid_30c_per_h"] * growth * flora * (1 - acid),
        -v["enzyme_loss_60c_per_h"] * arr(250e3, 60) * enzyme,
        v["brown_25c_per_h"] * 2 ** ((temp - 25) / 10) * dead * (1 + 2 * flora) * (1 - brown),
    ])  # fmt: skip


@pytest.mark.parametrize("plant", ["woad", "japanese_indigo", "indigofera"])
@pytest.mark.parametrize("member", [0, 1, 2])
def test_the_solver_agrees_with_scipy_on_the_written_out_equations(plant: Plant, member: int) -> None:
    """Reference library: SciPy's LSODA at rtol 1e-8, day and night about 18 C, random members."""
    scores = np.random.default_rng(member).standard_normal((1, len(priors_of(plant))))
    b = batch(plant, scores=scores)
    hours = np.unique(np.concatenate([[0.02, 0.06, 0.15, 0.3, 0.6], np.arange(0, 121, 1.0)]))

    def temp_of(hour: float | Floats) -> float | Floats:
        return 18 + 4 * np.sin(2 * np.pi * (hour - 3) / 24)

    freed = FREED_BY_ALKALI_FRAC[plant]
    mine = solve(b, hours=hours, temp_c=temp_of(hours)[:, None], freed_frac=freed)  # type: ignore[index]
    start = [b.start_mmol_per_l[0], 0, 0, 0, 0, 0, 0, float(saturation_mmol_per_l(float(temp_of(0.0)))),
             min(float(b.values["flora_start"][0]), 0.5), 0, 1, 0]  # fmt: skip
    theirs = solve_ivp(
        lambda t, y: right_side(b, temp_of, t, y), (0, 120), start, "LSODA", hours, rtol=1e-8, atol=1e-11
    ).y
    recoverable = theirs[4] + freed * theirs[3]
    off = np.abs(mine.recoverable_mmol_per_l[:, 0] - recoverable).max() / recoverable.max()
    assert off < 0.01
    assert np.abs(mine["flora"][:, 0] - theirs[8]).max() < 0.02
    assert np.abs(mine["brown"][:, 0] - theirs[11]).max() < 0.01
    assert np.abs(mine.dead_frac[:, 0] - (1 - theirs[0] / start[0])).max() < 0.01


def test_halving_the_step_quarters_the_error() -> None:
    """The scheme is of second order: the error falls at least threefold when the step is halved."""
    fine = steady("woad", 22.0, np.linspace(0, 96, 3073))
    errors = []
    for steps in (48, 96):
        coarse = steady("woad", 22.0, np.linspace(0, 96, steps + 1))
        exact = fine.recoverable_mmol_per_l[:: 3072 // steps]
        errors.append(np.abs(coarse.recoverable_mmol_per_l - exact)[steps // 12 :].max())
    assert errors[1] < errors[0] / 3


@settings(max_examples=30, deadline=None)
@given(
    seed=st.integers(0, 10_000),
    temp_c=st.floats(0.5, 99.0),
    plant=st.sampled_from(["woad", "japanese_indigo", "indigofera"]),
    step_h=st.sampled_from([0.01, 0.5, 5.0]),
)
def test_mass_closes_and_nothing_is_negative(seed: int, temp_c: float, plant: Plant, step_h: float) -> None:
    b = batch(plant, scores=np.random.default_rng(seed).standard_normal((5, len(priors_of(plant)))))
    hours = np.arange(30) * step_h
    course = solve(b, hours=hours, temp_c=np.full((30, 5), temp_c), freed_frac=FREED_BY_ALKALI_FRAC[plant])
    assert np.allclose(sum(course[name] for name in FIELDS), b.start_mmol_per_l, rtol=1e-12)
    assert all((course.states[name] >= 0).all() for name in course.states if name != "ph")
    assert (course["flora"] <= 1).all()


@pytest.mark.parametrize("row", rows("steeping-times"), ids=lambda row: f"{row.what}")
def test_published_and_trade_steeping_times_lie_in_the_window(row: Row) -> None:
    """Published and trade: the named time lies where at least 90 % of the best is left (tolerance: see the file)."""
    plant, cut = CASES[int(row.given["case"])]
    hours = np.concatenate([[0.0], np.geomspace(1 / 120, 500, 500)])
    recoverable = steady(plant, row.given["temp_c"], hours, cut=cut).recoverable_mmol_per_l[:, 0]
    share = np.interp(row.value, hours, recoverable) / recoverable.max()
    assert share >= row.given["at_least_frac"], f"{share:.2f} of the best at {row.value} h"


def test_a_cold_steep_in_a_cool_summer_takes_about_three_days() -> None:
    """Common practice, no source: about three days at a mean of 15 to 17 C, more when colder, less when warmer."""
    assert 60 < peak_h("woad", 16.0) < 84
    assert peak_h("woad", 12.0) > 90
    assert peak_h("woad", 22.0) < 60


def test_the_time_to_the_peak_about_halves_in_ten_degrees() -> None:
    """Common practice, no source: the whole steep has a Q10 between 2 and 3."""
    for plant in ("woad", "japanese_indigo", "indigofera"):
        assert 2.0 < peak_h(plant, 15.0) / peak_h(plant, 25.0) < 3.0


@pytest.mark.parametrize(("temp_c", "least", "most"), [(70.0, 0.35, 1.0), (98.0, 0.0, 0.02)])
def test_indican_survives_boiling_and_is_split_at_seventy(temp_c: float, least: float, most: float) -> None:
    """Published: an extract at 100 C holds indican only, at 70 C the most indoxyl (Chin. Trad. Herb. Drugs 2010)."""
    hours = np.linspace(0, 1.0, 400)
    course = steady("japanese_indigo", temp_c, hours, cut="torn")
    best = (course.recoverable_mmol_per_l / course.start_mmol_per_l).max()
    assert least <= best <= most


def test_chopping_speeds_the_steep() -> None:
    """Published (Siitonen 2010, abstract): chopping raises the yield in the same time."""
    assert peak_h("woad", 40.0, cut="shredded") < 0.6 * peak_h("woad", 40.0, cut="torn")


@pytest.mark.parametrize("row", rows("matejcekova-2019"), ids=lambda row: f"{row.given['temp_c']} C")
def test_the_cardinal_model_hits_its_cardinal_points(row: Row) -> None:
    """Published: L. plantarum in MRS broth, Tmin 2.0, Topt 36.6, Tmax 41.0 C."""
    found = cardinal_frac(np.array(row.given["temp_c"]), min_c=2.0, best_c=36.6, max_c=41.0)
    assert row.agrees(float(found))


def test_sour_water_keeps_more_blue() -> None:
    """Published (Siitonen 2010, abstract): a pH of 4 gives more than neutral water, at 40 C with torn leaf."""
    hours = np.linspace(0, 24, 400)
    temps = np.full((len(hours), 1), 40.0)
    plain = batch("woad", cut="torn")
    sour = replace(plain, values=plain.values | {"water_ph": np.array([4.5]), "sap_drop_ph": np.array([0.3])})
    best = [solve(b, hours=hours, temp_c=temps, freed_frac=0.9).recoverable_mmol_per_l.max() for b in (plain, sour)]
    assert best[1] > 1.1 * best[0]


def test_air_stirred_in_spoils_the_blue_in_the_tub() -> None:
    """Common practice, no source: a steep is left alone; air turns dissolved blue to scum."""
    hours = np.arange(0.0, 120.0, 1.0)
    still = batch("woad")
    stirred = replace(still, area_per_depth_per_m=100 * COVERED_PER_M)
    temps = np.full((len(hours), 1), 20.0)
    courses = [solve(b, hours=hours, temp_c=temps, freed_frac=0.9) for b in (still, stirred)]
    assert courses[1].recoverable_mmol_per_l.max() < 0.85 * courses[0].recoverable_mmol_per_l.max()
    assert courses[1]["indigo"][-1, 0] > 5 * courses[0]["indigo"][-1, 0]


def test_moments_are_those_of_the_whole_course() -> None:
    hours, freed = np.linspace(0, 40, 41), FREED_BY_ALKALI_FRAC["woad"]
    temps = np.full((41, 3), 18.0) + np.array([0.0, 4.0, 8.0])
    b, wanted = (
        batch("woad", scores=np.zeros((3, len(priors_of("woad")))) + np.array([[-1.0], [0.0], [1.0]])),
        [0, 7, 40],
    )
    whole = solve(b, hours=hours, temp_c=temps, freed_frac=freed)
    some = solve(b, hours=hours, temp_c=temps, freed_frac=freed, rows=wanted)
    one_by_one = list(moments(b, hours=hours, temp_c=temps, freed_frac=freed, rows=wanted))
    assert len(one_by_one) == len(wanted)
    for name in FIELDS + OTHERS:
        assert np.array_equal(some[name], whole[name][wanted])
        assert np.array_equal(np.concatenate([moment[name] for moment in one_by_one]), whole[name][wanted])
    assert np.array_equal(whole.at([7, 40])["indoxyl"], whole["indoxyl"][[7, 40]])
