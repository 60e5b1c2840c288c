"""Words for colours and differences."""

from __future__ import annotations

import numpy as np
import pytest

from bluewright.science.colour.hues import Sign, hue_of, shade_of, signs_of

WORDS = [
    ((30.0, -0.5, -22.0), "blue", "deep"),
    ((20.0, 2.0, -16.0), "reddish-blue", "very-deep"),
    ((76.0, -6.0, -8.0), "greenish-blue", "pale"),
    ((60.0, -30.0, 0.0), "blue-green", "medium"),
    ((78.0, -14.0, 55.0), "yellow-green", "very-pale"),
    ((45.0, 15.0, 35.0), "brown", "medium"),
    ((45.0, 0.0, 30.0), "olive", "medium"),
    ((94.0, 0.0, 2.0), "white", "very-pale"),
    ((50.0, 1.0, -2.0), "grey", "medium"),
    ((10.0, 0.5, -1.0), "black", "very-deep"),
]


@pytest.mark.parametrize(("lab", "hue", "shade"), WORDS, ids=str)
def test_a_colour_is_called_what_people_call_it(lab: tuple[float, ...], hue: str, shade: str) -> None:
    """Common practice, no source: names of colours that people at a tub would not quarrel about."""
    assert (hue_of(lab), shade_of(lab)) == (hue, shade)


@pytest.mark.parametrize(
    ("lab", "standard", "words"),
    [
        ((35.0, -2.0, -22.0), (30.0, -2.0, -22.0), ("lighter",)),
        ((30.0, -2.0, -15.0), (30.0, -3.0, -22.0), ("duller",)),
        ((30.0, -8.0, -20.5), (30.0, -0.5, -22.0), ("greener",)),
        ((30.0, 8.0, -20.5), (30.0, -0.5, -22.0), ("redder",)),
        ((70.0, -10.0, 50.0), (70.0, 2.0, 51.0), ("greener",)),
        ((60.0, 2.0, 6.0), (60.0, 0.0, 0.0), ("yellower", "redder")),
        ((30.0, -2.0, -22.0), (30.0, -2.1, -22.1), ()),
    ],
)
def test_a_difference_is_told_in_the_words_of_the_trade(
    lab: tuple[float, ...], standard: tuple[float, ...], words: tuple[Sign, ...]
) -> None:
    """Common practice, no source: a blue is never called bluer, but redder or greener."""
    assert signs_of(lab, standard) == words


def test_words_turn_round_with_the_colours() -> None:
    one, other = (40.0, -4.0, -24.0), (34.0, 1.0, -19.0)
    against = {"lighter": "darker", "brighter": "duller", "greener": "redder"}
    assert {against[sign] for sign in signs_of(one, other)} == set(signs_of(other, one))


def test_what_lies_within_the_error_gets_no_word() -> None:
    rng = np.random.default_rng(3)
    one, other = np.array([31.0, -2.0, -22.0]), np.array([30.0, -2.0, -22.0])
    loose, tight = (np.stack([one, other])[:, None] + rng.normal(0, sd, (2, 2000, 3)) for sd in (2.0, 0.1))
    assert signs_of(one, other, spread=tight) == ("lighter",)
    assert signs_of(one, other, spread=loose) == ()
