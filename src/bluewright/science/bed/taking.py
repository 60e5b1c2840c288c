"""Which leaves to take, what to leave for regrowth: by plant."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.published import figure_of
from bluewright.science.base.sourced import Sourced
from bluewright.science.bed.growth_record import Taking
from bluewright.science.media.basket import Plant


def _share(value: float, low: float, high: float, note: str) -> Sourced:
    return Sourced(value=value, unit="1", source="common-practice", low=low, high=high, grade="practice", note=note)


USUAL: Final[dict[Plant, Sourced]] = {
    "woad": _share(0.33, 0.25, 0.33, "a third: the outer leaves, full grown; the crown stays"),
    "japanese_indigo": _share(0.7, 0.5, 0.8, "the tops, several nodes above the ground"),
    "indigofera": _share(0.8, 0.6, 0.9, "the leafy branches, as flower buds show"),
}  # fmt: skip
MOST: Final[dict[Plant, Sourced]] = {
    "woad": _share(0.5, 0.33, 0.5, "by hand; a machine takes whole rosettes of 30 cm"),
    "japanese_indigo": _share(0.85, 0.8, 0.9, "two living nodes on each stem, or more"),
    "indigofera": _share(0.9, 0.8, 0.95, "a branch with leaf on each plant"),
}  # fmt: skip
STUBBLE: Final[dict[Plant, Sourced]] = {
    "woad": Sourced(
        value=50.0, unit="mm", source="common-practice", low=30.0, high=300.0, grade="practice",
        note="above the crown, which must stay whole; a machine cuts rosettes of 30 cm",
    ),
    "japanese_indigo": Sourced(
        value=80.0, unit="mm", source="sakamoto-2017", low=80.0, high=150.0, grade="measured",
        note="cut at 80 mm, plants gave 1.86 to 3.11 times the shoots of those left with two branches",
    ),
    "indigofera": Sourced(
        value=100.0, unit="mm", source="common-practice", low=100.0, high=200.0, grade="practice", note="stubble"
    ),
}  # fmt: skip


def taking(plant: Plant) -> Taking:
    """Share to take, share not to go beyond, and height of what is left. Sources stand with the figures."""
    return Taking(
        usual_frac=figure_of(USUAL[plant]), most_frac=figure_of(MOST[plant]), stubble_mm=figure_of(STUBBLE[plant])
    )
