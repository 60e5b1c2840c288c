"""What is believed of tubs before a trial: how unlike two tubs of one picking are, and how large effects are."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Prior, Sourced

PAIR_SD: Final = Sourced(
    value=0.25, unit="1", source="bluewright-learn", low=0.1, high=0.5, grade="guess",
    note="standard deviation of the log ratio of two tubs of one picking that were treated alike",
)  # fmt: skip
LOT_SD: Final = Sourced(
    value=0.35, unit="1", source="bluewright-learn", low=0.2, high=0.6, grade="guess",
    note="standard deviation of the log yield from picking to picking",
)  # fmt: skip
PRIOR_DOF: Final = Sourced(
    value=1.0, unit="1", source="bluewright-learn", low=1.0, high=4.0, grade="guess",
    note="how many degrees of freedom such a guess of the noise is worth: as much as one pair more",
)  # fmt: skip
NOISY_FACTOR: Final = Sourced(
    value=1.6, unit="1", source="bluewright-learn", low=1.4, high=2.0, grade="guess",
    note="tubs this many times as unlike as believed: the range from the prior is too narrow",
)  # fmt: skip
EFFECT: Final = Prior(
    kind="normal", centre=0.0, spread=0.3, unit="1", source="bluewright-learn", grade="guess",
    note="log ratio of two ways: 19 of 20 lie between 1.8 times less and 1.8 times more",
)  # fmt: skip
SCEPTIC: Final = Prior(
    kind="normal", centre=0.0, spread=0.15, unit="1", source="bluewright-learn", grade="guess",
    note="log ratio for who believes that most changes of a recipe do little",
)  # fmt: skip
OPEN_MIND: Final = Prior(
    kind="normal", centre=0.0, spread=0.6, unit="1", source="bluewright-learn", grade="guess",
    note="log ratio for who thinks that a change may well treble or ruin it",
)  # fmt: skip
ALIKE_FACTOR: Final = Sourced(
    value=1.1, unit="1", source="common-practice", low=1.05, high=1.2, grade="practice",
    note="a tenth more or less is no difference that a grower plans by",
)  # fmt: skip
SURE_CHANCE: Final = Sourced(
    value=0.9, unit="1", source="common-practice", low=0.8, high=0.95, grade="practice",
    note="from this chance on a decision is told",
)  # fmt: skip
LOST_FACTOR: Final = Sourced(
    value=2.0, unit="1", source="bluewright-learn", low=1.5, high=4.0, grade="guess",
    note="a tub spoilt or never weighed could have given so many times more or less than its rivals lead one to expect",
)  # fmt: skip
LOOKS_CHANCE: Final[dict[int, Sourced]] = {
    looks: Sourced(
        value=chance, unit="1", source="armitage-1969", low=chance - 0.002, high=chance + 0.002, grade="memory",
        note=f"chance that one of {looks} looks seems clear (1 in 20 each) though there is nothing",
    )
    for looks, chance in {2: 0.083, 3: 0.107, 4: 0.126, 5: 0.142, 10: 0.193}.items()
}  # fmt: skip
"""What looking again and again does: Armitage, McPherson and Rowe 1969, table 2."""
