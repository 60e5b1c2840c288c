"""What readings say of the end."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.air.endpoint import (
    SIGNS,
    SignName,
    at_least,
    jar_per_cm,
    level_chances,
    log_likelihood,
    probe_mg_per_l,
)
from bluewright.science.air.finish import airing
from bluewright.science.air.members import CAUSES, course, members, scores
from bluewright.science.air.record import AirRecord
from bluewright.science.base.records import read

SIGN = pytest.mark.parametrize("name", list(SIGNS))


def neutral(n: int = 1) -> np.ndarray:
    return np.zeros((n, len(CAUSES)))


def chance(readings: list[dict[str, object]], done_min: float = 30.0) -> float:
    record = read(
        AirRecord,
        {
            "liquor_l": 20.0, "temp_c": 20.0, "ph": 9.6, "indigo_g_per_l": 0.12, "whisk": {}, "done_min": done_min,
            "readings": readings,
        },
    )  # fmt: skip
    return airing(record, rng=np.random.default_rng(1), draws=2000).chance_done_frac


@SIGN
@given(exposure=st.floats(0.0, 50.0), eye=st.floats(-3.0, 3.0))
def test_the_chances_of_the_levels_sum_to_one(name: SignName, exposure: float, eye: float) -> None:
    z = neutral()
    z[:, CAUSES.index(SIGNS[name].eye)] = eye
    found = level_chances(name, np.array([exposure]), at=scores(z))
    assert np.sum(found) == pytest.approx(1.0)
    assert np.all(found > 0)


@SIGN
def test_a_level_is_even_odds_at_its_cut(name: SignName) -> None:
    """Own hand: at the cut the clear part is 0.5; with 2 % of slips (3, 2, 1)/4: 0.49 + 0.02 * (4 - j) / 4."""
    for level, share in enumerate(SIGNS[name].cut_frac, start=1):
        found = at_least(name, -np.log1p(-np.array([share])), at=scores(neutral()))[level - 1, 0]
        assert found == pytest.approx(0.49 + 0.02 * (4 - level) / 4)


@SIGN
def test_signs_come_in_their_order(name: SignName) -> None:
    """Common practice, no source: green-yellow, then blue and plenty, then shrinking, then white or none."""
    exposures = np.geomspace(0.02, 20.0, 200)
    likeliest = np.argmax(level_chances(name, exposures, at=scores(neutral(200))), axis=0)
    assert list(dict.fromkeys(likeliest)) == [0, 1, 2, 3]


def test_a_rebound_of_oxygen_raises_the_chance_that_it_is_done() -> None:
    """Own hand, from the balance of oxygen: near nought while the demand lasts, above half of saturation after.

    High from the start may also be a slow reaction, so that only the climb says much.
    """

    def read_as(first_mg_l: float, then_mg_l: float) -> float:
        return chance(
            [
                {"after_min": 12.0, "dissolved_oxygen_mg_l": first_mg_l},
                {"after_min": 30.0, "dissolved_oxygen_mg_l": then_mg_l},
            ]
        )

    assert read_as(0.3, 0.3) < 0.02 < chance([]) < read_as(0.3, 6.0)
    assert read_as(0.3, 6.0) > 0.7
    assert read_as(5.0, 6.0) < read_as(0.3, 6.0)


def test_more_oxygen_is_never_less_done() -> None:
    found = [chance([{"after_min": 30.0, "dissolved_oxygen_mg_l": mg_l}]) for mg_l in (0.2, 1.0, 3.0, 5.0, 7.0)]
    assert found == sorted(found)


@SIGN
def test_later_signs_are_never_less_done(name: SignName) -> None:
    found = [chance([{"after_min": 12.0, "signs": {name: level}}], done_min=12.0) for level in range(4)]
    assert found == sorted(found)
    assert found[0] < 0.02
    assert found[3] > 0.3


def test_ten_looks_of_one_eye_are_not_ten_witnesses() -> None:
    """The same sign ten times in one minute says little more than once: the eye's offset is shared."""

    def spread(looks: int) -> float:
        z = neutral(2)
        z[0, CAUSES.index("foam_eye")] = 1.5
        record = read(
            AirRecord,
            {
                "liquor_l": 20.0, "temp_c": 20.0, "ph": 9.6, "whisk": {}, "done_min": 30.0,
                "readings": [{"after_min": 30.0, "signs": {"foam": 3}}] * looks,
            },
        )  # fmt: skip
        group = members(record, z)
        fit = log_likelihood(record, course(record, group), group, at=scores(z))
        return float(fit[0] - fit[1])

    assert spread(10) == pytest.approx(10 * spread(1))
    once = chance([{"after_min": 30.0, "signs": {"foam": 3}}])
    often = chance([{"after_min": 30.0, "signs": {"foam": 3}}] * 10)
    apart = chance([{"after_min": 30.0, "signs": {"foam": 3, "liquor": 3}}])
    assert once < often < 1.0
    assert apart > once


