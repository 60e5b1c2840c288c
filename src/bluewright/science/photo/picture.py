"""A photo as pixels, and what its camera and its file tell about whether it can be measured."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.records import answer
from bluewright.science.colour.spaces import Space

Hint = Literal[
    "screenshot", "messenger", "edited", "filter", "portrait", "hdr", "night", "flash", "zoomed", "no_exif",
    "profile_assumed", "profile_converted",
]  # fmt: skip
"""What speaks against measuring in a picture, or should be known of it.

screenshot, messenger: not the photo itself. edited: written by a program, not by the camera. filter: the camera was
told to change colour, contrast or sharpness. portrait, hdr, night: several shots made into one, or parts of it changed
by themselves. zoomed: points were made up. no_exif: the camera's notes are gone. profile_assumed: the file does not say
which colour space it is in; sRGB is assumed. profile_converted: it was in another space than sRGB or Display P3.
"""


@answer
class PictureFacts:
    """What a photo's file and its camera's notes say; None where they say nothing."""

    format: str = ""
    """Of the file: `JPEG`, `PNG`, `WEBP` or `HEIF`; empty for a picture that was no file."""
    jpeg_quality: int | None = None
    """Quality from 1 to 100 at which a JPEG was written, estimated from its tables."""
    has_exif: bool = False
    """Whether the camera's notes are there: at least exposure or model."""
    camera: str = ""
    """Make and model."""
    software: str = ""
    """The program that wrote the file, if it says so."""
    taken_at: str = ""
    """When, as the camera notes it: `2026:07:05 14:03:22`."""
    exposure_s: float | None = None
    """Time of exposure."""
    f_number: float | None = None
    """Aperture."""
    iso: int | None = None
    """Sensitivity."""
    white_balance: Literal["auto", "manual"] | None = None
    """How the camera chose its white."""
    brightness_ev: float | None = None
    """Exposure value at ISO 100 of the scene: some 15 in sun, 12 in open shade, below 9 by lamps indoors."""
    hints: tuple[Hint, ...] = ()
    """What speaks against measuring in it."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Picture:
    """A photo as it is measured: upright, in a known colour space."""

    code: NDArray[np.uint8]
    """Codes of red, green and blue, 0 to 255; shape (height_px, width_px, 3)."""
    space: Space = "srgb"
    """The space that the codes are in."""
    facts: PictureFacts
    """What bears on trust."""

    @property
    def width_px(self) -> int:
        """Points from left to right."""
        return int(self.code.shape[1])

    @property
    def height_px(self) -> int:
        """Points from top to bottom."""
        return int(self.code.shape[0])
