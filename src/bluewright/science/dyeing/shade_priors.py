"""What is believed of the colour that indigo makes on fibre: its spectrum, how much it colours, and the undyed cloth.

No measured spectrum of cloth dyed with known indigo was found in any open set. The shape is a guess, drawn so that its
colours run through the published hue of natural indigo on cotton and through lightnesses that are commonly told.
"""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.media.cloth import Fibre

_SOURCE: Final = "bluewright-dyeing"


def _guess(value: float, low: float, high: float, unit: str, note: str = "") -> Sourced:
    return Sourced(value=value, unit=unit, source=_SOURCE, low=low, high=high, grade="guess", note=note)


PEAK_NM: Final = _guess(655.0, 640.0, 668.0, "nm", "K/S of indigo on fibre is usually told at 656 to 668 nm")
LEFT_NM: Final = _guess(75.0, 60.0, 90.0, "nm", "width of the band towards the blue")
RIGHT_NM: Final = _guess(36.0, 28.0, 45.0, "nm", "towards the red: cloth is red again beyond 720 nm")
SHOULDER: Final = _guess(0.15, 0.0, 0.4, "1", "height of the shoulder, over that of the band")
SHOULDER_NM: Final = _guess(580.0, 570.0, 600.0, "nm")
SHOULDER_WIDTH_NM: Final = _guess(40.0, 30.0, 50.0, "nm")
VIOLET: Final = _guess(0.15, 0.05, 0.3, "1", "rise towards the ultraviolet, at 380 nm")
VIOLET_NM: Final = _guess(35.0, 20.0, 60.0, "nm", "in which it falls to 37 %")
BLUE_NM: Final = _guess(470.0, 440.0, 500.0, "nm", "middle of what little it absorbs of the blue")
BLUE_WIDTH_NM: Final = _guess(60.0, 40.0, 90.0, "nm")
FLOOR: Final = _guess(0.03, 0.0, 0.06, "1", "absorbed everywhere")
BLUE_PART: Final = Prior(
    kind="lognormal", centre=0.12, spread=0.3, unit="1", source=_SOURCE, grade="guess",
    note="height of that, over the band's: yellow and brown that come along with plant indigo raise it",
)  # fmt: skip
TURN_NM: Final = Prior(
    kind="normal", centre=-3.0, spread=6.0, unit="nm", source=_SOURCE, grade="guess",
    note="by which the band of this cloth lies further to the red: below 0 the blue is redder",
)  # fmt: skip
YIELD_PER_G_PER_KG: Final = Prior(
    kind="lognormal", centre=0.35, spread=0.5, unit="kg/g", source=_SOURCE, grade="guess",
    note="K/S at 660 nm of 1 g of indigo on 1 kg of fibre, evenly spread: 3.5 at 1 %; absorptivity in solution over "
    "the scattering of fibres would allow three times that, the depths that craft pages name a half",
)  # fmt: skip
SURFACE_FRAC: Final = Prior(
    kind="lognormal", centre=0.010, spread=0.4, unit="1", source=_SOURCE, grade="guess",
    note="light that the surface of the fibres sends back uncoloured: it is why depth stops growing",
)  # fmt: skip
GROUND_K_OVER_S: Final[dict[Fibre, Sourced]] = {
    "cotton": _guess(0.025, 0.01, 0.06, "1", "bleached: 80 % comes back"),
    "linen": _guess(0.05, 0.02, 0.15, "1", "half bleached"),
    "other_cellulose": _guess(0.025, 0.01, 0.06, "1"),
    "silk": _guess(0.03, 0.015, 0.08, "1", "degummed"),
    "wool": _guess(0.08, 0.04, 0.2, "1", "scoured, cream"),
}
"""K/S of the undyed cloth at 560 nm."""
GROUND_SLOPE: Final[dict[Fibre, Sourced]] = {
    "cotton": _guess(0.5, 0.2, 1.0, "1"),
    "linen": _guess(0.8, 0.4, 1.2, "1"),
    "other_cellulose": _guess(0.4, 0.1, 0.8, "1"),
    "silk": _guess(0.8, 0.4, 1.2, "1"),
    "wool": _guess(1.2, 0.8, 1.6, "1"),
}
"""By how much its logarithm rises for each 100 nm towards the blue: the yellower, the more."""
