"""Uneven light, evened out by white around the samples."""

import numpy as np
import pytest

from bluewright.science.colour.spaces import code_of_linear
from bluewright.science.photo.even import even_light
from bluewright.science.photo.region import Region, measured

SIDE = 480


def white(light: np.ndarray, x: int, y: int, w: int, h: int) -> Region:
    code = np.round(255 * code_of_linear(light)).astype(np.uint8)
    return measured(code[y : y + h, x : x + w], space="srgb", left_px=x, top_px=y)


def falling(*, fall: float = 0.0, vignette: float = 0.0) -> np.ndarray:
    """White paper under light that falls off to the right and to the corners."""
    y, x = np.mgrid[0:SIDE, 0:SIDE] / (SIDE / 2) - 1
    light = 0.8 * (1 - fall * (x + 1) / 2) * (1 - vignette * (x**2 + y**2) / 2)
    return np.repeat(light[..., None], 3, axis=2)


FRAME = ((0, 0, SIDE, 48), (0, SIDE - 48, SIDE, 48), (0, 48, 48, SIDE - 96), (SIDE - 48, 48, 48, SIDE - 96))
PLACES = [np.array([x, y], dtype=float) for x in (120, 240, 360) for y in (120, 240, 360)]


@pytest.mark.parametrize("faults", [{"fall": 0.25}, {"vignette": 0.3}, {"fall": 0.2, "vignette": 0.2}], ids=str)
def test_a_frame_of_white_evens_out_falling_and_vignetted_light(faults: dict[str, float]) -> None:
    """A plane would leave 15 % of a vignette of 30 % (simulated); the curved surface leaves a hundredth."""
    light = falling(**faults)
    frame = [white(light, *box) for box in FRAME]
    found = even_light(frame, samples=PLACES)
    assert found.degree == 2
    evened = [light[int(y), int(x)] / found.at(np.array([x, y])) for x, y in PLACES]
    of_white = np.mean(frame[0].block_light / found.at(frame[0].block_at_px), axis=0)
    assert evened / of_white == pytest.approx(np.ones((9, 3)), abs=0.012)


def test_two_whites_on_both_sides_tell_how_light_falls_between_them() -> None:
    light = falling(fall=0.25)
    sides = [white(light, *box) for box in ((0, 0, 48, SIDE), (SIDE - 48, 0, 48, SIDE))]
    found = even_light(sides, samples=[np.array([240.0, 240.0])])
    assert found.degree >= 1
    assert found.at(np.array([240.0, 240.0])) == pytest.approx(light[240, 240] / sides[0].light, rel=0.01)


@pytest.mark.parametrize("sample", [(460.0, 240.0), (240.0, 300.0)])
def test_one_white_says_nothing_of_light_beside_it(sample: tuple[float, float]) -> None:
    found = even_light([white(falling(fall=0.25), 0, 0, 300, 100)], samples=[np.array(sample)])
    assert found.degree == 0
    assert found.at(np.array(sample)) == pytest.approx([1.0] * 3)


def test_without_any_white_light_is_taken_as_even() -> None:
    assert even_light([], samples=PLACES).at(np.array(PLACES)) == pytest.approx(np.ones((9, 3)))
