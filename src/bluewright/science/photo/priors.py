"""What is believed of paper, velvet, stray light and photos before anything is measured."""

from __future__ import annotations

from typing import Final, Literal

import numpy as np

from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.photo.correction import Method

Light = Literal["daylight", "lamp", "unknown"]
AnyMethod = Method | Literal["none"]

PAPER_LAB: Final = (
    Prior(
        kind="normal", centre=95.0, spread=1.5, unit="L*", source="common-practice", grade="guess",
        note="copy paper, several sheets",
    ),
    Prior(
        kind="normal", centre=1.3, spread=1.0, unit="a*", source="common-practice", grade="guess",
        note="brightened paper is a little violet in daylight",
    ),
    Prior(
        kind="normal", centre=-5.0, spread=3.5, unit="b*", source="common-practice", grade="guess",
        note="from -11 (strongly brightened) to +4 (cream)",
    ),
)  # fmt: skip
"""Common white paper in daylight. It is not neutral: taking it so costs some 4 steps of colour on blues."""
BLACK_Y: Final = Prior(
    kind="lognormal", centre=0.004, spread=0.5, unit="1", source="common-practice", grade="guess",
    note="black velvet, or a deep hole lined black, of the light of a perfect white",
)  # fmt: skip
VEIL_FRAC: Final = Prior(
    kind="lognormal", centre=0.006, spread=0.7, unit="1", source="common-practice", grade="guess",
    note="light that lens and cloth's surface lay over a deep colour, of the light of white, where no black shows it",
)  # fmt: skip


LabSd = tuple[Sourced, Sourced, Sourced]
"""Of L*, a*, b*."""


def _study(l: float, a: float, b: float, *, times: float, note: str) -> LabSd:  # noqa: E741 - its name
    """What the study found, and that some phone may do this many times better or worse."""
    made = (
        Sourced(
            value=value, unit=unit, source="bluewright-photo-study", low=value / times, high=value * times,
            grade="fitted", note=note,
        )
        for value, unit in ((l, "L*"), (a, "a*"), (b, "b*"))
    )  # fmt: skip
    return next(made), next(made), next(made)


SHOT_SD: Final[dict[AnyMethod, LabSd]] = {
    "none": _study(2.9, 1.6, 2.0, times=2.2, note="no reference"),
    "white": _study(1.0, 0.75, 0.8, times=1.7, note="white paper alone"),
    "neutrals": _study(0.4, 0.6, 0.6, times=1.7, note="greys"),
    "matrix": _study(0.4, 0.65, 0.6, times=1.7, note="twelve patches and more"),
    "root": _study(0.4, 0.8, 0.65, times=1.7, note="twelve patches and more"),
}
"""From photo to photo of the same thing, camera lifted between."""
METHOD_SD: Final[dict[Light, dict[AnyMethod, LabSd]]] = {
    "daylight": {
        "none": _study(7.0, 1.5, 1.5, times=1.5, note="no reference"),
        "white": _study(3.5, 1.5, 1.9, times=2.0, note="white alone: the camera's curve stays"),
        "neutrals": _study(0.9, 1.8, 1.4, times=2.0, note="greys"),
        "matrix": _study(1.0, 2.5, 1.7, times=2.0, note="3 by 3"),
        "root": _study(1.0, 2.3, 1.5, times=2.0, note="root terms"),
    },
    "lamp": {
        "none": _study(9.7, 4.5, 3.9, times=1.5, note="no reference"),
        "white": _study(6.3, 4.5, 4.7, times=1.5, note="white alone"),
        "neutrals": _study(2.8, 3.5, 4.0, times=1.5, note="greys"),
        "matrix": _study(1.0, 2.6, 1.8, times=2.0, note="3 by 3"),
        "root": _study(1.0, 2.9, 1.8, times=2.0, note="root terms"),
    },
    "unknown": {
        "none": _study(8.4, 3.4, 3.0, times=1.7, note="no reference"),
        "white": _study(5.1, 3.4, 3.6, times=2.0, note="white alone"),
        "neutrals": _study(2.1, 2.8, 3.0, times=2.0, note="greys"),
        "matrix": _study(1.0, 2.6, 1.8, times=2.0, note="3 by 3"),
        "root": _study(1.0, 2.6, 1.6, times=2.0, note="root terms"),
    },
}
"""What a way of correcting is off by in that light, the same in each photo: cameras do not see as eyes do.

With colours (`matrix`, `root`) that of the phone that registered the card in daylight is in it."""
SHOT_WORTH: Final = Sourced(
    value=3.0, unit="photos", source="common-practice", low=1.0, high=6.0, grade="guess",
    note="how many photos' scatter the expectation above is worth when one's own repeats are weighed against it",
)  # fmt: skip

