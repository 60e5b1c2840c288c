"""Several photos of the same things as one answer."""

from dataclasses import replace

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.photo.priors import SHOT_SD, SHOT_WORTH, values
from bluewright.science.photo.record import PhotoAnswer
from bluewright.science.photo.repeats import together
from tests.science.photo.test_measure import answer


def shots(*shifts: tuple[float, float, float]) -> list[PhotoAnswer]:
    """The same photo again and again, its first sample moved by so much each time."""
    one = answer()
    return [
        replace(one, samples=(replace(one.samples[0], lab=tuple(np.add(one.samples[0].lab, shift))), one.samples[1]))
        for shift in shifts
    ]


def part(found: PhotoAnswer, name: str) -> np.ndarray:
    return np.array(next(each.lab_sd for each in found.samples[0].parts if each.what == name))


def test_one_photo_is_its_own_answer() -> None:
    one = answer()
    assert together([one]) == one


def test_the_colour_is_the_mean_and_the_spread_shrinks_by_what_differs_from_photo_to_photo() -> None:
    found = together(shots((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.6, 0.0), (0.0, -0.6, 0.0)))
    single = answer().samples[0]
    assert found.samples[0].lab == pytest.approx(single.lab, abs=0.01)
    assert found.photos == 4
    assert "repeats" in found.reasons and "few_photos" not in found.reasons
    assert np.all(np.array(found.samples[0].repeat_lab_sd) < 0.62 * np.array(single.repeat_lab_sd))
    assert part(found, "method") == pytest.approx(part(answer(), "method"))


def test_scatter_is_weighed_against_what_is_expected_by_hand() -> None:
    """s^2 = (3 s0^2 + 2) / (3 + 3) for L* of +1, -1, 0, 0; the mean of four is off by s / 2."""
    found = together(shots((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 0.0, 0.0)))
    expected = values(SHOT_SD["white"])[0]
    worth = SHOT_WORTH.value
    assert part(found, "shots")[0] == pytest.approx(np.sqrt((worth * expected**2 + 2) / (worth + 3)) / 2, abs=0.001)


def test_many_photos_outweigh_the_expectation() -> None:
    rng = np.random.default_rng(1)
    found = together(shots(*(tuple(each) for each in rng.normal(0, 0.2, (40, 3)))))
    assert part(found, "shots")[0] * np.sqrt(40) == pytest.approx(0.33, abs=0.1)


def test_photos_that_disagree_are_told() -> None:
    codes = {c.code for c in together(shots((0, 0, 0), (0, 0, 0), (9.0, 0, 0))).cautions}
    assert "photos-disagree" in codes
    assert "photos-disagree" not in {c.code for c in together(shots((0, 0, 0), (1.0, 0, 0))).cautions}


def test_the_least_trusted_photo_decides() -> None:
    good, copy = answer(), replace(answer(), trust="picture_only", reasons=("copy", "few_photos"))
    found = together([good, copy])
    assert found.trust == "picture_only"
    assert {"copy", "few_photos"} <= set(found.reasons)


def test_photos_of_unlike_numbers_of_samples_are_refused() -> None:
    one = answer()
    with pytest.raises(InputError, match="the photos show 2, 1 samples"):
        together([one, replace(one, samples=one.samples[:1])])
