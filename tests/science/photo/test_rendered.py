"""Photos rendered from spectra through published cameras and lights, measured, and held against their truth.

The bounds come from elsewhere than this program: a study of phones in print found that a chart in the photo about
halves the error of a direct conversion; the earlier study of methods kept with the design of this program, made with
other code and another cloth, found white alone 0.6 to 2 off by daylight and 3 to 7 by lamps, a fitted chart 0.3 to 2.5.
"""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from bluewright.pictures.decoding import picture
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.spaces import linear_of_code
from bluewright.science.photo.correction import fit
from bluewright.science.photo.measure import measure
from bluewright.science.photo.record import Neutral, PhotoAnswer, PhotoRecord
from tests.science.photo import rendering as made
from tests.science.photo.rendering import Faults, Shot

SCENE = made.Scene(things=np.concatenate([made.printed()[[3, 5]], made.ladder()]), ground=made.printed()[0])
CLOTH = made.true_lab(made.ladder())
CARDS = {"24 patches": (made.patches(), made.NEUTRAL), "printed": (made.printed(), made.INK_NEUTRAL)}


def lab(reflectance: Floats) -> tuple[float, float, float]:
    l, a, b = (float(each) for each in made.true_lab(reflectance))  # noqa: E741 - its name
    return l, a, b


def record(**fields: Any) -> PhotoRecord:
    """The ladder, white on four sides, its colour known."""
    left, right, above, below = SCENE.ground_boxes()
    plain: dict[str, Any] = {
        "samples": tuple(SCENE.box(k) for k in range(2, 12)), "white": above, "white_lab": lab(SCENE.ground),
        "around": (left, right, below), "light": "daylight",
    }  # fmt: skip
    return PhotoRecord(**(plain | fields))


PLAIN, USUAL = Shot(), Faults()
GREY, BLACK = (Neutral(box=SCENE.box(k), lab=lab(SCENE.things[k])) for k in (0, 1))


def answer(shot: Shot = PLAIN, faults: Faults = USUAL, seed: int = 7, **fields: Any) -> PhotoAnswer:
    rng = np.random.default_rng(seed)
    return measure(picture(made.photograph(SCENE, shot, faults=faults, rng=rng)), record(**fields), rng=rng)


def off(found: PhotoAnswer) -> Floats:
    """CIEDE2000 of each step of the ladder from its truth."""
    return ciede2000([each.lab for each in found.samples], CLOTH)


def fitted_off(card: str, method: Any, *, camera: str, light: str) -> tuple[float, float]:
    """Mean error of the ladder and of held-out patches, without noise."""
    patches, neutral = CARDS[card]
    shot = Shot(camera=camera, light=light)
    found = fit(made.light_of(patches, shot), made.true_lab(patches), neutral=neutral, method=method)
    return float(ciede2000(found.lab(made.light_of(made.ladder(), shot)), CLOTH).mean()), found.fit_de


def test_the_invented_cloth_runs_where_indigo_dyed_cloth_is_found() -> None:
    """Typical values kept with the design: very pale L* 75 to 85, b* -4 to -12; deep L* 20 to 32, b* -12 to -24."""
    assert 75 < CLOTH[0, 0] < 85 and -12 < CLOTH[0, 2] < -4
    assert 20 < CLOTH[-1, 0] < 32 and -24 < CLOTH[-1, 2] < -12
    chroma = np.hypot(CLOTH[:, 1], CLOTH[:, 2])
    assert 4 <= made.LADDER[int(chroma.argmax())] <= 8, "chroma peaks in the middle of the ladder and falls again"


@pytest.mark.parametrize("camera", made.CAMERAS)
def test_white_alone_does_in_daylight_and_not_by_lamps(camera: str) -> None:
    by_day, by_lamps = (
        [fitted_off("printed", "white", camera=camera, light=light)[0] for light in lights]
        for lights in (made.DAYLIGHTS, made.LAMPS)
    )
    assert max(by_day) < 2.5
    assert all(3.0 < each < 7.3 for each in by_lamps)


@pytest.mark.parametrize("card", CARDS)
@pytest.mark.parametrize("camera", made.CAMERAS)
def test_a_card_about_halves_what_white_alone_is_off_by_lamps(card: str, camera: str) -> None:
    alone, with_card = (
        np.mean([fitted_off(card, method, camera=camera, light=light)[0] for light in made.LAMPS])
        for method in ("white", "auto")
    )
    assert with_card < 0.7 * alone
    assert with_card < 2.5


@pytest.mark.parametrize("card", CARDS)
def test_the_method_is_chosen_by_patches_that_had_no_part_in_it(card: str) -> None:
    for light in (*made.DAYLIGHTS, *made.LAMPS):
        each = [fitted_off(card, m, camera="camera_2", light=light)[1] for m in ("neutrals", "matrix", "root")]
        assert fitted_off(card, "auto", camera="camera_2", light=light)[1] == min(each)


