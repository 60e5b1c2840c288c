"""What is believed of a printed card, and from where on a photo of it is doubted. All are judgements."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Prior, Sourced

CARD_PAPER_LAB: Final = (
    Prior(
        kind="normal", centre=94.5, spread=1.5, unit="L*", source="common-practice", grade="guess",
        note="heavy paper without brightener",
    ),
    Prior(
        kind="normal", centre=0.2, spread=0.6, unit="a*", source="common-practice", grade="guess",
        note="heavy paper without brightener",
    ),
    Prior(
        kind="normal", centre=2.5, spread=2.0, unit="b*", source="common-practice", grade="guess",
        note="a little cream; brightened paper is bluish instead, down to -11",
    ),
)  # fmt: skip
"""Bare paper of the card, if it was not measured: all registered colours stand relative to it."""
LEAST_PHOTOS: Final = 3
"""With two that disagree nobody knows which is wrong."""
DEVIANT_DE00: Final = Sourced(
    value=2.5, unit="dE00", source="common-practice", low=2.0, high=4.0, grade="guess",
    note="mean over the patches from the middle of all photos: twice what a photo in open shade does by itself",
)  # fmt: skip
MUCH_SPREAD_DE00: Final = Sourced(
    value=1.5, unit="dE00", source="common-practice", low=1.0, high=2.5, grade="guess",
    note="of one photo from the card's values, beyond which the photos were not taken in one kind of light",
)  # fmt: skip
DRIFT_DE00: Final = Sourced(
    value=2.0, unit="dE00", source="common-practice", low=1.5, high=3.0, grade="practice",
    note="mean over the patches after correction: beyond it the card has faded or is dirty, or the light is a lamp's",
)  # fmt: skip
SPOILED_DE00: Final = Sourced(
    value=5.0, unit="dE00", source="common-practice", low=3.0, high=7.0, grade="guess",
    note="of one patch after correction, if the others agree",
)  # fmt: skip
MOST_TINT_FACTOR: Final = Sourced(
    value=1.35, unit="1", source="common-practice", low=1.2, high=1.5, grade="guess",
    note="between the paper's most and least recorded channel; by day a camera's white balance leaves a tenth or two",
)  # fmt: skip
SHADOW_FRAC: Final = Sourced(
    value=0.05, unit="1", source="common-practice", low=0.03, high=0.1, grade="guess",
    note="of light, by which a place of bare paper differs from a smooth fall of light over the card",
)  # fmt: skip
MUCH_FALL_FRAC: Final = Sourced(
    value=0.4, unit="1", source="common-practice", low=0.3, high=0.6, grade="guess",
    note="of light, from one end of the card to the other: more is a lamp or a window close by",
)  # fmt: skip
AGAIN_D: Final = Sourced(
    value=365.0, unit="d", source="common-practice", low=180.0, high=730.0, grade="practice",
    note="after which a card is registered again: ink and brightener fade",
)  # fmt: skip
