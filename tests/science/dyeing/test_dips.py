"""A course of dips: nothing lost, the build-up by hand, and the ways that the course must lean."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.dyeing.dips import Way, course
from bluewright.science.dyeing.scores import SIZE, Believed, believed
from tests.published import rows

COTTON = Way(
    fibre="cotton", body="yarn", thickness_mm=0.3, dry_kg=0.5, bath_l=20.0, dip_min=5.0, air_min=15.0, temp_c=25.0,
    ph=11.0, after_dip="squeezed", run="well_run", refill_g=0.0,
)  # fmt: skip


def held(z: np.ndarray | None = None, *, n: int = 1, **changed: float) -> Believed:
    found = believed(np.zeros((n, SIZE)) if z is None else z, fibre="cotton", after_dip="squeezed", run="well_run")
    return dataclasses.replace(found, **{name: np.full(n, value) for name, value in changed.items()})


@settings(deadline=None, max_examples=60)
@given(
    seed=st.integers(0, 10_000), fibre=st.sampled_from(["cotton", "wool", "silk", "linen"]), dips=st.integers(1, 20),
    bath_l=st.floats(2, 500), strength=st.floats(0.01, 10), dip_min=st.floats(0.1, 600), air_min=st.floats(0, 60),
    refill_g=st.floats(0, 50), after=st.sampled_from(["rinsed", "squeezed", "aired"]),
    run=st.sampled_from(["well_run", "over_reduced"]),
)  # fmt: skip
def test_indigo_is_neither_made_nor_lost(seed, fibre, dips, bath_l, strength, dip_min, air_min, refill_g, after, run):
    z = np.random.default_rng(seed).standard_normal((20, SIZE))
    way = dataclasses.replace(
        COTTON,
        fibre=fibre,
        bath_l=bath_l,
        dip_min=dip_min,
        air_min=air_min,
        refill_g=refill_g,
        after_dip=after,
        run=run,
    )
    found = course(np.full(20, strength), believed(z, fibre=fibre, after_dip=after, run=run), way=way, dips=dips)
    on_cloth = way.dry_kg * (found.sorbed_g_per_kg + found.loose_g_per_kg)
    there = found.active_g_per_l * bath_l + found.turned_g + found.dripped_g + on_cloth
    assert there == pytest.approx(strength * bath_l + found.refilled_g, rel=1e-12)
    for part in (on_cloth, found.active_g_per_l, found.turned_g, found.dripped_g, found.loose_g_per_kg):
        assert np.all(part >= 0)


@pytest.mark.parametrize(
    ("strip", "by_hand"),
    [
        # by hand: C_n = (1 - s) C_(n-1) + 0.4 %
        (0.0, [0.4, 0.8, 1.2, 1.6, 2.0]),
        (0.1, [0.40, 0.76, 1.084, 1.376, 1.638]),
        (0.25, [0.40, 0.70, 0.925, 1.094, 1.220]),
    ],
)
def test_blue_builds_up_by_equal_steps_less_what_each_dip_takes_off(strip, by_hand):
    """A vat without end and cloth that blues at once: each dip puts on the same."""
    endless = dataclasses.replace(COTTON, bath_l=1e9, air_min=1e6)
    found = course(np.array([1.0]), held(strip_frac=strip, oxidised_frac=0.0, kept_frac=0.0), way=endless, dips=5)
    steps = found.sorbed_g_per_kg[0] / found.sorbed_g_per_kg[0, 0]
    assert 0.4 * steps == pytest.approx(np.array(by_hand), abs=0.001)


def test_entrained_liquor_is_pick_up_times_strength():
    """By hand: 1.0 L/kg of 2 g/L that all stays is 2 g/kg, 0.2 % of the cloth, in one dip."""
    endless = dataclasses.replace(COTTON, bath_l=1e9, dip_min=1e-6)
    found = course(np.array([2.0]), held(pickup_l_per_kg=1.0, kept_frac=1.0, loose_frac=1.0), way=endless, dips=1)
    assert float(found.loose_g_per_kg[0, 0]) == pytest.approx(2.0, rel=1e-3)


def test_cloth_dipped_again_before_it_has_blued_takes_less():
    soon, late = (
        course(np.array([1.0]), held(), way=dataclasses.replace(COTTON, air_min=air), dips=4).sorbed_g_per_kg[0, -1]
        for air in (0.5, 20.0)
    )
    assert soon < 0.9 * late


def test_dips_of_less_time_leave_a_ring():
    rings = []
    for minutes in (0.3, 5.0, 60.0):
        found = course(np.array([1.0]), held(), way=dataclasses.replace(COTTON, dip_min=minutes), dips=3)
        whole = found.sorbed_g_per_kg + found.loose_g_per_kg
        rings.append(float(found.outside_g_per_kg[0, -1] / whole[0, -1]))
    assert rings[0] > rings[1] > rings[2] >= 1.0
    assert rings[0] > 1.5


def test_high_ph_dyes_further_in_and_less():  # the direction that Etters 1996 tells
    usual, high = (
        course(np.array([1.0]), held(), way=dataclasses.replace(COTTON, ph=ph, dip_min=1.0), dips=1)
        for ph in (11.0, 13.0)
    )
    assert high.sorbed_g_per_kg[0, 0] < usual.sorbed_g_per_kg[0, 0]
    assert high.fourier[0] > usual.fourier[0]


def test_the_unfixed_share_on_cotton_crosses_what_is_told_of_mills():
    z = np.random.default_rng(4).standard_normal((1000, SIZE))
    found = course(np.full(1000, 1.5), held(z, n=1000), way=COTTON, dips=6)
    loose = found.loose_g_per_kg[:, -1] / (found.loose_g_per_kg + found.sorbed_g_per_kg)[:, -1]
    low, high = np.quantile(loose, [0.05, 0.95])
    least, most = (row.value for row in rows("vat-unfixed"))
    assert low < most
    assert high > least
    assert least < float(np.median(loose)) < most


def test_a_dip_in_a_vat_that_air_turns_blue_leaves_it_weaker_by_that_share():
    """By hand: fibre that likes nothing and carries nothing out; 5 dips at 10 % leave 0.9^5."""
    idle = held(affinity_l_per_kg=1e-9, kept_frac=0.0, pickup_l_per_kg=1e-9, oxidised_frac=0.1)
    found = course(np.array([2.0]), idle, way=COTTON, dips=5)
    assert float(found.active_g_per_l[0, -1]) == pytest.approx(2.0 * 0.9**5, rel=1e-6)
    assert math.isclose(float(found.turned_g[0, -1]), 20 * 2.0 * (1 - 0.9**5), rel_tol=1e-6)