def test_a_plain_photo_in_daylight_is_measured_within_what_documents_are_held_to() -> None:
    """ISO 19264-1 holds copies of documents to a mean of 4 at its best level; cloth beside white is better here."""
    found = answer()
    assert off(found).mean() < 1.6
    assert off(found).max() < 2.5
    assert found.trust == "same_white"


@pytest.mark.parametrize("faults", [Faults(fall=0.25), Faults(vignette=0.3)], ids=["falling", "dark corners"])
def test_white_on_four_sides_evens_out_the_light(faults: Faults) -> None:
    spoilt, evened = answer(faults=faults, around=()), answer(faults=faults)
    assert off(spoilt).max() > 2.5
    assert off(evened).max() < off(answer()).max() + 1.0


def test_a_black_takes_stray_light_off() -> None:
    """3 % of white over everything lifts the deepest steps by more than five; what is left is under one and a half."""
    shot = Shot(veil=0.03)
    assert off(answer(shot)).max() > 4.5
    freed = answer(shot, black=SCENE.box(1), black_lab=BLACK.lab)
    assert np.abs(off(freed) - off(answer())).max() < 1.5


def test_greys_undo_the_curve_of_the_camera() -> None:
    shot = Shot(curve=0.4)
    alone, three = off(answer(shot)), off(answer(shot, neutrals=(GREY, BLACK)))
    assert alone.mean() > 2.5
    assert three.mean() < 0.75 * alone.mean()
    patches, neutral = made.printed(), made.INK_NEUTRAL
    bent = linear_of_code(made.bent(made.light_of(patches[neutral], shot), shot.curve))
    found = fit(bent, made.true_lab(patches[neutral]), neutral=[True] * 6)
    cloth = linear_of_code(made.bent(made.light_of(made.ladder(), shot), shot.curve))
    assert ciede2000(found.lab(cloth), CLOTH).mean() < 1.5, "six greys"


@pytest.mark.parametrize(("quality", "most"), [(95, 0.5), (75, 1.0), (50, 1.5)])
def test_jpeg_moves_a_region_by_little(quality: int, most: float) -> None:
    """Found before: up to 0.2 at 95 and 1.0 at 75, on larger regions; these have eighty points to a side."""
    whole, squeezed = answer(faults=Faults(quality=None)), answer(faults=Faults(quality=quality))
    moved = ciede2000([each.lab for each in whole.samples], [each.lab for each in squeezed.samples])
    assert moved.max() < most


@pytest.mark.parametrize("light", ["d65", "a"])
def test_depth_in_red_follows_true_depth(light: str) -> None:
    """Found before: the logarithms lie on a straight line (R^2 0.999), with a slope near 1 that differs by camera."""
    found = answer(Shot(light=light), light="daylight")
    told = [
        (depth, each.k_over_s_red.p50)
        for depth, each in zip(made.LADDER, found.samples, strict=True)
        if each.k_over_s_red
    ]
    assert len(told) >= 5
    assert max(depth for _, depth in told) < 10, "deeper is not told"
    x, y = np.log(np.array(told)).T
    assert np.corrcoef(x, y)[0, 1] ** 2 > 0.995
    assert 0.85 < np.polyfit(x, y, 1)[0] < 1.2


def test_the_stated_spread_holds_the_truth_nine_times_in_ten() -> None:
    """Over cameras, lights, exposures, casts and curves; each coordinate within 1.645 of its spread."""
    rng = np.random.default_rng(3)
    held, told = [], []
    for camera in made.CAMERAS:
        for light in (*made.DAYLIGHTS, *made.LAMPS):
            shot = Shot(
                camera=camera, light=light, exposure=rng.uniform(0.6, 0.9), curve=rng.uniform(0.2, 0.5),
                cast=tuple(np.exp(rng.normal(0, 0.03, 3))),
            )  # fmt: skip
            kind = "daylight" if light in made.DAYLIGHTS else "lamp"
            for greys in ((), (GREY, BLACK)):
                found = answer(shot, Faults(texture=0.15), neutrals=greys, light=kind)
                differs = np.abs(np.array([each.lab for each in found.samples]) - CLOTH)
                spread = np.array([each.lab_sd for each in found.samples])
                held.append(differs < 1.645 * spread)
                told.append(spread)
    assert 0.86 < np.mean(held) < 0.99
    assert np.median(told) < 5, "and not by stating that anything may be"


def test_exposure_moves_nothing() -> None:
    dark, light = (answer(Shot(exposure=each), Faults(quality=None)) for each in (0.5, 0.9))
    assert ciede2000([each.lab for each in dark.samples], [each.lab for each in light.samples]).max() < 0.6


def test_what_comes_out_is_the_same_again() -> None:
    assert answer() == answer()
    assert replace(answer(), cautions=()) != replace(answer(seed=8), cautions=())
