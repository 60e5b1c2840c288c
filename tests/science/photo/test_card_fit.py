"""A card registered from invented photos whose truth is known, and how it comes out in later ones."""

from dataclasses import replace
from datetime import UTC, datetime
from functools import cache
from typing import Any

import numpy as np
import pytest

from bluewright.pictures import cards
from bluewright.pictures.decoding import picture
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.spaces import lab_of_linear
from bluewright.science.photo.card import NAMES
from bluewright.science.photo.card_fit import CardShot, check, labs_of, register, seen
from bluewright.science.photo.card_record import RegisteredCard
from bluewright.science.photo.card_view import window_box
from bluewright.science.photo.measure import measure
from bluewright.science.photo.picture import Picture
from bluewright.science.photo.record import PhotoRecord
from tests.photographed import PAPER, SAMPLE, Shot, inks, jpeg_of, noted

NOW = datetime(2026, 6, 20, 12, 0, tzinfo=UTC)
PLAIN = Shot(size_px=(750, 1000))
PAPER_LAB: Any = tuple(float(x) for x in lab_of_linear(PAPER))
SHADE = [
    replace(PLAIN, exposure=0.95, light=(1.0, 0.97, 0.94), gradient=0.2, turn_deg=4),
    replace(PLAIN, exposure=0.75, light=(0.96, 1.0, 0.98), gradient=-0.15, turn_deg=95, filled=0.7),
    replace(PLAIN, exposure=0.85, light=(0.97, 0.98, 1.0), gradient=0.1, turn_deg=183, tilt_deg=15),
    replace(PLAIN, exposure=0.90, gradient=-0.2, turn_deg=-8, nod_deg=12),
]
"""Photos in open shade, the camera lifted and turned between."""


@cache
def shot(which: int) -> CardShot:
    return shot_of(SHADE[which], seed=which)


def shot_of(photo: Shot, *, seed: int = 20, **notes: Any) -> CardShot:
    return cards.shot(picture(jpeg_of(photo, seed=seed, exif=noted(**notes))), name=f"{seed}.jpg")


@cache
def the_card() -> RegisteredCard:
    found = register([shot(k) for k in range(4)], now=NOW, paper_lab=PAPER_LAB).card
    assert found is not None
    return found


def viewed(photo: Shot, *, seed: int = 30) -> tuple[Picture, Any]:
    opened = picture(jpeg_of(photo, seed=seed))
    view = cards.view_in(opened)
    assert view is not None
    return opened, view


def told(*more: CardShot) -> list[str | None]:
    """Why each photo was left out, beside three good ones."""
    return [one.left_out for one in register([shot(0), shot(1), shot(2), *more], now=NOW).photos]


def test_what_is_registered_is_what_the_ink_throws_back_in_daylight() -> None:
    """The truth is the invented ink's own linear light; no patch is off by a step that an eye would see."""
    off = ciede2000(labs_of(the_card()), lab_of_linear(inks()))
    assert off.max() < 1.0
    assert off.mean() < 0.5


def test_the_spread_is_that_of_the_photos() -> None:
    found = register([shot(k) for k in range(4)], now=NOW)
    assert found.spread_de00 is not None
    assert 0.05 < found.spread_de00 < 0.7
    assert all(photo.after_de00 is not None and photo.after_de00 < 0.7 for photo in found.photos)


def test_values_stand_relative_to_the_paper_they_are_on() -> None:
    assert the_card().patches[NAMES.index("paper")].lab == pytest.approx(PAPER_LAB, abs=0.4)
    assumed = register([shot(k) for k in range(3)], now=NOW)
    assert "card-paper-assumed" in {caution.code for caution in assumed.cautions}


def test_a_photo_that_disagrees_is_left_out_by_name() -> None:
    """The same card with other colours on it: a filter that nothing notes."""
    found = register([shot(0), shot_of(replace(PLAIN, patches=inks() ** 1.5)), shot(1), shot(2)], now=NOW)
    assert [photo.left_out for photo in found.photos] == [None, "differs", None, None]
    assert found.photos[1].off_de00 is not None
    assert found.photos[1].off_de00 > 2.5
    assert found.card is not None
    assert labs_of(found.card) == pytest.approx(labs_of(register([shot(0), shot(1), shot(2)], now=NOW).card), abs=0.01)  # type: ignore[arg-type]


def test_of_three_photos_none_may_disagree() -> None:
    found = register([shot(0), shot(1), shot_of(replace(PLAIN, patches=inks() ** 1.5))], now=NOW)
    assert found.card is None
    assert found.spread_de00 is None


