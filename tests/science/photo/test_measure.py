"""A photo measured: what is refused, what is told, and how far it is trusted. Pictures drawn here, colours by hand."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from bluewright.science.colour.spaces import Space, code_of_lab, code_of_linear
from bluewright.science.photo.measure import measure
from bluewright.science.photo.picture import Hint, Picture, PictureFacts
from bluewright.science.photo.record import PhotoAnswer, PhotoRecord

SIDE = 60
PLACES = {name: {"x_px": 20 + 80 * k, "y_px": 20, "w_px": SIDE, "h_px": SIDE} for k, name in enumerate("WGKABC")}
"""White, grey, black, three samples."""
LABS = {
    "W": (88.0, 0.0, 0.0), "G": (55.0, 0.0, 0.0), "K": (3.0, 0.0, 0.0), "A": (60.0, -6.0, -20.0),
    "B": (42.0, -4.0, -24.0), "C": (20.0, 0.0, -18.0),
}  # fmt: skip
SHADE = PictureFacts(has_exif=True, brightness_ev=12.0, jpeg_quality=95, format="JPEG")


def drawn(*, facts: PictureFacts = SHADE, space: Space = "srgb", scale: float = 1.0, **labs: Any) -> Picture:
    """Squares of these colours on grey, a little noise over all."""
    rng = np.random.default_rng(2)
    code = np.full((100, 500, 3), 128.0)
    for name, box in PLACES.items():
        code[box["y_px"] : box["y_px"] + SIDE, box["x_px"] : box["x_px"] + SIDE] = 255 * code_of_lab(
            labs.get(name, LABS[name]), space=space
        )
    code = scale * code + rng.normal(0, 0.7, code.shape)
    return Picture(code=np.clip(np.round(code), 0, 255).astype(np.uint8), space=space, facts=facts)


def boxes(**fields: Any) -> PhotoRecord:
    plain = {"samples": [PLACES["A"], PLACES["B"]], "white": PLACES["W"], "white_lab": LABS["W"], "light": "daylight"}
    return read(PhotoRecord, {k: v for k, v in (plain | fields).items() if v is not None})


def answer(picture: Picture | None = None, **fields: Any) -> PhotoAnswer:
    return measure(drawn() if picture is None else picture, boxes(**fields), rng=np.random.default_rng(1))


def codes_of(found: PhotoAnswer) -> set[str]:
    return {caution.code for caution in found.cautions}


@pytest.mark.parametrize("space", ["srgb", "display-p3"])
def test_a_colour_beside_a_known_white_is_found(space: Space) -> None:
    found = answer(drawn(space=space))
    assert found.method == "white"
    for sample, name in zip(found.samples, "AB", strict=True):
        assert sample.lab == pytest.approx(LABS[name], abs=0.25)


def test_a_white_that_is_known_to_be_bluish_is_not_taken_for_grey() -> None:
    """Seen as (88, 0, 0) but known as (95, 2, -8): the samples are lighter, redder and bluer than they look."""
    found = answer(white_lab=(95.0, 2.0, -8.0)).samples[0]
    assert found.lab[0] > LABS["A"][0] + 3
    assert found.lab[2] < LABS["A"][2] - 4


def test_without_a_white_the_picture_is_read_as_it_is_and_trusted_no_further() -> None:
    found = answer(white=None, white_lab=None)
    assert (found.method, found.trust, found.fit_de) == ("none", "same_photo", None)
    assert found.samples[0].lab == pytest.approx(LABS["A"], abs=0.25)
    assert found.samples[0].k_over_s_red is None
    assert "photo-no-white" in codes_of(found)
    assert np.linalg.norm(found.samples[0].lab_sd) > np.linalg.norm(answer().samples[0].lab_sd)


def test_none_leaves_what_is_known_unused() -> None:
    assert answer(correction="none").method == "none"


def test_paper_whose_colour_is_assumed_brings_its_own_spread() -> None:
    known, assumed = answer(), answer(white_lab=None)
    assert "white" in {part.what for part in assumed.samples[0].parts}
    assert "white" not in {part.what for part in known.samples[0].parts}
    assert assumed.samples[0].lab_sd[2] > known.samples[0].lab_sd[2]
    assert "white_assumed" in assumed.reasons


def test_spread_is_never_that_of_the_pixels_alone() -> None:
    parts = {part.what: np.linalg.norm(part.lab_sd) for part in answer().samples[0].parts}
    assert parts["region"] < 0.1
    assert parts["shots"] > 1
    assert parts["method"] > 1


def test_k_over_s_is_told_of_what_a_photo_can_tell() -> None:
    """By hand: (1 - R)^2 / 2R of the linear red of the sample, here within the spread; a deep one is not told."""
    found = answer(samples=[PLACES["A"], PLACES["C"]])
    red = ((code_of_lab(LABS["A"])[0] + 0.055) / 1.055) ** 2.4
    told = found.samples[0].k_over_s_red
    assert told is not None
    assert told.p5 < (1 - red) ** 2 / (2 * red) < told.p95
    assert found.samples[1].k_over_s_red is None
    assert "Sample 2 is deeper than a photo can tell" in next(c.text for c in found.cautions if c.code == "too-deep")


def test_a_level_sample_is_more_level_than_a_streaked_one() -> None:
    streaked = drawn()
    code = streaked.code.copy()
    code[20:80, 260:290] = np.round(0.93 * code[20:80, 260:290])
    found = answer(replace(streaked, code=code))
    assert found.samples[0].uneven_frac > 5 * found.samples[1].uneven_frac


@pytest.mark.parametrize(
    ("hints", "trust", "code"),
    [
        (("screenshot",), "picture_only", "photo-copy"),
        (("messenger", "no_exif"), "picture_only", "photo-copy"),
        (("edited",), "picture_only", "photo-copy"),
        (("portrait",), "same_photo", "photo-changed"),
        (("hdr",), "same_photo", "photo-changed"),
        (("filter",), "same_photo", "photo-changed"),
        (("flash",), "same_white", "photo-flash"),
        (("profile_assumed",), "same_white", "photo-profile"),
    ],
)
def test_what_the_file_tells_lowers_the_trust_and_is_said(hints: tuple[Hint, ...], trust: str, code: str) -> None:
    found = answer(drawn(facts=replace(SHADE, hints=hints)))
    assert (found.trust, code in codes_of(found)) == (trust, True)


def test_a_coarse_jpeg_is_told() -> None:
    assert "quality 70 of 100" in " ".join(
        c.text for c in answer(drawn(facts=replace(SHADE, jpeg_quality=70))).cautions
    )
    assert "photo-quality" not in codes_of(answer())


@pytest.mark.parametrize(
    ("said", "ev", "reason"),
    [
        ("daylight", 5.0, "daylight"),
        ("lamp", 14.0, "lamp"),
        ("unknown", 12.0, "daylight"),
        ("unknown", 6.0, "lamp"),
        ("unknown", 9.0, "light_unknown"),
        ("unknown", None, "light_unknown"),
    ],
)
def test_the_kind_of_light_is_as_said_or_as_the_exposure_tells(said: str, ev: float | None, reason: str) -> None:
    found = answer(drawn(facts=replace(SHADE, brightness_ev=ev)), light=said)
    assert reason in found.reasons
    assert ("photo-light" in codes_of(found)) == (reason != "daylight")


def test_an_overexposed_white_is_refused_with_what_would_be_right() -> None:
    with pytest.raises(InputError) as refused:
        answer(drawn(W=(100.0, 0.0, 0.0)))
    assert refused.value.where == "white"
    assert "overexposed: all of its points" in refused.value.what
    assert "darker" in refused.value.right


def test_a_white_near_the_limit_or_far_below_is_told() -> None:
    """98.4 L* is 0.96 of all light."""
    near = answer(drawn(W=(98.2, 0.0, 0.0)))
    assert (near.trust, "white-too-light" in codes_of(near)) == ("same_photo", True)
    assert "white-too-dark" in codes_of(answer(drawn(scale=0.5)))


def test_a_sample_that_is_dark_or_shines_is_told_by_its_number() -> None:
    found = answer(samples=[PLACES["A"], PLACES["C"]], black=None)
    assert "photo-dark" in codes_of(answer(drawn(scale=0.5), samples=[PLACES["A"], PLACES["C"]]))
    assert "photo-shine" not in codes_of(found)
    shining = drawn()
    code = shining.code.copy()
    code[30:60, 270:280] = 255
    told = answer(replace(shining, code=code))
    assert "Sample 1 is partly overexposed" in next(c.text for c in told.cautions if c.code == "photo-shine")
    assert told.samples[0].lab == pytest.approx(LABS["A"], abs=0.3), "and left out"


def test_stray_light_is_taken_off_by_black_and_said_where_it_is_much() -> None:
    """4 % of all light over the picture, by hand: light plus 0.04."""
    clean = drawn()
    linear = np.where(clean.code <= 10, clean.code / 255 / 12.92, ((clean.code / 255 + 0.055) / 1.055) ** 2.4)
    veiled = replace(clean, code=np.round(255 * code_of_linear(np.clip(linear + 0.04, 0, 1))).astype(np.uint8))
    found = answer(veiled, black=PLACES["K"], black_lab=LABS["K"])
    assert found.samples[1].lab == pytest.approx(LABS["B"], abs=0.5)
    assert "Stray light of 4 %" in next(c.text for c in found.cautions if c.code == "stray-light")
    assert answer(veiled).samples[1].lab[0] > LABS["B"][0] + 3


@pytest.mark.parametrize(
    ("fields", "where", "what"),
    [
        ({"white": PLACES["A"]}, "white", r"lies over samples\[0\]"),
        ({"around": [PLACES["W"], PLACES["B"]]}, r"around\[1\]", r"lies over samples\[1\]"),
        ({"grey": PLACES["G"]}, "grey_lab", "colour of the grey is missing"),
        ({"white": PLACES["W"] | {"w_px": 0}}, "white", "has no size"),
        ({"samples": [PLACES["A"] | {"x_px": 470}]}, r"samples\[0\]", "leaves the picture"),
        ({"samples": [PLACES["A"] | {"h_px": 9}]}, r"samples\[0\]", "too small"),
        ({"samples": [PLACES["A"] | {"y_px": -4}]}, r"samples\[0\]\.y_px", "not possible"),
        ({"samples": []}, "samples", "not possible"),
        ({"white_lab": (130.0, 0.0, 0.0)}, "white_lab", "not possible"),
        ({"neutrals": [{"box": PLACES["G"], "lab": (95.0, 0.0, 0.0)}]}, "correction", "darker one looks lighter"),
        ({"correction": "matrix"}, "correction", "1 known patches are too few"),
    ],
)
def test_boxes_that_cannot_be_are_refused(fields: dict[str, Any], where: str, what: str) -> None:
    with pytest.raises(InputError, match=what) as refused:
        answer(**fields)
    assert refused.match(where)
    assert refused.value.right


def test_the_answer_goes_out_as_plain_values_with_its_record() -> None:
    plain = dump(answer())
    assert plain["samples"][0]["lab"][0] == pytest.approx(60, abs=0.3)
    assert read(PhotoRecord, plain["inputs"]) == boxes()
