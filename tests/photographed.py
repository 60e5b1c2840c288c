"""Invented photos of the printed card: our own layout as ink on paper, then light, lens, tilt, camera, JPEG.

Everything that is done to the card here is written down as a field of `Shot`, so that a test knows the truth.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from io import BytesIO
from typing import Any

import numpy as np
from PIL import ExifTags, Image

from bluewright.pictures.markers import modules
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.spaces import code_of_linear, linear_of_code
from bluewright.science.photo.card import CORNERS, FRAME_MM, PATCHES, WINDOW, Field, codes, marker
from bluewright.science.photo.homography import homography, moved

EDGE_MM = 12.0
"""White paper around the frame."""
PAPER = np.array([0.86, 0.86, 0.84])
"""Linear reflectance of the invented paper: unbrightened, a little cream."""
SAMPLE = np.array([0.030, 0.075, 0.170])
"""Linear reflectance of the invented sample: a deep blue."""
MATTE_BLACK = 0.035
"""The least that matt ink throws back."""


def inks() -> Floats:
    """What each patch throws back: what its ink says, on this paper, and never quite black; shape (18, 3)."""
    asked = np.array([[1.0] * 3 if not p.ink else linear_of_code(_rgb(p.ink) / 255.0) for p in PATCHES])
    return MATTE_BLACK + (PAPER - MATTE_BLACK) * asked


def _rgb(ink: str) -> Floats:
    return np.array([int(ink[k : k + 2], 16) for k in (1, 3, 5)], dtype=float)


def card_drawn(
    *, number: int, px_per_mm: float, patches: Floats | None = None, sample: Floats = SAMPLE, paper: Floats = PAPER
) -> Floats:
    """The card as it throws back light, with its white edge; shape (height_px, width_px, 3)."""
    wide, high = (round((side + 2 * EDGE_MM) * px_per_mm) for side in FRAME_MM)
    drawn = np.tile(paper, (high, wide, 1))

    def fill(place: Field, colour: Floats | float) -> None:
        left, top = (round((start + EDGE_MM) * px_per_mm) for start in (place.x_mm, place.y_mm))
        right, low = (round((end + EDGE_MM) * px_per_mm) for end in (place.x_mm + place.w_mm, place.y_mm + place.h_mm))
        drawn[top:low, left:right] = colour

    for patch, colour in zip(PATCHES, inks() if patches is None else patches, strict=True):
        fill(patch, colour)
    fill(WINDOW, sample)
    for place, code in enumerate(codes(number)):
        whole = marker(place)
        side = whole.w_mm / 6
        for row, line in enumerate(modules(code)):
            for column, dark in enumerate(line):
                square = Field(x_mm=whole.x_mm + column * side, y_mm=whole.y_mm + row * side, w_mm=side, h_mm=side)
                fill(square, MATTE_BLACK if dark else paper)
    return drawn


@dataclass(frozen=True, kw_only=True)
class Shot:
    """How a photo is taken."""

    number: int = 3
    size_px: tuple[int, int] = (1500, 2000)
    """Width and height."""
    filled: float = 0.85
    """Share of the picture's height that the card takes."""
    turn_deg: float = 0.0
    tilt_deg: float = 0.0
    """About the card's long axis, from five card heights away."""
    nod_deg: float = 0.0
    """About its short axis."""
    light: tuple[float, float, float] = (1.0, 1.0, 1.0)
    """Colour of the light after the camera's white balance."""
    exposure: float = 0.9
    gradient: float = 0.0
    """How much darker the picture's right edge is than its left, as a share."""
    shadow: float = 0.0
    """How much darker all is to the right of an upright edge through its middle."""
    curve: float = 0.0
    """Strength of the camera's S-curve, 0 to 1."""
    noise: float = 1.0
    """Standard deviation in codes."""
    quality: int = 92
    patches: Floats | None = None
    sample: Floats = field(default_factory=lambda: SAMPLE)
    paper: Floats = field(default_factory=lambda: PAPER)
    background: float = 0.25
    shift_px: tuple[float, float] = (0.0, 0.0)

    def lying(self) -> Floats:
        """The true matrix from millimetres of the frame to points of the picture."""
        wide, high = FRAME_MM
        at = np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]]) * np.array([wide, high]) / 2
        a, b, c = np.radians([self.tilt_deg, self.nod_deg, self.turn_deg])
        x, y = at.T
        deep = x * np.sin(a) + y * np.sin(b)
        x, y = x * np.cos(a), y * np.cos(b)
        far = 5.0 * high
        x, y = x * far / (far + deep), y * far / (far + deep)
        x, y = x * np.cos(c) - y * np.sin(c), x * np.sin(c) + y * np.cos(c)
        scale = self.filled * self.size_px[1] / (high + 2 * EDGE_MM)
        seen = np.stack([x, y], axis=1) * scale + np.array(self.size_px) / 2 + np.array(self.shift_px)
        return homography(at + np.array([wide, high]) / 2, seen)