DAYLIGHT_EV: Final = Sourced(
    value=11.0, unit="EV at ISO 100", source="common-practice", low=10.0, high=12.0, grade="practice",
    note="from here on hardly any lamp: open shade has some 12",
)  # fmt: skip
LAMP_EV: Final = Sourced(
    value=7.0, unit="EV at ISO 100", source="common-practice", low=6.0, high=8.0, grade="practice",
    note="up to here a room by lamps, or dusk",
)  # fmt: skip
MOST_CLIPPED_FRAC: Final = Sourced(
    value=0.001, unit="1", source="common-practice", low=0.0, high=0.01, grade="practice",
    note="points of a reference at the camera's upper limit",
)  # fmt: skip
WHITE_TOO_LIGHT: Final = Sourced(
    value=0.95, unit="1", source="common-practice", low=0.9, high=1.0, grade="practice",
    note="linear light of a white's lightest channel above which the camera's curve bends",
)  # fmt: skip
WHITE_TOO_DARK: Final = Sourced(
    value=0.3, unit="1", source="common-practice", low=0.2, high=0.5, grade="practice", note="0.6 to 0.9 is good"
)
DARK_CODE: Final = Sourced(
    value=25.0, unit="code", source="common-practice", low=20.0, high=40.0, grade="practice",
    note="below, one step of the code is 0.3 to 0.5 L*",
)  # fmt: skip
LEAST_QUALITY: Final = Sourced(
    value=85.0, unit="JPEG quality", source="common-practice", low=75.0, high=90.0, grade="practice",
    note="below, dark blues are off by up to 1 b*",
)  # fmt: skip
MUCH_VEIL_FRAC: Final = Sourced(
    value=0.03, unit="1", source="common-practice", low=0.02, high=0.05, grade="guess",
    note="of white: a lens with a finger on it, or light from the front",
)  # fmt: skip
NEGATIVE_VEIL_FRAC: Final = Sourced(
    value=0.01, unit="1", source="common-practice", low=0.005, high=0.02, grade="guess",
    note="how much too dark a black may look before the camera's curve is suspected",
)  # fmt: skip
MUCH_UNEVEN_FRAC: Final = Sourced(
    value=0.05, unit="1", source="common-practice", low=0.03, high=0.1, grade="guess",
    note="spread of light over one white box: the same again lies between it and the sample",
)  # fmt: skip
MUCH_SHINE_FRAC: Final = Sourced(
    value=0.01, unit="1", source="common-practice", low=0.005, high=0.03, grade="guess",
    note="of a sample's points at the upper limit",
)  # fmt: skip
BAD_FIT_DE: Final = Sourced(
    value=4.0, unit="Lab", source="common-practice", low=3.0, high=5.0, grade="guess",
    note="held-out patches of a card: as wrong as this, something lies on it or it has faded",
)  # fmt: skip


def values(sd: LabSd) -> Floats:
    """The three as an array, shape (3,)."""
    return np.array([each.value for each in sd])


def paper_lab() -> tuple[Floats, Floats]:
    """L*, a*, b* of common paper and their standard deviations, shapes (3,)."""
    return np.array([each.centre for each in PAPER_LAB]), np.array([each.spread for each in PAPER_LAB])