def test_a_probe_that_reads_nought_may_stand_for_anything_below() -> None:
    """Own hand: a reading of 0 counts the whole tail, so it never makes a member impossible."""
    record = read(
        AirRecord,
        {
            "liquor_l": 20.0, "temp_c": 20.0, "ph": 9.6, "whisk": {}, "done_min": 30.0,
            "readings": [{"after_min": 30.0, "dissolved_oxygen_mg_l": 0.0}],
        },
    )  # fmt: skip
    z = np.random.default_rng(1).standard_normal((500, len(CAUSES)))
    group = members(record, z)
    path = course(record, group)
    fit = log_likelihood(record, path, group, at=scores(z))
    shown, _ = probe_mg_per_l(path.now.oxygen_mmol_per_l, at=scores(z))
    assert np.all(fit <= 0)
    assert np.all(np.isfinite(fit))
    assert fit[np.argmin(shown)] > fit[np.argmax(shown)]


def test_a_jar_shows_its_base_before_air_and_gain_times_indigo_at_the_end() -> None:
    """Own hand: 0.12 g/L at the middle gain of 7.5 L/(g cm) is 0.9 over the base of -0.03; half of it at ln 2."""
    record = read(
        AirRecord, {"liquor_l": 20.0, "temp_c": 20.0, "indigo_g_per_l": 0.12, "indigo_sd_g_per_l": 1e-6, "whisk": {}}
    )
    group = members(record, neutral())
    at, now = scores(neutral()), np.zeros(1)
    shown = [jar_per_cm(now + exposure, group, at=at, aired_h=now)[0][0] for exposure in (0.0, np.log(2), 50.0)]
    assert shown == pytest.approx([-0.03, 0.42, 0.87], abs=1e-3)


def jars(*rows: tuple[float, float]) -> list[dict[str, object]]:
    return [{"after_min": minute, "dye_index": dye} for minute, dye in rows]


def test_jars_that_rise_are_not_done_and_jars_at_rest_are() -> None:
    rising = jars((0.0, -0.03), (8.0, 0.2), (16.0, 0.42), (30.0, 0.75))
    resting = jars((0.0, -0.03), (8.0, 0.6), (16.0, 0.72), (30.0, 0.75))
    assert chance(rising) < 0.5 * chance([]) < chance([]) < chance(resting)
    assert chance(resting) > 0.6


def test_the_height_of_a_jar_says_little_and_its_course_much() -> None:
    """The same course in a jar that shows everything twice as blue: gain is unknown, so the end is told alike."""
    course = jars((0.0, -0.03), (8.0, 0.3), (16.0, 0.36), (30.0, 0.37))
    doubled = [row | {"dye_index": 2.0 * float(str(row["dye_index"])) + 0.03} for row in course]
    assert chance(course) == pytest.approx(chance(doubled), abs=0.12)
    assert abs(chance(jars((30.0, 0.4))) - chance([])) < 0.15