def test_the_same_photo_twice_counts_once() -> None:
    found = register([shot(0), shot(0), shot(1)], now=NOW)
    assert [photo.left_out for photo in found.photos] == [None, "same", None]
    assert found.card is None


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"light": (1.0, 0.6, 0.3)}, "not_daylight"),
        ({"exposure": 1.3}, "overexposed"),
        ({"exposure": 0.2}, "too_dark"),
        ({"shadow": 0.3}, "uneven"),
        ({"gradient": 1.2, "exposure": 0.6}, "uneven"),
        ({"number": 8}, "other_card"),
        ({"shift_px": (0.0, 300.0)}, "not_whole"),
        ({"shift_px": (0.0, 2000.0)}, "no_card"),
    ],
)
def test_a_photo_that_cannot_tell_is_left_out_with_its_reason(change: dict[str, Any], why: str) -> None:
    assert told(shot_of(replace(PLAIN, **change))) == [None, None, None, why]


@pytest.mark.parametrize(
    ("notes", "why"),
    [({"Flash": 1}, "not_daylight"), ({"exposure_s": 1 / 15, "iso": 800}, "not_daylight"),
     ({"SceneCaptureType": 3}, "no_plain_photo")],
)  # fmt: skip
def test_what_the_camera_notes_counts_too(notes: dict[str, Any], why: str) -> None:
    """Flash fired; exposure value 2.6 (ISO 2720: log2(1.8^2 * 15) - 3); night mode."""
    assert told(shot_of(PLAIN, **notes))[-1] == why


def test_without_any_photo_of_a_card_nothing_is_registered() -> None:
    found = register([CardShot(name="x", left_out="no_photo", said="it is empty")], now=NOW)
    assert (found.card, found.photos[0].left_out) == (None, "no_photo")


@pytest.mark.parametrize("light", [(1.0, 0.95, 0.9), (1.0, 0.72, 0.45), (0.6, 0.8, 1.0)])
def test_a_sample_beside_the_card_keeps_its_colour_in_any_light(light: tuple[float, float, float]) -> None:
    """The light of an invented lamp as three factors, which a three by three matrix takes out; S-curve too."""
    photo = replace(PLAIN, light=light, gradient=0.3, curve=0.3, exposure=0.8, turn_deg=30, filled=0.65)
    assert _sample_off(photo) < 1.5


def _sample_off(photo: Shot) -> float:
    opened, view = viewed(photo)
    record = PhotoRecord(samples=(window_box(view, picture=opened),))
    found = measure(opened, record, rng=np.random.default_rng(1), card=seen(view, the_card()))
    assert found.method in {"matrix", "root", "neutrals"}
    return float(ciede2000(np.array(found.samples[0].lab), lab_of_linear(SAMPLE)))


def test_the_window_s_box_lies_within_the_window() -> None:
    for turn_deg in (0, 30, 45, 80, 200):
        opened, view = viewed(replace(PLAIN, turn_deg=turn_deg, tilt_deg=20, filled=0.6, noise=0.0))
        box = window_box(view, picture=opened)
        code = opened.code[box.y_px : box.y_px + box.h_px, box.x_px : box.x_px + box.w_px]
        assert min(box.w_px, box.h_px) > 60
        assert np.ptp(code.reshape(-1, 3), axis=0).max() < 25


def test_a_card_as_it_was_is_not_called_drifted_in_another_light() -> None:
    _, view = viewed(replace(PLAIN, light=(1.0, 0.72, 0.45), gradient=0.2))
    found = check(view, the_card())
    assert (found.drifted, found.spoiled) == (False, False)
    assert found.mean_de00 < 1.0


def test_a_faded_card_is_called_drifted() -> None:
    """All colours half way to the paper, the greys (of carbon, which does not fade) as they were."""
    _, view = viewed(replace(PLAIN, patches=_faded(0.5)))
    assert check(view, the_card()).drifted
    _, view = viewed(replace(PLAIN, patches=_faded(0.02)))
    assert not check(view, the_card()).drifted


def _faded(share: float) -> Floats:
    patches = inks()
    coloured = np.ptp(patches / PAPER, axis=1) > 0.05
    patches[coloured] = (1 - share) * patches[coloured] + share * PAPER
    return patches


def test_a_spot_on_one_patch_is_named() -> None:
    patches = inks()
    patches[NAMES.index("cream")] = [0.3, 0.2, 0.1]
    _, view = viewed(replace(PLAIN, patches=patches))
    found = check(view, the_card())
    assert (found.spoiled, found.worst_patch) == (True, "cream")


def test_another_card_is_refused() -> None:
    _, view = viewed(replace(PLAIN, number=9))
    with pytest.raises(InputError, match="shows card 9"):
        seen(view, the_card())


def test_a_registered_card_is_read_as_it_was_written() -> None:
    assert read(RegisteredCard, dump(the_card())) == the_card()


def test_a_card_of_another_layout_or_order_is_refused() -> None:
    plain = dump(the_card())
    with pytest.raises(InputError, match="layout 2"):
        read(RegisteredCard, plain | {"layout": 2})
    with pytest.raises(InputError, match="not the patch that lies here"):
        read(RegisteredCard, plain | {"patches": plain["patches"][::-1]})
