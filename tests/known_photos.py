"""Photos whose colours are known: flat patches under one light, with a little noise, as a JPEG of a camera."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import numpy as np
from PIL import ExifTags, Image

from bluewright.science.colour.spaces import code_of_linear, linear_of_xyz, xyz_of_lab

Box = tuple[int, int, int, int]
Lab = tuple[float, float, float]

WHITE_LAB: Lab = (94.0, 0.5, -2.0)
"""What the paper of these photos is."""
EXPOSURE = 0.88
WHITE: Box = (20, 20, 200, 120)
CLOTH: Box = (340, 200, 240, 200)
CLOTH_LAB: Lab = (38.0, -2.0, -22.0)
LIQUOR: Box = (120, 200, 160, 260)
WATER: Box = (480, 200, 160, 260)
WATER_LIGHT = (0.80, 0.80, 0.79)
"""Linear light through the jar of water."""


def text(box: Box) -> str:
    """A box as it is typed."""
    return ", ".join(map(str, box))


def light_of(lab: Lab) -> np.ndarray:
    return np.asarray(linear_of_xyz(xyz_of_lab(lab)))


def a_known_photo(*patches: tuple[Box, Any], width_px: int = 800, height_px: int = 600, seed: int = 1) -> bytes:
    """Patches given by their linear light on a grey ground, all at one exposure."""
    rng = np.random.default_rng(seed)
    light = np.full((height_px, width_px, 3), 0.3)
    for (x, y, w, h), colour in patches:
        light[y : y + h, x : x + w] = colour
    light = EXPOSURE * light * (1.0 + 0.01 * rng.standard_normal(light.shape))
    code = np.round(255.0 * code_of_linear(np.clip(light, 0.0, 1.0))).astype(np.uint8)
    notes = Image.Exif()
    notes[ExifTags.Base.Model] = "Phone 7"
    details = notes.get_ifd(ExifTags.IFD.Exif)
    details[ExifTags.Base.ExposureTime] = 0.01
    details[ExifTags.Base.ISOSpeedRatings] = 100
    out = BytesIO()
    Image.fromarray(code).save(out, "JPEG", quality=95, subsampling=0, exif=notes)
    return out.getvalue()


def a_cloth(seed: int = 1) -> bytes:
    """A blue cloth beside white paper."""
    return a_known_photo((WHITE, light_of(WHITE_LAB)), (CLOTH, light_of(CLOTH_LAB)), seed=seed)


def two_jars(liquor_light: tuple[float, float, float], seed: int = 1) -> bytes:
    """A jar of liquor beside a jar of water."""
    return a_known_photo((LIQUOR, liquor_light), (WATER, WATER_LIGHT), seed=seed)


GREEN_LIQUOR = (0.25, 0.48, 0.15)
"""Own hand: D = -log10(0.25 / 0.80) + log10(0.48 / 0.80) = 0.505 - 0.222 = 0.283."""
BROWN_LIQUOR = (0.72, 0.60, 0.25)
"""Own hand: D = 0.046 - 0.125 = -0.079."""
