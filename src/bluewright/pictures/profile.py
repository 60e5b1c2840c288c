"""Which colour space a photo is in, by its own profile."""

from __future__ import annotations

from io import BytesIO
from typing import Any, Final

import numpy as np
from PIL import Image, ImageCms

from bluewright.pictures.opening import refused
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.spaces import XYZ_OF_LINEAR, Space

BRADFORD: Final = np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]])
"""To the cone-like channels in which a profile's white is brought to D50 (ICC.1:2010, annex E)."""
D50_XYZ: Final = np.array([0.9642, 1.0, 0.8249])
"""White of all profiles (ICC.1:2010, 6.3.4.3)."""
SAME_XYZ: Final = 0.004
"""Profiles of one space differ by rounding and by whose white they took."""
SAME_CODE: Final = 2
"""So far may a grey be moved by a profile whose curve is that of sRGB."""
NCLX: Final[dict[int, Space]] = {1: "srgb", 12: "display-p3"}
"""Primaries as HEIC files number them (ITU-T H.273): BT.709, which are those of sRGB, and Display P3."""
BRIGHTER_THAN_WHITE: Final = frozenset({16, 18})
"""Curves of moving pictures with lights above white (ITU-T H.273: PQ, HLG)."""


def in_space(picture: Image.Image) -> tuple[Image.Image, Space, str]:
    """The picture as RGB, its space, and how that was told: `profile`, `converted`, or `assumed` where it says nothing.

    What is in sRGB or Display P3 stays as it is, to the bit; what is in another space is brought to sRGB by its
    profile. Raises InputError for a profile that cannot be read and for pictures with lights above white.
    """
    profile = picture.info.get("icc_profile")
    if profile:
        return _by_profile(picture, profile)
    if "srgb" in picture.info:  # a PNG that says so in its own way
        return picture, "srgb", "profile"
    numbers = picture.info.get("nclx_profile") or {}
    if numbers.get("transfer_characteristics") in BRIGHTER_THAN_WHITE:
        raise refused("this is an HDR picture, with lights above white", "take the photo with HDR off")
    known = NCLX.get(numbers.get("color_primaries", 0))
    return (picture, known, "profile") if known else (picture, "srgb", "assumed")


def _by_profile(picture: Image.Image, data: bytes) -> tuple[Image.Image, Space, str]:
    try:
        profile = ImageCms.ImageCmsProfile(BytesIO(data))
        to_srgb = ImageCms.buildTransform(
            profile,
            ImageCms.createProfile("sRGB"),
            "RGB",
            "RGB",
            renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
        )
        space = _known(profile.profile, to_srgb)
        if space is not None:
            return picture, space, "profile"
        converted = ImageCms.applyTransform(picture, to_srgb)
    except (ImageCms.PyCMSError, OSError, ValueError):
        raise refused("its colour profile cannot be read", "send the photo as the camera wrote it") from None
    if converted is None:
        raise refused("its colour profile cannot be used", "send the photo as the camera wrote it")
    return converted, "srgb", "converted"


def _known(profile: Any, to_srgb: ImageCms.ImageCmsTransform) -> Space | None:
    """The space whose primaries and curve the profile has, whatever it is called."""
    found = [getattr(profile, f"{name}_colorant", None) for name in ("red", "green", "blue")]
    if any(each is None for each in found) or not _has_the_curve_of_srgb(to_srgb):
        return None
    colorants = np.array([each[0] for each in found if each is not None]).T
    near = (space for space in XYZ_OF_LINEAR if np.abs(colorants - _as_in_profiles(space)).max() < SAME_XYZ)
    return next(near, None)


def _as_in_profiles(space: Space) -> Floats:
    """X, Y, Z of the three primaries as a profile holds them, in columns: seen by an eye that is used to D50."""
    cones = BRADFORD @ XYZ_OF_LINEAR[space]
    scale = BRADFORD @ D50_XYZ / cones.sum(axis=1)
    return np.asarray(np.linalg.solve(BRADFORD, scale[:, None] * cones))


def _has_the_curve_of_srgb(to_srgb: ImageCms.ImageCmsTransform) -> bool:
    """Whether greys stay what they are."""
    greys = np.repeat(np.arange(256, dtype=np.uint8)[None, :, None], 3, axis=2)
    moved = ImageCms.applyTransform(Image.fromarray(greys), to_srgb)
    return moved is not None and int(np.abs(np.asarray(moved).astype(int) - greys).max()) <= SAME_CODE
