"""The printed card: what stands where on it, in millimetres from the upper left corner of its frame, and in which ink.

A ring of eighteen patches around a window for the sample: six neutral steps spread over the ring, so that shade on
one side is seen, and twelve colours of this work, from pale to deep blue and from cream to brown. Bare paper stands
between and around them: it tells how evenly the card is lit. A marker in each corner (an open 4 by 4 code) tells where
the card lies; the fourth also tells its number. Below is a slot for a swatch of the grower's own.

What ink says is only what the printer is asked for. What a card shows is found by registering it (`card_fit`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats

LAYOUT: Final = 1
"""Version of this layout; a card is read by the layout that it was registered with."""
FRAME_MM: Final = (124.0, 194.0)
"""Width and height of all that is read; it fits on A5 and on half of US Letter with white paper around."""
MARKER_MM: Final = 15.0
MOST_CARDS: Final = 199
"""A card's number, from 1, is the code of its fourth marker; the codes above are those of the other three."""
PAPER: Final = "paper"
"""The patch that is bare paper: the white of the neutral steps."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A rectangle of the card."""

    x_mm: float
    """Of its left side."""
    y_mm: float
    """Of its upper side."""
    w_mm: float
    h_mm: float

    def corners_mm(self, *, inset_frac: float = 0.0) -> Floats:
        """Upper left, upper right, lower right, lower left, each side drawn in by this share; shape (4, 2)."""
        dx, dy = inset_frac * self.w_mm, inset_frac * self.h_mm
        left, right = self.x_mm + dx, self.x_mm + self.w_mm - dx
        top, bottom = self.y_mm + dy, self.y_mm + self.h_mm - dy
        return np.array([[left, top], [right, top], [right, bottom], [left, bottom]])

    def centre_mm(self) -> Floats:
        """Its middle; shape (2,)."""
        return np.array([self.x_mm + self.w_mm / 2, self.y_mm + self.h_mm / 2])


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch(Field):
    """A patch of one colour."""

    name: str
    ink: str
    """The sRGB code that the printer is asked for; empty for bare paper."""
    neutral: bool = False


def _patches() -> tuple[Patch, ...]:
    neutral = {PAPER: "", "grey-1": "#d2d2d2", "grey-2": "#a4a4a4", "grey-3": "#767676", "grey-4": "#484848",
               "black": "#141414"}  # fmt: skip
    colour = {
        "blue-1": "#cfe0e8", "blue-2": "#9dbdd2", "blue-3": "#6691b4", "blue-4": "#365f8a", "blue-5": "#1c3456",
        "teal": "#2b7d80", "yellow-green": "#a9b84c", "olive": "#6d7034", "amber": "#c98f35", "brown": "#6b4a30",
        "cream": "#efe2bf", "purple": "#6d4f86",
    }  # fmt: skip
    left = (PAPER, "blue-2", "olive", "grey-3", "teal", "blue-4")
    right = ("grey-1", "cream", "blue-1", "amber", "black", "purple")
    below = ("grey-2", "blue-3", "yellow-green", "brown", "blue-5", "grey-4")
    places = {name: (7.0, 24.0 + 16.0 * k, 15.0) for k, name in enumerate(left)}
    places |= {name: (102.0, 24.0 + 16.0 * k, 15.0) for k, name in enumerate(right)}
    places |= {name: (20.0 + 14.2 * k, 124.0, 13.0) for k, name in enumerate(below)}
    ink = neutral | colour
    return tuple(
        Patch(name=name, ink=ink[name], neutral=name in neutral, x_mm=x, y_mm=y, w_mm=wide, h_mm=14.0)
        for name, (x, y, wide) in places.items()
    )


PATCHES: Final = _patches()
"""Left side, right side, below the window."""
NAMES: Final = tuple(patch.name for patch in PATCHES)
NEUTRAL: Final = np.array([patch.neutral for patch in PATCHES])
"""Which patches are neutral steps; shape (18,)."""
WINDOW: Final = Field(x_mm=31.0, y_mm=30.0, w_mm=62.0, h_mm=76.0)
"""Where the sample lies, on top or in a hole."""
SLOT: Final = Field(x_mm=26.0, y_mm=144.0, w_mm=72.0, h_mm=26.0)
"""Where a swatch of the grower's own is glued."""
CORNERS: Final[tuple[tuple[str, float, float, int | None], ...]] = (
    ("upper left", 0.0, 0.0, 231),
    ("upper right", FRAME_MM[0] - MARKER_MM, 0.0, 204),
    ("lower right", FRAME_MM[0] - MARKER_MM, FRAME_MM[1] - MARKER_MM, None),
    ("lower left", 0.0, FRAME_MM[1] - MARKER_MM, 217),
)
"""Of each marker the place in words, its left and upper side in mm, and its code; the code of None is the number."""
BARE: Final = (
    *(Field(x_mm=x, y_mm=y, w_mm=6.0, h_mm=10.0) for x in (23.5, 94.5) for y in (30.0, 52.0, 74.0, 96.0)),
    *(Field(x_mm=x, y_mm=y, w_mm=10.0, h_mm=6.0) for y in (20.0, 110.0) for x in (31.0, 57.0, 83.0)),
    *(Field(x_mm=x, y_mm=y, w_mm=4.5, h_mm=12.0) for x in (1.0, 118.5) for y in (28.0, 66.0, 104.0)),
    *(Field(x_mm=x, y_mm=y, w_mm=12.0, h_mm=12.0) for x in (5.0, 107.0) for y in (150.0,)),
)
"""Places of bare paper with nothing on them: by them uneven light is seen and taken out."""


def marker(place: int) -> Field:
    """The field of the marker at this place of `CORNERS`."""
    _, x_mm, y_mm, _ = CORNERS[place]
    return Field(x_mm=x_mm, y_mm=y_mm, w_mm=MARKER_MM, h_mm=MARKER_MM)


def codes(number: int) -> tuple[int, ...]:
    """The codes of the four markers of the card of this number."""
    return tuple(number if code is None else code for *_, code in CORNERS)
