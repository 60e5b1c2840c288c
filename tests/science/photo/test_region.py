"""The light of one thing: its mean without shine, crease and background."""

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.colour.spaces import code_of_linear, lab_of_linear
from bluewright.science.photo.picture import Picture, PictureFacts
from bluewright.science.photo.record import Box
from bluewright.science.photo.region import measured, region

CLOTH = np.array([0.06, 0.10, 0.20])


def swatch(rng: np.random.Generator, *, texture: float = 0.25) -> np.ndarray:
    """Linear light of cloth with threads, 200 by 200 points, whose mean is CLOTH."""
    threads = np.exp(texture * rng.standard_normal((200, 200, 1)) - texture**2 / 2)
    return np.asarray(CLOTH * threads)


def code(light: np.ndarray) -> np.ndarray:
    return np.round(255 * code_of_linear(np.clip(light, 0, 1))).astype(np.uint8)


def picture(light: np.ndarray) -> Picture:
    return Picture(code=code(light), facts=PictureFacts())


def off(light: np.ndarray) -> float:
    """How far the colour of the region is from that of the cloth, in Lab."""
    found = measured(code(light), space="srgb").light
    return float(np.linalg.norm(lab_of_linear(found) - lab_of_linear(CLOTH)))


def spoilt(rng: np.random.Generator, *, glints: float = 0.0, crease: float = 0.0, behind: float = 0.0) -> np.ndarray:
    """The swatch with so many of its points shining, in a crease's shadow, or showing the white behind it."""
    light = swatch(rng)
    light[rng.random((200, 200)) < glints] = 1.0
    light[:, : round(200 * crease)] *= 0.4
    light[: round(200 * behind)] = 0.85
    return light


@pytest.mark.parametrize(
    ("faults", "most"),
    [
        ({}, 0.15),
        ({"glints": 0.01}, 0.3),
        ({"behind": 0.05}, 0.3),
        ({"behind": 0.3}, 0.5),
        ({"crease": 0.1}, 1.5),
        ({"glints": 0.01, "crease": 0.1, "behind": 0.05}, 1.5),
    ],
    ids=["clean", "glints", "background", "much background", "crease", "all"],
)
def test_shine_crease_and_background_hardly_move_it(faults: dict[str, float], most: float) -> None:
    """A plain mean is off by 1, 6 and 28 by the same faults (simulated with cloth of as much texture)."""
    assert off(spoilt(np.random.default_rng(4), **faults)) < most


def test_light_is_averaged_not_codes() -> None:
    """Half black, half white threads send back half the light; the mean of their codes would be far darker."""
    light = np.zeros((64, 64, 3))
    light[::2] = 0.5
    light += 0.25
    found = measured(code(light), space="srgb")
    assert found.light == pytest.approx([0.5] * 3, abs=0.005)


def test_blocks_add_up_to_the_whole_and_stand_where_they_are() -> None:
    rng = np.random.default_rng(1)
    found = measured(code(swatch(rng)[:150, :70]), space="srgb", left_px=1000, top_px=500)
    assert np.average(found.block_light, axis=0, weights=found.block_points) == pytest.approx(found.light)
    assert len(found.block_light) == 10 * 5
    assert found.block_at_px[0] == pytest.approx([1008, 508])
    assert found.block_at_px[-1] == pytest.approx([1067, 647])


def test_what_is_at_the_camera_s_limit_is_told() -> None:
    light = swatch(np.random.default_rng(2))
    light[:20, :40] = 1.0
    assert measured(code(light), space="srgb").clipped_frac == pytest.approx(0.02)
    assert measured(code(light), space="srgb").left_out_frac == pytest.approx(0.02, abs=0.01)


def test_the_edge_of_a_box_is_left_out() -> None:
    light = swatch(np.random.default_rng(3))
    light[:12] = light[-12:] = light[:, :12] = light[:, -12:] = 0.9
    found = region(picture(light), Box(x_px=0, y_px=0, w_px=200, h_px=200), where="white")
    assert found.points_px <= 170 * 170
    assert np.linalg.norm(lab_of_linear(found.light) - lab_of_linear(CLOTH)) < 0.15


@pytest.mark.parametrize(
    ("box", "what", "right"),
    [
        ((150, 0, 60, 60), "leaves the picture: it reaches to 210 across and 60 down, the picture is 200", "inside"),
        ((0, 300, 60, 60), "leaves the picture", "inside"),
        ((10, 10, 15, 60), "15 by 60 points is too small", "at least 16 points"),
    ],
)
def test_a_box_outside_or_too_small_is_refused_with_what_would_be_right(
    box: tuple[int, int, int, int], what: str, right: str
) -> None:
    x, y, w, h = box
    with pytest.raises(InputError) as refused:
        region(picture(swatch(np.random.default_rng(1))), Box(x_px=x, y_px=y, w_px=w, h_px=h), where="samples[2]")
    assert refused.value.where == "samples[2]"
    assert what in refused.value.what
    assert right in refused.value.right
