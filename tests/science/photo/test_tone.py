"""The camera's tone curve, undone by neutrals."""

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from bluewright.science.base.errors import InputError
from bluewright.science.photo.tone import fit_tone, hermite, monotone_slope


def test_the_curve_is_the_monotone_one_of_scipy() -> None:
    rng = np.random.default_rng(1)
    for count in (2, 3, 4, 7, 12):
        at, values = np.cumsum(rng.uniform(0.1, 1, count)), np.cumsum(rng.uniform(0, 1, count) ** 4)
        x = np.linspace(at[0], at[-1], 50)
        ours = hermite(x, at=at, values=values, slope=monotone_slope(at, values))
        assert ours == pytest.approx(PchipInterpolator(at, values)(x), abs=1e-12)


def test_one_neutral_is_a_gain() -> None:
    tone = fit_tone([[0.8, 0.7, 0.6]], [[0.9, 0.9, 0.9]])
    assert tone([0.4, 0.35, 0.3]) == pytest.approx([0.45, 0.45, 0.45])


def test_neutrals_undo_a_curve_that_lifts_the_shadows_and_deepens_the_lights() -> None:
    """An S of the codes, six greys, and the greys between them: within a hundredth of white."""
    true = np.repeat(np.array([0.03, 0.1, 0.2, 0.4, 0.6, 0.9])[:, None], 3, axis=1)

    def bent(light: np.ndarray) -> np.ndarray:
        return np.asarray((light ** (1 / 2.2) + 0.05 * np.sin(2 * np.pi * light ** (1 / 2.2))) ** 2.2)

    between = np.repeat(np.linspace(0.03, 0.9, 40)[:, None], 3, axis=1)
    assert np.abs(bent(between) - between).max() > 0.04
    assert fit_tone(bent(true), true)(bent(between)) == pytest.approx(between, abs=0.01)


def test_beyond_the_neutrals_it_goes_on_in_proportion() -> None:
    tone = fit_tone(np.full((2, 3), [[0.1], [0.5]]), np.full((2, 3), [[0.2], [0.8]]))
    assert tone([0.05, 0.0, 0.6]) == pytest.approx([0.1, 0.0, 0.96])


def test_two_boxes_on_one_paper_are_one_neutral() -> None:
    tone = fit_tone([[0.80] * 3, [0.78] * 3, [0.2] * 3], [[0.88] * 3, [0.88] * 3, [0.2] * 3])
    assert len(tone.at) == 2
    assert tone([0.79] * 3) == pytest.approx([0.88] * 3, rel=0.001)


@pytest.mark.parametrize(
    ("seen", "what"), [([0.5, 0.4], "darker one looks lighter"), ([0.0, 0.4], "wholly black in the picture")]
)
def test_neutrals_that_cannot_be_are_refused(seen: list[float], what: str) -> None:
    with pytest.raises(InputError, match=what) as refused:
        fit_tone([[each] * 3 for each in seen], [[0.2] * 3, [0.8] * 3], where="correction")
    assert refused.value.where == "correction"
