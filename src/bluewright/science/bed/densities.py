"""Plants on a square metre to aim at, by plant and purpose, and how evenly stands grow."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.bed.stand_record import Origin, Purpose
from bluewright.science.media.basket import Plant

TARGETS_PER_M2: Final[dict[Plant, dict[Purpose, Sourced]]] = {
    "woad": {
        "leaf": Sourced(
            value=16.0, unit="1/m2", source="kizil-2007", low=12.0, high=25.0, grade="fitted",
            note="40 by 10 and 40 by 20 cm gave most leaf and most indican on an area; 16 is a middle of our own",
        ),
        "seed": Sourced(
            value=10.0, unit="1/m2", source="kizil-2007", low=8.0, high=17.0, grade="fitted",
            note="60 by 10 and 60 by 20 cm gave larger plants and larger seed",
        ),
    },
    "japanese_indigo": {
        "leaf": Sourced(
            value=8.0, unit="1/m2", source="common-practice", low=4.0, high=16.0, grade="practice",
            note="25 to 30 cm apart: rows 80 cm apart on farms, as close both ways in gardens",
        ),
        "seed": Sourced(
            value=5.0, unit="1/m2", source="common-practice", low=3.0, high=10.0, grade="guess",
            note="no figure found; the wider of the two ways to plant it",
        ),
    },
    "indigofera": {
        "leaf": Sourced(
            value=20.0, unit="1/m2", source="jopp-3527", low=10.0, high=40.0, grade="guess",
            note="a trial ran from 10 to 40; which of them gave most was not read",
        ),
        "seed": Sourced(
            value=8.0, unit="1/m2", source="common-practice", low=4.0, high=15.0, grade="guess", note="no figure found"
        ),
    },
}  # fmt: skip
"""Between low and high the yield of an area hardly changes: plants make up for room."""

DENSITY: Final = Prior(
    kind="lognormal", centre=20.0, spread=2.5, unit="1/m2", source="bluewright-bed", grade="guess",
    note="from a plant in three square metres to a carpet of seedlings: it says next to nothing",
)  # fmt: skip
EVENNESS: Final[dict[Origin, Prior]] = {
    "sown": Prior(
        kind="lognormal", centre=4.0, spread=1.5, unit="1", source="bluewright-bed", grade="guess",
        note="rows with gaps and doubles",
    ),
    "transplanted": Prior(
        kind="lognormal", centre=10.0, spread=1.5, unit="1", source="bluewright-bed", grade="guess",
        note="evenly set, a few lost",
    ),
    "self_sown": Prior(
        kind="lognormal", centre=1.0, spread=1.2, unit="1", source="bluewright-bed", grade="guess",
        note="most seed falls within a metre of its mother: 83, 9 and 1 seedlings on a square metre at 0, 48 and 96 cm",
    ),
}  # fmt: skip
"""The exponent of the negative binomial: the smaller, the more clumped; far above the mean count, as if at random."""

SURE_CHANCE: Final = Sourced(
    value=0.8, unit="1", source="common-practice", low=0.7, high=0.9, grade="guess",
    note="thinning cannot be taken back: so sure one should be",
)  # fmt: skip
FEW_FRAMES: Final = Sourced(
    value=6.0, unit="1", source="common-practice", low=5.0, high=10.0, grade="practice", note="frames to lay at least"
)