def codes_of(shot: Shot, *, seed: int = 1) -> np.ndarray[Any, np.dtype[np.uint8]]:
    """The photo's codes, JPEG and all; shape (height_px, width_px, 3)."""
    with Image.open(BytesIO(jpeg_of(shot, seed=seed))) as opened:
        return np.asarray(opened.convert("RGB"))


def noted(*, exposure_s: float = 1 / 1000, iso: int = 50, **other: Any) -> Image.Exif:
    """A camera's notes by day in open shade: f/1.8, 1/1000 s at ISO 50 is exposure value 12.7 (ISO 2720)."""
    exif = Image.Exif()
    exif[ExifTags.Base.Make], exif[ExifTags.Base.Model] = "Invented", "Phone 1"
    exif.get_ifd(ExifTags.IFD.Exif).update(
        {
            ExifTags.Base.ExposureTime: exposure_s,
            ExifTags.Base.FNumber: 1.8,
            ExifTags.Base.ISOSpeedRatings: iso,
            ExifTags.Base.ColorSpace: 1,
            ExifTags.Base.DateTimeOriginal: "2026:06:20 11:00:00",
        }
        | {getattr(ExifTags.Base, name): value for name, value in other.items()}
    )
    return exif


def jpeg_of(shot: Shot, *, seed: int = 1, exif: Image.Exif | None = None) -> bytes:
    """The photo as a JPEG file."""
    import cv2

    rng = np.random.default_rng(seed)
    px_per_mm = 1.2 * shot.filled * shot.size_px[1] / FRAME_MM[1]
    drawn = card_drawn(
        number=shot.number, px_per_mm=px_per_mm, patches=shot.patches, sample=shot.sample, paper=shot.paper
    )
    drawn = cv2.GaussianBlur(drawn, (0, 0), 0.6)
    to_drawn = np.array([[px_per_mm, 0, EDGE_MM * px_per_mm], [0, px_per_mm, EDGE_MM * px_per_mm], [0, 0, 1.0]])
    half = np.array([[1, 0, -0.5], [0, 1, -0.5], [0, 0, 1.0]])  # OpenCV counts from the middle of a point
    way = half @ shot.lying() @ np.linalg.inv(to_drawn) @ np.linalg.inv(half)
    wide, high = shot.size_px
    ground = (shot.background,) * 3
    seen = cv2.warpPerspective(drawn, way, (wide, high), flags=cv2.INTER_LINEAR, borderValue=ground)
    across = np.linspace(0.5, -0.5, wide)[None, :, None]
    lit = seen * np.array(shot.light) * shot.exposure * (1.0 + shot.gradient * across)
    lit[:, wide // 2 :] *= 1.0 - shot.shadow
    grained = code_of_linear(np.clip(_curved(np.clip(lit, 0, 1), shot.curve), 0, 1)) * 255.0
    grained += rng.normal(0.0, shot.noise, size=grained.shape) if shot.noise else 0.0
    whole = Image.fromarray(np.clip(np.round(grained), 0, 255).astype(np.uint8))
    out = BytesIO()
    whole.save(out, "JPEG", quality=shot.quality, subsampling=0 if shot.quality >= 90 else 2, exif=exif or noted())
    return out.getvalue()


def _curved(linear: Floats, strength: float) -> Floats:
    """A phone's S-curve: in codes, code + strength * a third-degree wave that keeps black, middle and white."""
    if not strength:
        return linear
    code = code_of_linear(linear)
    return linear_of_code(np.clip(code - strength * code * (1 - code) * (1 - 2 * code) * 0.9, 0, 1))


def true_places(shot: Shot) -> Floats:
    """Where the middles of the patches truly are in the picture; shape (18, 2)."""
    return moved(np.array([patch.centre_mm() for patch in PATCHES]), by=shot.lying())


__all__ = ["CORNERS", "PAPER", "SAMPLE", "Shot", "card_drawn", "codes_of", "inks", "jpeg_of", "noted", "true_places"]
