"""From recorded light to colour, by patches that are known."""

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.spaces import lab_of_linear, lab_of_xyz, linear_of_xyz, xyz_of_lab
from bluewright.science.photo.correction import Correction, Method, fit, terms

MIXED = np.array([[0.80, 0.15, 0.05], [0.10, 0.85, 0.10], [0.02, 0.20, 0.70]])
"""An invented camera: how it mixes linear sRGB."""


def patches(seed: int = 3, colours: int = 18) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Recorded light, true Lab, and which are neutral: six greys and some colours."""
    rng = np.random.default_rng(seed)
    greys = np.stack([np.linspace(20, 95, 6), np.zeros(6), np.zeros(6)], axis=1)
    lab = np.concatenate([greys, rng.uniform([25, -25, -35], [85, 25, 35], (colours, 3))])
    return linear_of_xyz(xyz_of_lab(lab)) @ MIXED.T, lab, np.arange(len(lab)) < 6


def test_terms_grow_in_proportion_to_exposure() -> None:
    """f(k RGB) = k f(RGB), with six terms (Finlayson, Mackiewicz and Hurlbert 2015)."""
    light = np.array([0.17224810, 0.09170660, 0.06416938])
    assert terms(light, root=True) == pytest.approx(
        [*light, (light[0] * light[1]) ** 0.5, (light[0] * light[2]) ** 0.5, (light[1] * light[2]) ** 0.5]
    )
    assert terms(0.3 * light, root=True) == pytest.approx(0.3 * terms(light, root=True))


@pytest.mark.parametrize("method", ["matrix", "root"])
def test_a_camera_that_mixes_linearly_is_undone_to_the_last_digit(method: Method) -> None:
    light, lab, neutral = patches()
    found = fit(light, lab, neutral=neutral, method=method)
    rng = np.random.default_rng(5)
    others = rng.uniform([30, -15, -25], [90, 15, 25], (50, 3))
    seen = linear_of_xyz(xyz_of_lab(others)) @ MIXED.T
    assert seen.min() > 0, "what a camera can record"
    assert found.lab(seen) == pytest.approx(others, abs=1e-6)
    assert found.fit_de < 1e-6


def test_held_out_patches_had_no_part() -> None:
    """By hand: each coloured patch left out, the rest fitted, its own difference taken."""
    light, lab, neutral = patches()
    lab = lab + np.random.default_rng(9).normal(0, 1.5, lab.shape) * ~neutral[:, None]
    found = fit(light, lab, neutral=neutral, method="matrix")
    by_hand = []
    for k in range(6, len(lab)):
        rest = np.arange(len(lab)) != k
        own = fit(light[rest], lab[rest], neutral=neutral[rest], method="matrix")
        by_hand.append(float(ciede2000(own.lab(light[k]), lab[k])))
    assert found.held_out_de == pytest.approx(by_hand)


def test_noise_does_not_win_over_a_simple_truth() -> None:
    """Patches that need no matrix, read with noise: the curve through the greys is taken, or a matrix no worse."""
    _, lab, neutral = patches(colours=8)
    true = lab + np.random.default_rng(2).normal(0, 1.0, lab.shape)
    plain = linear_of_xyz(xyz_of_lab(lab))
    chosen = fit(plain, true, neutral=neutral)
    tried = [fit(plain, true, neutral=neutral, method=each) for each in ("neutrals", "matrix", "root")]
    assert chosen.fit_de == min(one.fit_de for one in tried)


def test_white_alone_takes_off_cast_and_exposure() -> None:
    white, blue = np.array([95.0, 0.5, -3.0]), np.array([45.0, -3.0, -25.0])
    cast = np.array([0.8, 0.7, 0.55])
    found = fit(cast * linear_of_xyz(xyz_of_lab(white)), white, neutral=[True])
    assert found.method == "white"
    assert found.lab(cast * linear_of_xyz(xyz_of_lab(blue))) == pytest.approx(blue, abs=1e-9)
    assert found.fit_de == 0.0


def test_a_display_p3_picture_is_corrected_in_its_own_space() -> None:
    lab = np.array([[95.0, 0.0, 0.0], [50.0, -5.0, -30.0]])
    light = linear_of_xyz(xyz_of_lab(lab), space="display-p3")
    found = fit(light[:1], lab[:1], neutral=[True], space="display-p3")
    assert found.lab(light[1]) == pytest.approx(lab[1], abs=1e-9)
    assert lab_of_linear(light[1]) != pytest.approx(lab[1], abs=1.5)


def test_black_is_black_and_no_error() -> None:
    light, lab, neutral = patches()
    found: Correction = fit(light, lab, neutral=neutral, method="root")
    assert found.lab(np.zeros(3)) == pytest.approx(lab_of_xyz(np.zeros(3)))


@pytest.mark.parametrize(
    ("count", "neutral", "method", "what"),
    [
        (5, [True] * 5, "matrix", "5 known patches are too few"),
        (24, [True] * 24, "matrix", "too few"),
        (1, [True], "neutrals", "too few"),
        (24, [False] * 24, "auto", "no patch of it is neutral"),
    ],
)
def test_what_patches_do_not_bear_is_refused(count: int, neutral: list[bool], method: Method, what: str) -> None:
    light, lab, _ = patches()
    with pytest.raises(InputError, match=what):
        fit(light[:count], lab[:count], neutral=neutral, method=method)
