"""The light of one thing in a picture: the mean of its points in linear light, without shine, crease and background.

Points are told apart by the logarithm of their lightness: what is further from the median than a few spreads is left
out, and of the rest the plain mean is taken. A median would be off by the skew of a texture, a mean of L* by more.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.spaces import XYZ_OF_LINEAR, Space, linear_of_code
from bluewright.science.photo.picture import Picture
from bluewright.science.photo.record import Box

INSET_FRAC: Final = 0.075
"""Of its width and height a box is narrowed on each side: hands and edges are not exact."""
LEAST_SIDE_PX: Final = 16
"""A narrower box holds not one block of a JPEG's colours."""
BLOCK_PX: Final = 16
"""Points of a JPEG hang together within its blocks: with colours at half the size, 16 by 16 of them."""
MOST_BLOCKS: Final = 800
"""A larger thing is cut into larger blocks, which are as independent and fewer."""
CLIPPED_CODE: Final = 253
"""From here on a point counts as at the camera's upper limit."""
SPREADS: Final = 3.5
MAD_TO_SD: Final = 1.4826
"""Of a normal distribution, its standard deviation over its median absolute deviation."""
LEAST_SPREAD: Final = 0.01
"""Of the logarithm of light: so that a drawn, flat patch does not leave out its own rounding."""
SOME_PX: Final = 20_000
"""So many points, taken evenly, tell median and spread well enough."""
DARKEST_Y: Final = 1e-4
LINEAR_OF_CODE: Final[NDArray[np.float32]] = linear_of_code(np.arange(256) / 255.0).astype(np.float32)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Region:
    """The light of one thing."""

    light: Floats
    """Mean linear R, G, B of the points kept, shape (3,)."""
    block_light: Floats
    """The same of each block, shape (blocks, 3)."""
    block_points: Floats
    """How many points of each block were kept, shape (blocks,)."""
    block_at_px: Floats
    """Where the middle of each block is, x and y, shape (blocks, 2)."""
    at_px: Floats
    """The middle of the region, x and y."""
    mean_code: Floats
    """Mean code of each channel, 0 to 255."""
    clipped_frac: float
    left_out_frac: float
    points_px: int


def region(picture: Picture, box: Box, *, where: str, inset_frac: float = INSET_FRAC) -> Region:
    """The light within a box. Raises InputError at `where` for a box outside the picture or too small to measure in."""
    _check(picture, box, where)
    dx, dy = round(inset_frac * box.w_px), round(inset_frac * box.h_px)
    left, top = box.x_px + dx, box.y_px + dy
    code = picture.code[top : box.y_px + box.h_px - dy, left : box.x_px + box.w_px - dx]
    return measured(code, space=picture.space, left_px=left, top_px=top)


def measured(code: NDArray[np.uint8], *, space: Space, left_px: int = 0, top_px: int = 0) -> Region:
    """The light of a block of codes, shape (h, w, 3), whose upper left corner is at (left_px, top_px)."""
    kept = _kept(code, space)
    light = LINEAR_OF_CODE[code]
    light[~kept] = 0.0
    side = _block_side(code.shape[0], code.shape[1])
    sums, points = _block_sums(light, side), _block_sums(kept[..., None].astype(np.float32), side)[:, 0]
    full = points > 0
    rows, columns = -(-code.shape[0] // side), -(-code.shape[1] // side)
    y, x = (np.divmod(np.arange(rows * columns), columns)[k] for k in (0, 1))
    middle = np.stack([_middle(x, side, code.shape[1]) + left_px, _middle(y, side, code.shape[0]) + top_px], axis=1)
    return Region(
        light=sums.sum(axis=0) / points.sum(),
        block_light=sums[full] / points[full, None],
        block_points=points[full],
        block_at_px=middle[full],
        at_px=np.array([left_px + code.shape[1] / 2, top_px + code.shape[0] / 2]),
        mean_code=code.sum(axis=0, dtype=np.uint32).mean(axis=0) / code.shape[0],
        clipped_frac=np.count_nonzero(np.maximum.reduce(_channels(code)) >= CLIPPED_CODE) / kept.size,
        left_out_frac=1 - int(np.count_nonzero(kept)) / kept.size,
        points_px=int(np.count_nonzero(kept)),
    )


def _check(picture: Picture, box: Box, where: str) -> None:
    size = f"the picture is {picture.width_px} wide and {picture.height_px} high"
    if box.x_px + box.w_px > picture.width_px or box.y_px + box.h_px > picture.height_px:
        reach = f"it reaches to {box.x_px + box.w_px} across and {box.y_px + box.h_px} down"
        raise InputError(where=where, what=f"the box leaves the picture: {reach}, {size}", right="draw it inside")
    if min(box.w_px, box.h_px) < LEAST_SIDE_PX:
        raise InputError(
            where=where,
            what=f"a box of {box.w_px} by {box.h_px} points is too small to measure in",
            right=f"draw it at least {LEAST_SIDE_PX} points wide and high, or go nearer with the camera",
        )


def _kept(code: NDArray[np.uint8], space: Space) -> NDArray[np.bool_]:
    """Which points belong to the thing, shape (h, w)."""
    lightness = LINEAR_OF_CODE[code] @ XYZ_OF_LINEAR[space][1].astype(np.float32)
    step = max(1, int(np.sqrt(lightness.size / SOME_PX)))
    some = np.log(lightness[::step, ::step].ravel() + DARKEST_Y)
    middle = np.median(some)
    reach = SPREADS * max(MAD_TO_SD * float(np.median(np.abs(some - middle))), LEAST_SPREAD)
    low, high = np.exp(middle - reach) - DARKEST_Y, np.exp(middle + reach) - DARKEST_Y
    return np.asarray((lightness >= low - 1e-6) & (lightness <= high + 1e-6))


def _channels(code: NDArray[np.uint8]) -> list[NDArray[np.uint8]]:
    return [code[..., channel] for channel in range(3)]


def _block_side(height_px: int, width_px: int) -> int:
    side = BLOCK_PX
    while (height_px / side) * (width_px / side) > MOST_BLOCKS:
        side *= 2
    return side


def _block_sums(values: NDArray[np.float32], side: int) -> Floats:
    """Sums over blocks in rows from the upper left, shape (blocks, channels); the last of a row may be narrower."""
    down, across = (np.arange(0, size, side) for size in values.shape[:2])
    sums = np.add.reduceat(np.add.reduceat(values, down, axis=0, dtype=np.float64), across, axis=1)
    return np.asarray(sums.reshape(-1, values.shape[2]))


def _middle(number: NDArray[np.intp], side: int, size: int) -> Floats:
    first = number * side
    return np.asarray((first + np.minimum(first + side, size)) / 2)
