"""Photos that were never taken: spectra through published cameras and lights, to pictures whose truth is known.

A patch's spectrum is lit, seen by the camera's three sensitivities, balanced on white, and brought to sRGB by one
matrix that the maker would have fitted in daylight, whatever the light is then. Exposure, a cast that the balance left,
a tone curve, uneven light, veil, texture, noise, tilt and JPEG follow as asked. The truth is what the CIE's observer
sees of the patch under D65. Cloth and inks are invented K/S curves: no spectrum of indigo on cloth was found in print.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path

import numpy as np
from PIL import ExifTags, Image

from bluewright.science.base.sourced import Floats
from bluewright.science.colour.depth import reflectance_of_k_over_s
from bluewright.science.colour.observer import WAVELENGTHS_NM
from bluewright.science.colour.spaces import code_of_linear, lab_of_xyz, linear_of_xyz
from bluewright.science.colour.spectrum import xyz_of_spectrum
from bluewright.science.photo.record import Box

TABLES = Path(__file__).parent / "tables"
CAMERAS = ("camera_1", "camera_2")
DAYLIGHTS, LAMPS = ("d50", "d65", "d75"), ("a", "led_b3", "fl11")
LADDER = (0.25, 0.5, 1.0, 2.0, 4.0, 6.0, 8.0, 13.0, 20.0, 28.0)
"""K/S at 660 nm of the invented cloth, pale to deep."""


@cache
def table(name: str) -> dict[str, Floats]:
    """The columns of a table of spectra, at the wavelengths of the observer."""
    lines = [line for line in (TABLES / f"{name}.csv").read_text().splitlines() if not line.startswith("#")]
    values = np.array([[float(cell) for cell in line.split(",")] for line in lines[1:]])
    assert np.array_equal(values[:, 0], WAVELENGTHS_NM)
    return dict(zip(lines[0].split(",")[1:], values[:, 1:].T, strict=True))


def patches() -> Floats:
    """Reflectances of the 24 patches of ISO 17321-1, the last six neutral, shape (24, wavelengths)."""
    return np.array(list(table("patches").values()))


NEUTRAL = np.arange(24) >= 18


def cloth(k_over_s_660: float, *, red: float = 0.0) -> Floats:
    """Reflectance of invented cloth dyed with indigo, `red` adding a band of indirubin as a share of the blue one.

    K/S is that of the cloth itself and four bands of the dye, chosen so that the ladder runs from L* 82 to 25 and
    through the hues of blue cloth.
    """
    nm = WAVELENGTHS_NM
    bands = np.exp(-(((nm - 658) / 40) ** 2)) + 0.52 * np.exp(-(((nm - 600) / 27) ** 2))
    bands += 0.08 + 0.17 * np.exp(-(((nm - 390) / 57) ** 2)) + (0.30 + red) * np.exp(-(((nm - 540) / 45) ** 2))
    at_660 = np.interp(660, nm, bands)
    return reflectance_of_k_over_s(0.035 + k_over_s_660 * bands / at_660)


def ladder() -> Floats:
    """The invented cloth from pale to deep, shape (depths, wavelengths)."""
    return np.array([cloth(depth) for depth in LADDER])


def true_lab(reflectance: Floats) -> Floats:
    """What the observer sees under D65."""
    return lab_of_xyz(xyz_of_spectrum(reflectance))


INKS: dict[str, tuple[float, float, float, float]] = {
    "paper": (0, 0, 0, 0), "grey-1": (0, 0, 0, 0.0859), "grey-2": (0, 0, 0, 0.52), "grey-3": (0, 0, 0, 1.84),
    "grey-4": (0, 0, 0, 6.74), "black": (0, 0, 0, 16), "blue-1": (0.0891, 0.0098, 0, 0),
    "blue-2": (0.532, 0.0992, 0.0285, 0), "blue-3": (2.09, 0.409, 0.0646, 0), "blue-4": (7.83, 1.6, 0.0429, 0),
    "blue-5": (27.4, 7.38, 0.264, 0), "teal": (5.61, 0.229, 1.52, 0), "yellow-green": (0.405, 0.0777, 6.87, 0),
    "olive": (2.3, 1.58, 18.1, 0), "amber": (0.0172, 0.936, 12.8, 0), "brown": (2.38, 6.93, 20.6, 0),
    "cream": (0, 0.0367, 0.288, 0), "purple": (2.48, 4.9, 0, 0),
}  # fmt: skip
"""Amounts of three invented inks and black that print patches such as those of the card for photos."""
INK_NEUTRAL = np.array([name in {"paper", "black"} or name.startswith("grey") for name in INKS])


def printed() -> Floats:
    """Reflectances of the printed patches, shape (18, wavelengths): inks of two bands each on unbrightened paper."""
    nm = WAVELENGTHS_NM

    def band(at: float, before: float, after: float) -> Floats:
        return np.exp(-(((nm - at) / np.where(nm < at, before, after)) ** 2))

    inks = np.array([
        band(650, 90, 80) + 0.06 * band(430, 60, 60) + 0.03,
        band(545, 55, 35) + 0.25 * band(420, 60, 60) + 0.02,
        band(425, 60, 45) + 0.01,
        np.ones_like(nm),
    ])  # fmt: skip
    paper = 0.012 + 0.05 * np.exp(-(nm - 380) / 25)
    return reflectance_of_k_over_s(paper + np.array(list(INKS.values())) @ inks)


def paper(brightener: float) -> Floats:
    """What a white paper sends back in daylight, its brightener's own blue light with it: 0 none, 0.35 a strong one."""
    return printed()[0] * (1 + brightener * np.exp(-(((WAVELENGTHS_NM - 442) / 24) ** 2)))


