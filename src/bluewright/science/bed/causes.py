"""What damages leaf: what is known of each that bears on what to do next."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.cautions import Caution, caution
from bluewright.science.bed.disease_record import Cause


def _known(text: str, source: str = "common-practice") -> Caution:
    return caution("cause", text, source=source)


CAUSES: Final[dict[Cause, Caution]] = {
    "powdery_mildew": _known(
        "Powdery mildew comes late in the season, and in dry weather too: a cut leaves it less leaf."
    ),
    "white_rust": _known(
        "White rust thrives at 13 to 25 C on leaf that stays wet for hours, and on soft growth after much nitrogen: "
        "give air between the plants, and water the ground and not the leaf."
    ),
    "downy_mildew": _known(
        "Downy mildew, grey beneath the leaf, stays with the cabbage family: no other of that family here next."
    ),
    "black_spot": _known("Ringed brown spots spread from June to September, with rain: take off the old outer leaves."),
    "clubroot": _known(
        "Clubroot stays in the ground for ten years and more and goes with soil on boots and tools: "
        "no cabbage family here for at least 7 years.",
        "pnw-clubroot",
    ),
    "flea_beetle": _known("Flea beetles harm seedlings most: a net from the day of sowing keeps them off."),
    "caterpillars": _known("Cabbage whites lay under the leaves: look there, and rub the eggs off."),
    "slugs": _known("Slugs may eat a rosette to its core; with the crown alive it commonly grows again."),
}


SPRAY: Final = caution(
    "spray-label",
    "Spray nothing that its label does not allow for this crop where you are, and keep its waiting time: "
    "leaf for the tub is handled wet, and its water is poured out in the garden.",
)
"""Of the law and of the skin."""
