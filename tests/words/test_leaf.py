"""The condition of leaf in words."""

import pytest

from bluewright.words.leaf import condition


@pytest.mark.parametrize(
    ("damaged_frac", "said"),
    [
        (0.0, "sound"),
        (0.001, "a few holes or spots (under 1%)"),
        (0.1, "a few holes or spots (10%)"),
        (0.25, "clearly damaged (25%)"),
        (0.5, "about half damaged (50%)"),
        (1.0, "mostly damaged (over 99%)"),
    ],
)
def test_damage_is_said_in_words_and_percent(damaged_frac: float, said: str) -> None:
    assert condition(damaged_frac) == said
