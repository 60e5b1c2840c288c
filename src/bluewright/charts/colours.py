"""Colours as a drawing needs them: as a screen shows them, and the ink that is read on them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from bluewright.charts.inputs import check_words
from bluewright.science.base.errors import InputError
from bluewright.science.colour.spaces import code_of_lab
from bluewright.words.language import gettext as _

Lab = tuple[float, float, float]
WHITE_INK: Final = "#ffffff"
BLACK_INK: Final = "#000000"
HALF_LIGHT: Final = 50.0
"""L* below which white is read best."""
SURROUND: Final = "#777777"
"""Grey of L* 50, on which colours are judged."""


def hex_of_lab(lab: Sequence[float]) -> str:
    """A colour as a screen shows it, `#a1b2c3`; what a screen cannot show is brought to its edge."""
    return "#" + "".join(f"{round(255 * float(code)):02x}" for code in code_of_lab(lab))


def ink_on(lab: Lab) -> str:
    """Black or white, whichever is read on the colour."""
    return WHITE_INK if lab[0] < HALF_LIGHT else BLACK_INK


def screen_said() -> str:
    """What a coloured chip is not."""
    return _("Colours as a screen shows them: yours may differ.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Chip:
    """One measured colour, CIELAB under D65 for the 2 degree observer."""

    name: str
    lab: Lab
    lab_sd: Lab = (0.0, 0.0, 0.0)
    said: str = field(default="")
    """Its colour in words: `deep blue`."""

    def __post_init__(self) -> None:
        check_words(name=self.name)
        if not all(abs(value) < 1000 for value in (*self.lab, *self.lab_sd)):
            raise InputError(where="lab", what=f"{self.lab} has no place on paper", right="give finite numbers")
