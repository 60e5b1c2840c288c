"""The card found in invented photos whose truth is known, and told why where it is not."""

from dataclasses import replace

import cv2
import numpy as np
import pytest

from bluewright.pictures.markers import card_in, modules
from bluewright.science.base.errors import InputError
from bluewright.science.photo.card import PATCHES, WINDOW
from bluewright.science.photo.homography import moved
from tests.photographed import Shot, codes_of, true_places

PLAIN = Shot(size_px=(900, 1200), noise=0.0)
CENTRES = np.array([patch.centre_mm() for patch in PATCHES])


def off_px(shot: Shot, *, seed: int = 1) -> float:
    """How far the worst patch's middle is from where it truly is."""
    found = card_in(codes_of(shot, seed=seed))
    assert found is not None
    assert found.number == shot.number
    return float(np.linalg.norm(moved(CENTRES, by=found.to_picture) - true_places(shot), axis=1).max())


@pytest.mark.parametrize("turn_deg", [0, 90, 180, 270, 37])
def test_it_is_found_however_it_is_turned(turn_deg: float) -> None:
    assert off_px(replace(PLAIN, turn_deg=turn_deg, filled=0.6)) < 0.5


@pytest.mark.parametrize(("tilt_deg", "nod_deg"), [(40, 0), (-40, 0), (0, 30), (25, -25)])
def test_it_is_found_seen_aslant(tilt_deg: float, nod_deg: float) -> None:
    shot = replace(PLAIN, tilt_deg=tilt_deg, nod_deg=nod_deg, turn_deg=11, gradient=0.25, noise=2.0, quality=85)
    assert off_px(shot) < 1.0


def test_it_is_found_in_bad_light() -> None:
    """Tungsten left as it is, underexposed, uneven, an S-curve, and a JPEG of low quality."""
    shot = replace(PLAIN, light=(1.0, 0.62, 0.3), exposure=0.4, gradient=0.5, curve=0.5, noise=3.0, quality=60)
    assert off_px(shot) < 1.0


def test_a_large_picture_is_sought_small_and_answered_in_its_own_points() -> None:
    small = codes_of(replace(PLAIN, turn_deg=5))
    large = cv2.resize(small, None, fx=3, fy=3, interpolation=cv2.INTER_CUBIC)
    first, second = card_in(small), card_in(large)
    assert first is not None
    assert second is not None
    assert moved(CENTRES, by=second.to_picture) == pytest.approx(3 * moved(CENTRES, by=first.to_picture), abs=1.5)


def test_a_picture_without_a_card_has_none() -> None:
    assert card_in(np.full((400, 300, 3), 128, dtype=np.uint8)) is None


@pytest.mark.parametrize("place", range(4))
def test_a_hidden_corner_is_named(place: int) -> None:
    picture = codes_of(PLAIN).copy()
    found = card_in(picture)
    assert found is not None
    x, y = moved(np.array([[7.5, 7.5], [116.5, 7.5], [116.5, 186.5], [7.5, 186.5]]), by=found.to_picture)[place]
    picture[int(y) - 50 : int(y) + 50, int(x) - 50 : int(x) + 50] = 90
    with pytest.raises(InputError, match="3 of the card's 4 markers") as refused:
        card_in(picture)
    assert ("upper left", "upper right", "lower right", "lower left")[place] in str(refused.value)


def test_a_card_half_out_of_the_picture_is_refused() -> None:
    with pytest.raises(InputError, match="take the whole card into the picture"):
        card_in(codes_of(replace(PLAIN, shift_px=(0, 500))))


def test_two_cards_are_refused() -> None:
    one = codes_of(PLAIN)
    with pytest.raises(InputError, match="more than one card"):
        card_in(np.concatenate([one, one], axis=1))


def test_a_card_too_small_to_tell_its_colours_is_refused() -> None:
    with pytest.raises(InputError, match="too small"):
        card_in(codes_of(replace(PLAIN, filled=0.33)))


def test_a_bent_card_is_refused() -> None:
    """One side bowed up towards the camera: its rows are stretched the more the nearer to the right."""
    picture = codes_of(PLAIN)
    high, wide = picture.shape[:2]
    y, x = np.mgrid[0:high, 0:wide].astype(np.float32)
    bow = 1 + 0.12 * np.sin(np.pi * (x / wide - 0.1)) ** 2
    bent = cv2.remap(picture, x, (y - high / 2) / bow + high / 2, cv2.INTER_LINEAR, borderValue=(64, 64, 64))
    with pytest.raises(InputError, match="does not lie flat"):
        card_in(bent)


def test_the_window_is_found_with_the_rest() -> None:
    shot = replace(PLAIN, turn_deg=20, tilt_deg=20)
    found = card_in(codes_of(shot))
    assert found is not None
    corners = WINDOW.corners_mm()
    assert moved(corners, by=found.to_picture) == pytest.approx(moved(corners, by=shot.lying()), abs=0.7)


def test_a_marker_has_a_dark_rim_and_its_own_word_within() -> None:
    drawn = np.array(modules(7))
    assert drawn.shape == (6, 6)
    assert drawn[0].all()
    assert drawn[-1].all()
    assert drawn[:, 0].all()
    assert drawn[:, -1].all()
    assert modules(7) != modules(8)
