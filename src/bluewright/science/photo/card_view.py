"""The card's patches and its bare paper as they stand in a picture, brought upright out of tilt and turn."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.photo.card import BARE, PATCHES, WINDOW, Field
from bluewright.science.photo.even import Evenness, even_light
from bluewright.science.photo.homography import moved
from bluewright.science.photo.picture import Picture
from bluewright.science.photo.record import Box
from bluewright.science.photo.references import check_not_clipped
from bluewright.science.photo.region import Region, measured

INSET_FRAC: Final = 0.25
"""Of its width and height a patch is narrowed on each side: ink bleeds, lenses blur, paper bends."""
MOST_SIDE_PX: Final = 400
"""A larger patch is thinned out: its mean gains nothing by more points."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CardView:
    """A card in a picture."""

    number: int
    to_picture: Floats
    """The 3 by 3 matrix from millimetres on the card to points of the picture."""
    patches: tuple[Region, ...]
    """In the order of the layout."""
    bare: tuple[Region, ...]
    """Places of bare paper."""
    even: Evenness
    """How light falls over the card."""

    def light(self) -> Floats:
        """Linear R, G, B of each patch, freed of uneven light; shape (18, 3)."""
        return np.array([part.light / self.even.at(part.at_px) for part in self.patches])

    def unevenness_frac(self) -> float:
        """How far bare paper, evened out, still differs from place to place: a shadow's edge, shine, or dirt."""
        green = np.array([(part.light / self.even.at(part.at_px))[1] for part in self.bare])
        return float(np.abs(green / np.median(green) - 1.0).max())

    def fall_frac(self) -> float:
        """How much darker the darkest place of the card's paper is than the lightest."""
        green = np.array([part.light[1] for part in self.bare])
        return float(1.0 - green.min() / green.max())


def card_view(picture: Picture, *, number: int, to_picture: Floats) -> CardView:
    """The card that lies there in a picture. Raises InputError if some patch of it is overexposed."""
    patches = tuple(field_region(picture, patch, to_picture=to_picture) for patch in PATCHES)
    bare = tuple(field_region(picture, place, to_picture=to_picture) for place in BARE)
    for patch, part in zip(PATCHES, patches, strict=True):
        check_not_clipped(part, where=f"card.{patch.name}")
    even = even_light(bare, samples=[part.at_px for part in patches])
    return CardView(number=number, to_picture=to_picture, patches=patches, bare=bare, even=even)


def field_region(picture: Picture, field: Field, *, to_picture: Floats) -> Region:
    """The light of a field of the card, its rim left out."""
    corners = moved(field.corners_mm(inset_frac=INSET_FRAC), by=to_picture)
    if (corners < 0).any() or (corners >= [picture.width_px, picture.height_px]).any():
        raise InputError(where="card", what="part of the card is outside the picture", right="take all of it in")
    sides = np.linalg.norm(corners - np.roll(corners, -1, axis=0), axis=1)
    wide, high = (int(np.clip(round(float(sides[k::2].mean())), 2, MOST_SIDE_PX)) for k in (0, 1))
    at_mm = _grid(field, (np.arange(wide) + 0.5) / wide, (np.arange(high) + 0.5) / high)
    at_px = moved(at_mm, by=to_picture).astype(int)
    part = measured(picture.code[at_px[..., 1], at_px[..., 0]], space=picture.space)
    across, down = part.block_at_px[:, 0] / wide, part.block_at_px[:, 1] / high
    (left, top), (right, low) = field.corners_mm(inset_frac=INSET_FRAC)[[0, 2]]
    blocks_mm = np.stack([left + across * (right - left), top + down * (low - top)], axis=1)
    centre_px = moved(field.centre_mm(), by=to_picture)
    return replace(part, block_at_px=moved(blocks_mm, by=to_picture), at_px=centre_px)


def window_box(view: CardView, *, picture: Picture) -> Box:
    """The largest upright box of the window's own middle that lies inside it in the picture, for a sample there."""
    corners = moved(WINDOW.corners_mm(inset_frac=0.1), by=view.to_picture)
    centre = moved(WINDOW.centre_mm(), by=view.to_picture)
    half = np.ptp(corners, axis=0) / 2
    sides = np.roll(corners, -1, axis=0) - corners
    signs = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])
    offsets = signs * half
    # How far along each half side the box may grow before one of its corners crosses a side of the window.
    normals = np.stack([-sides[:, 1], sides[:, 0]], axis=1)
    normals *= np.sign(((centre - corners) * normals).sum(axis=1))[:, None]
    room = ((centre - corners) * normals).sum(axis=1)
    reach = -(offsets @ normals.T)
    grow = float(min(1.0, (room / np.maximum(reach, 1e-9).max(axis=0)).min()))
    low, high = np.ceil(centre - grow * half).astype(int), np.floor(centre + grow * half).astype(int)
    low, high = np.maximum(low, 0), np.minimum(high, [picture.width_px, picture.height_px])
    return Box(x_px=int(low[0]), y_px=int(low[1]), w_px=int(high[0] - low[0]), h_px=int(high[1] - low[1]))


def _grid(field: Field, across: Floats, down: Floats) -> Floats:
    (left, top), (right, low) = field.corners_mm(inset_frac=INSET_FRAC)[[0, 2]]
    x, y = np.meshgrid(left + across * (right - left), top + down * (low - top))
    return np.stack([x, y], axis=-1)
