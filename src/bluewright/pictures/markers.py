"""Where the printed card lies in a picture: its four markers found, and by them every place of it.

The markers are an open code (4 by 4 points, 250 words that differ in at least three points) that OpenCV draws and
finds. It is imported only when a card is drawn or looked for; what follows from the corners is our own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.photo.card import CORNERS, MOST_CARDS, marker
from bluewright.science.photo.homography import homography, moved

Codes = NDArray[np.uint8]
SIDES_PX: Final = (1400, 2800)
"""Longest side of the picture in which markers are sought: small first, which is fast and calm; then finer."""
MOST_BEND_MM: Final = 1.0
"""How far, as root mean square, the markers' corners may lie from a flat card."""
LEAST_PX_PER_MM: Final = 2.0
"""Below it a patch has too few points to tell its colour: a whole card in a picture of 400 points."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundCard:
    """A card found in a picture."""

    number: int
    """The card's number, by its fourth marker."""
    to_picture: Floats
    """The 3 by 3 matrix from millimetres on the card to points of the picture, 0 at the edge of the first point."""
    bend_mm: float
    """How far the markers' corners lie from a flat card, as root mean square."""
    px_per_mm: float
    """How large the card's middle is in the picture."""


def modules(code: int) -> tuple[tuple[bool, ...], ...]:
    """Which of the 6 by 6 squares of a marker are dark, its rim included; rows from above."""
    import cv2  # noqa: PLC0415

    drawn = cv2.aruco.generateImageMarker(_words(cv2), code, 6)
    return tuple(tuple(bool(point == 0) for point in row) for row in drawn)


def card_in(code: Codes) -> FoundCard | None:
    """The card in a picture of shape (height_px, width_px, 3); None where no marker of one is seen.

    Raises InputError where markers are seen that do not make one whole, flat, large enough card.
    """
    grey = np.ascontiguousarray(code[..., 1])
    places: dict[int, list[tuple[int, Floats]]] = {}
    for side_px in SIDES_PX:
        places = _markers(grey, side_px=side_px)
        if all(len(places[place]) == 1 for place in places):
            return _lying({place: seen[0] for place, seen in places.items()})
        if max(grey.shape) <= side_px:
            break
    _refuse_parts(places)
    return None


def _markers(grey: NDArray[np.uint8], *, side_px: int) -> dict[int, list[tuple[int, Floats]]]:
    """Of each place of a card its code and corners, shape (4, 2), as often as it is seen."""
    import cv2  # noqa: PLC0415

    scale = min(1.0, side_px / max(grey.shape))
    small = cv2.resize(grey, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA) if scale < 1 else grey
    options = cv2.aruco.DetectorParameters()
    options.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    corners, ids, _ = cv2.aruco.ArucoDetector(_words(cv2), options).detectMarkers(small)
    found: dict[int, list[tuple[int, Floats]]] = {place: [] for place in range(len(CORNERS))}
    stretch = np.array([grey.shape[1] / small.shape[1], grey.shape[0] / small.shape[0]])
    for code, four in zip([] if ids is None else ids.ravel(), corners, strict=True):
        place = _place_of(int(code))
        if place is not None:  # OpenCV counts from the middle of the first point, we from its edge
            found[place].append((int(code), (np.asarray(four[0], dtype=float) + 0.5) * stretch))
    return found


def _place_of(code: int) -> int | None:
    known = {own: place for place, (*_, own) in enumerate(CORNERS) if own is not None}
    number_place = next(place for place, (*_, own) in enumerate(CORNERS) if own is None)
    return number_place if 1 <= code <= MOST_CARDS else known.get(code)


def _lying(places: dict[int, tuple[int, Floats]]) -> FoundCard:
    """The card by its four markers."""
    on_card = np.concatenate([marker(place).corners_mm() for place in places])
    in_picture = np.concatenate([corners for _, corners in places.values()])
    to_picture = homography(on_card, in_picture)
    off_mm = moved(in_picture, by=np.asarray(np.linalg.inv(to_picture))) - on_card
    bend_mm = float(np.sqrt((off_mm**2).sum(axis=1).mean()))
    if bend_mm > MOST_BEND_MM:
        raise InputError(
            where="card", what=f"the card does not lie flat: its markers are {bend_mm:.1f} mm off a plane",
            right="lay it flat, with a weight on a corner that curls, and take the photo again",
        )  # fmt: skip
    px_per_mm = _px_per_mm(to_picture, at_mm=on_card.mean(axis=0))
    if px_per_mm < LEAST_PX_PER_MM:
        raise InputError(
            where="card", what=f"the card is too small in the picture ({px_per_mm:.1f} points to a millimetre)",
            right="go nearer, until the card fills half of the picture",
        )  # fmt: skip
    number = next(code for place, (code, _) in places.items() if CORNERS[place][3] is None)
    return FoundCard(number=number, to_picture=to_picture, bend_mm=bend_mm, px_per_mm=px_per_mm)


def _px_per_mm(to_picture: Floats, *, at_mm: Floats) -> float:
    """The root of how many points of the picture a square millimetre takes at a place of the card."""
    middle, right, down = moved(at_mm + np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]]), by=to_picture)
    return float(np.sqrt(abs(np.linalg.det(np.stack([right - middle, down - middle])))))


def _refuse_parts(places: dict[int, list[tuple[int, Floats]]]) -> None:
    """Raise InputError where something of a card is seen; it says what is missing."""
    seen = [place for place, found in places.items() if found]
    fixed = [place for place in seen if CORNERS[place][3] is not None]
    if not fixed:
        return
    if any(len(found) > 1 for found in places.values()):
        raise InputError(where="card", what="there is more than one card in the picture", right="leave one in it")
    missing = ", ".join(CORNERS[place][0] for place in places if place not in seen)
    raise InputError(
        where="card", what=f"{len(seen)} of the card's 4 markers are seen; missing, as the card is read: {missing}",
        right="take the whole card into the picture, no finger, shine or shadow's edge on its corners",
    )  # fmt: skip


def _words(cv2: Any) -> Any:
    return cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_250)
