"""What a jar says, in words."""

import json

import numpy as np

from bluewright.cli.record_command import example_text
from bluewright.science.base.bands import Band
from bluewright.science.base.records import read
from bluewright.science.photo.jar import jar_look
from bluewright.science.photo.jar_record import JarRecord
from bluewright.words.jar_look import dye_index_said, hue_said, said, signed
from bluewright.words.said import text


def spoken(record: dict[str, object]) -> str:
    return text(said(jar_look(read(JarRecord, record), rng=np.random.default_rng(1))))


def test_haze_is_called_haze_and_not_evidence_of_blue() -> None:
    fine = {"after_min": 5, "path_cm": 6, "jar": [0.60, 0.44, 0.20], "water": [0.8, 0.8, 0.8]}
    words = spoken({"colours": "linear", "looks": [fine | {"over_black": [0.03, 0.05, 0.09]}]})
    assert words.startswith("Haze, not evidence of blue")
    assert "Lit from the side before black: blue" in words


def test_a_series_says_that_no_more_blue_is_forming() -> None:
    words = spoken(json.loads(example_text("jar-look")))
    assert "Blue dye is there (chance over 99%)." in words
    assert "come to rest" in words
    assert "For each cm of undiluted liquor: +0.47" in words


def test_a_jar_that_is_too_dark_says_what_to_do() -> None:
    dark = {"after_min": 5, "path_cm": 6, "jar": [0.01, 0.01, 0.01], "water": [0.8, 0.8, 0.8]}
    words = spoken({"colours": "linear", "looks": [dark]})
    assert words.startswith("Too dark to tell: thin the liquor or take a narrower jar.")
    assert "too dark" in words


def test_figures_carry_their_sign_and_hues_their_name() -> None:
    assert signed(Band(p5=-0.08, p50=-0.06, p95=-0.04)) == "−0.06 (−0.08 to −0.04)"
    assert dye_index_said(0.472) == "dye index of a jar +0.47 for each cm"
    assert [hue_said(deg) for deg in (84.0, 105.0, 131.0, 241.0, -5.0)] == [
        "yellow, 84°", "yellow-green, 105°", "green, 131°", "blue, 241°", "red, 355°",
    ]  # fmt: skip
