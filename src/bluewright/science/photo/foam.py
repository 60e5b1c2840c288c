"""How much of the foam is blue?"""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.colour.spaces import chroma_of_lab, hue_deg_of_lab, lab_of_code
from bluewright.science.photo.jar_verdict import BLUE_DEG, GREY_CHROMA
from bluewright.science.photo.picture import Picture
from bluewright.science.photo.record import Box

MOST_POINTS: Final = 40_000
"""Of a large box every so-manieth point is enough."""


def blue_frac(picture: Picture, box: Box) -> float:
    """Share of the points of a box that are blue (hue 220 to 290, chroma above 6), as the camera wrote them.

    Not corrected: a tinted light moves it. Proposal of our own; no source was found.
    """
    part = picture.code[box.y_px : box.y_px + box.h_px, box.x_px : box.x_px + box.w_px].reshape(-1, 3)
    some = part[:: max(1, len(part) // MOST_POINTS)]
    lab = lab_of_code(some / 255.0, space=picture.space)
    hue = hue_deg_of_lab(lab)
    blue = (hue >= BLUE_DEG[0]) & (hue <= BLUE_DEG[1]) & (chroma_of_lab(lab) > GREY_CHROMA)
    return float(np.mean(blue)) if len(blue) else 0.0