@dataclass(frozen=True, kw_only=True)
class Shot:
    """How a photo is taken."""

    camera: str = "camera_1"
    light: str = "d65"
    exposure: float = 0.85
    """Linear light of a perfect white."""
    cast: tuple[float, float, float] = (1.0, 1.0, 1.0)
    """What the camera's white balance left over."""
    curve: float = 0.0
    """Strength of the S that the camera lays over its codes."""
    veil: float = 0.0
    """Stray light, of that of white."""


def light_of(reflectance: Floats, shot: Shot) -> Floats:
    """Linear sRGB light that the camera makes of spectra, before its curve; shape (..., 3)."""
    balanced = _raw(reflectance, shot.camera, shot.light) / _raw(np.ones_like(WAVELENGTHS_NM), shot.camera, shot.light)
    linear = balanced @ _makers_matrix(shot.camera)
    return np.asarray((linear + shot.veil) * shot.exposure * np.array(shot.cast))


def bent(light: Floats, strength: float) -> Floats:
    """Codes, 0 to 1, of light: sRGB, and over it a share of the smooth S 3x^2 - 2x^3."""
    code = code_of_linear(np.clip(light, 0.0, 1.0))
    return np.asarray((1 - strength) * code + strength * (3 * code**2 - 2 * code**3))


def _raw(reflectance: Floats, camera: str, light: str) -> Floats:
    seen = np.stack([table("cameras")[f"{camera}_{channel}"] for channel in "rgb"], axis=1)
    return np.asarray((reflectance * table("lights")[light]) @ seen)


@cache
def _makers_matrix(camera: str) -> Floats:
    """From balanced raw light to linear sRGB, by least squares over the patches in D65, white kept white."""
    seen = _raw(patches(), camera, "d65") / _raw(np.ones_like(WAVELENGTHS_NM), camera, "d65")
    wanted = linear_of_xyz(xyz_of_spectrum(patches()))
    # White stays white if each column sums to 1: two free numbers a column.
    free = np.linalg.lstsq(seen[:, :2] - seen[:, 2:], wanted - seen[:, 2:], rcond=None)[0]
    return np.vstack([free, 1.0 - free.sum(axis=0)])


