"""From a camera's codes to CIELAB and back: sRGB, Display P3, XYZ, Lab and its lightness, chroma and hue.

The matrices are made of each space's primaries and white, not copied with four decimals, which would leave white at
b* = -0.01.
"""

from __future__ import annotations

from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.sourced import Floats

Space = Literal["srgb", "display-p3"]

D65_XYZ: Final[Floats] = np.array([0.3127 / 0.3290, 1.0, (1.0 - 0.3127 - 0.3290) / 0.3290])
"""White of sRGB and Display P3: D65 for the 2 degree observer, x = 0.3127, y = 0.3290 (IEC 61966-2-1:1999)."""
PRIMARIES_XY: Final[dict[Space, tuple[tuple[float, float], ...]]] = {
    "srgb": ((0.64, 0.33), (0.30, 0.60), (0.15, 0.06)),
    "display-p3": ((0.680, 0.320), (0.265, 0.690), (0.150, 0.060)),
}
"""Red, green and blue of each space (IEC 61966-2-1:1999; SMPTE EG 432-1:2010)."""
KNEE_CODE_FRAC: Final = 0.04045
KNEE_LINEAR: Final = 0.0031308
"""Where the straight piece of sRGB's curve ends (IEC 61966-2-1:1999); Display P3 has the same curve."""
LAB_KNEE: Final = (6 / 29) ** 3
LAB_SLOPE: Final = (29 / 3) ** 3
"""epsilon and kappa of CIELAB as exact fractions (CIE 15:2004, 8.2.1)."""


def _matrix(space: Space) -> Floats:
    corners = np.array([[x / y, 1.0, (1.0 - x - y) / y] for x, y in PRIMARIES_XY[space]]).T
    return np.asarray(corners * np.linalg.solve(corners, D65_XYZ))


XYZ_OF_LINEAR: Final[dict[Space, Floats]] = {"srgb": _matrix("srgb"), "display-p3": _matrix("display-p3")}
"""Of each space the 3 by 3 matrix that takes linear R, G, B to X, Y, Z with white at Y = 1."""


def linear_of_code(code_frac: ArrayLike) -> Floats:
    """Light, 0 to 1, of the codes of a picture, 0 to 1 (IEC 61966-2-1:1999, 5.2); the same shape."""
    code = np.asarray(code_frac, dtype=float)
    above = np.maximum(code, KNEE_CODE_FRAC)
    return np.where(code <= KNEE_CODE_FRAC, code / 12.92, ((above + 0.055) / 1.055) ** 2.4)


def code_of_linear(linear_frac: ArrayLike) -> Floats:
    """Codes of a picture, 0 to 1, of light, 0 to 1: what `linear_of_code` undoes; the same shape."""
    linear = np.asarray(linear_frac, dtype=float)
    above = np.maximum(linear, KNEE_LINEAR)
    return np.where(linear <= KNEE_LINEAR, 12.92 * linear, 1.055 * above ** (1 / 2.4) - 0.055)


def xyz_of_linear(linear: ArrayLike, *, space: Space = "srgb") -> Floats:
    """X, Y, Z (white has Y = 1) of linear R, G, B; shape (..., 3)."""
    return np.asarray(np.asarray(linear, dtype=float) @ XYZ_OF_LINEAR[space].T)


def linear_of_xyz(xyz: ArrayLike, *, space: Space = "srgb") -> Floats:
    """Linear R, G, B of X, Y, Z; below 0 or above 1 where the space does not reach; shape (..., 3)."""
    return np.asarray(np.asarray(xyz, dtype=float) @ np.linalg.inv(XYZ_OF_LINEAR[space]).T)


def lab_of_xyz(xyz: ArrayLike) -> Floats:
    """L*, a*, b* of X, Y, Z under D65, 2 degree observer (CIE 15:2004, 8.2.1); shape (..., 3)."""
    ratio = np.asarray(xyz, dtype=float) / D65_XYZ
    root = np.where(ratio > LAB_KNEE, np.cbrt(ratio), (LAB_SLOPE * ratio + 16.0) / 116.0)
    x, y, z = root[..., 0], root[..., 1], root[..., 2]
    return np.stack([116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)], axis=-1)


def xyz_of_lab(lab: ArrayLike) -> Floats:
    """X, Y, Z of L*, a*, b*: what `lab_of_xyz` undoes; shape (..., 3)."""
    lab = np.asarray(lab, dtype=float)
    y = (lab[..., 0] + 16.0) / 116.0
    root = np.stack([y + lab[..., 1] / 500.0, y, y - lab[..., 2] / 200.0], axis=-1)
    ratio = np.where(root**3 > LAB_KNEE, root**3, (116.0 * root - 16.0) / LAB_SLOPE)
    return np.asarray(ratio * D65_XYZ)


def lab_of_linear(linear: ArrayLike, *, space: Space = "srgb") -> Floats:
    """L*, a*, b* of linear R, G, B; shape (..., 3)."""
    return lab_of_xyz(xyz_of_linear(linear, space=space))


def lab_of_code(code_frac: ArrayLike, *, space: Space = "srgb") -> Floats:
    """L*, a*, b* of the codes of a picture, 0 to 1; shape (..., 3)."""
    return lab_of_linear(linear_of_code(code_frac), space=space)


def code_of_lab(lab: ArrayLike, *, space: Space = "srgb") -> Floats:
    """The codes, 0 to 1, that show a colour on a screen; what the space does not reach is brought to its edge."""
    return code_of_linear(np.clip(linear_of_xyz(xyz_of_lab(lab), space=space), 0.0, 1.0))


def chroma_of_lab(lab: ArrayLike) -> Floats:
    """C*ab, how far from grey; shape (...)."""
    lab = np.asarray(lab, dtype=float)
    return np.asarray(np.hypot(lab[..., 1], lab[..., 2]))


def hue_deg_of_lab(lab: ArrayLike) -> Floats:
    """h_ab in degrees, 0 to 360: 0 red, 90 yellow, 180 green, 270 blue; 0 for a grey; shape (...)."""
    lab = np.asarray(lab, dtype=float)
    return np.asarray(np.degrees(np.arctan2(lab[..., 2], lab[..., 1])) % 360.0)