@dataclass(frozen=True, kw_only=True)
class Scene:
    """Things on a white ground, in rows, each a square of `side_px`, to be drawn with faults."""

    things: Floats
    """Their reflectances, shape (n, wavelengths)."""
    ground: Floats
    """That of the ground."""
    across: int = 6
    side_px: int = 96
    gap_px: int = 48

    def box(self, number: int) -> Box:
        """Where a thing is."""
        row, column = divmod(number, self.across)
        step = self.side_px + self.gap_px
        x, y = (self.gap_px + step * each for each in (column, row))
        return Box(x_px=x, y_px=y, w_px=self.side_px, h_px=self.side_px)

    def ground_boxes(self) -> tuple[Box, ...]:
        """The ground on all four sides: left, right, above, below."""
        height, width, gap = *self.size_px, self.gap_px
        return (
            Box(x_px=0, y_px=0, w_px=gap, h_px=height),
            Box(x_px=width - gap, y_px=0, w_px=gap, h_px=height),
            Box(x_px=gap, y_px=0, w_px=width - 2 * gap, h_px=gap),
            Box(x_px=gap, y_px=height - gap, w_px=width - 2 * gap, h_px=gap),
        )

    @property
    def size_px(self) -> tuple[int, int]:
        """Height and width."""
        rows = -(-len(self.things) // self.across)
        step = self.side_px + self.gap_px
        return rows * step + self.gap_px, self.across * step + self.gap_px


@dataclass(frozen=True, kw_only=True)
class Faults:
    """What a real photo adds; each a share of light unless said otherwise."""

    fall: float = 0.0
    """How much less light there is at the right than at the left."""
    vignette: float = 0.0
    """How much less light the corners get than the middle."""
    texture: float = 0.0
    """Relative spread of light from thread to thread."""
    glints: float = 0.0
    """Share of points that shine white."""
    noise_code: float = 1.0
    """Spread of each code, of 255."""
    quality: int | None = 92
    """Of the JPEG; None to leave it as it is."""


def photograph(scene: Scene, shot: Shot, *, faults: Faults, rng: np.random.Generator) -> bytes:
    """The scene as a JPEG (a PNG if the quality is None)."""
    height, width = scene.size_px
    light = np.broadcast_to(light_of(scene.ground, shot), (height, width, 3)).copy()
    for number, each in enumerate(light_of(scene.things, shot)):
        box = scene.box(number)
        part = light[box.y_px : box.y_px + box.h_px, box.x_px : box.x_px + box.w_px]
        part[:] = each
        if faults.texture:
            threads = rng.standard_normal((box.h_px, box.w_px, 1))
            part *= np.exp(faults.texture * threads - faults.texture**2 / 2)
        if faults.glints:
            part[rng.random((box.h_px, box.w_px)) < faults.glints] = 1.0
    y, x = np.mgrid[0:height, 0:width]
    across, down = 2 * x / width - 1, 2 * y / height - 1
    even = (1 - faults.fall * (across + 1) / 2) * (1 - faults.vignette * (across**2 + down**2) / 2)
    code = 255 * bent(light * even[..., None], shot.curve) + rng.normal(0, faults.noise_code, light.shape)
    return written(np.clip(np.round(code), 0, 255).astype(np.uint8), quality=faults.quality)


def written(code: np.ndarray, *, quality: int | None) -> bytes:
    """A picture as a file, with the notes of a camera in open shade."""
    notes, out = Image.Exif(), BytesIO()
    notes[ExifTags.Base.Model] = "Phone 7"
    details = notes.get_ifd(ExifTags.IFD.Exif)
    shade = {"ExposureTime": 1 / 250, "FNumber": 1.8, "ISOSpeedRatings": 20, "ColorSpace": 1}
    for name, value in shade.items():
        details[getattr(ExifTags.Base, name)] = value
    made = Image.fromarray(code)
    if quality is None:
        made.save(out, "PNG", exif=notes)
    else:
        made.save(out, "JPEG", quality=quality, exif=notes)
    return out.getvalue()
