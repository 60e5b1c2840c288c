"""Colour and depth of a spectrum of reflectance, with the noise of the instrument carried through."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.colour.depth import INDIGO_NM, LEAST_REFLECTANCE, dye_k_over_s, k_over_s, red_k_over_s_of_lab
from bluewright.science.colour.hues import hue_of, shade_of
from bluewright.science.colour.reflectance_record import (
    FROM_NM,
    TO_NM,
    ReflectanceAnswer,
    ReflectanceRecord,
    Reflected,
)
from bluewright.science.colour.spaces import chroma_of_lab, hue_deg_of_lab, lab_of_xyz
from bluewright.science.colour.spectrum import at_nm, at_table_wavelengths, xyz_of_spectrum
from bluewright.science.colour.whiteness import holds, tint, whiteness

DRAWS = 600
SURFACE_FACTOR: Final = Sourced(
    value=0.05, unit="1", source="common-practice", low=0.04, high=0.06, grade="practice",
    note="reflectance below which light from the bare surface of the cloth, some 0.004 to 0.04, makes K/S too small",
)  # fmt: skip


def reflectance(record: ReflectanceRecord, *, rng: np.random.Generator) -> ReflectanceAnswer:
    """Lab (D65, 2 degree), words, K/S at 660 nm and, near white, whiteness of a spectrum.

    Readings are drawn with the noise of each and one error of the instrument's white for all; the undyed ground shares
    that error. Raises InputError (from the record) for per cent, 1/cm, gaps and the like. Sources: CIE 15:2004;
    Kubelka and Munk 1931.
    """
    white = 1.0 + record.scale_sd_frac * rng.standard_normal((DRAWS, 1))
    draws = _drawn(record.points, record, white, rng)
    xyz = xyz_of_spectrum(at_table_wavelengths(_nm(record.points), draws))
    labs = lab_of_xyz(xyz)
    at = _nm(record.points)
    read = _read(record.points)
    xyz_read = xyz_of_spectrum(at_table_wavelengths(at, read))
    lab = lab_of_xyz(xyz_read)
    middle_deg = float(hue_deg_of_lab(lab))
    deep = k_over_s(at_nm(INDIGO_NM.value, wavelength_nm=at, reflectance_frac=draws))
    near_white = holds(xyz_read)
    seen = [(factor, nm) for nm, factor in zip(at, read, strict=True) if FROM_NM <= nm <= TO_NM]
    return ReflectanceAnswer(
        id=record.id,
        lab=_three(lab),
        lab_sd=_three(np.std(labs, axis=0)),
        hue=hue_of(lab),
        shade=shade_of(lab),
        hue_deg=band(middle_deg + (hue_deg_of_lab(labs) - middle_deg + 180.0) % 360.0 - 180.0),
        chroma=band(chroma_of_lab(labs)),
        k_over_s=band(deep),
        dye_k_over_s=band(dye_k_over_s(deep, ground=_ground(record, white, rng))) if record.ground else None,
        red_k_over_s=band(red_k_over_s_of_lab(labs)),
        darkest_nm=float(min(seen)[1]),
        whiteness=band(whiteness(xyz)) if near_white else None,
        tint=band(tint(xyz)) if near_white else None,
        basis="readings",
        inputs=record,
        cautions=tuple(_cautions(record, float(min(seen)[0]), float(np.median(deep)))),
        sources=("cie-15-2004", "cie-018-2019", "kubelka-munk-1931", "common-practice"),
    )


def _nm(points: tuple[Reflected, ...]) -> Floats:
    return np.array([point.wavelength_nm for point in points])


def _read(points: tuple[Reflected, ...]) -> Floats:
    return np.array([point.reflectance_factor for point in points])


def _drawn(points: tuple[Reflected, ...], record: ReflectanceRecord, white: Floats, rng: np.random.Generator) -> Floats:
    noise = record.noise_sd * rng.standard_normal((DRAWS, len(points)))
    return np.asarray(np.maximum(_read(points) * white + noise, 0.0))


def _ground(record: ReflectanceRecord, white: Floats, rng: np.random.Generator) -> Floats:
    draws = _drawn(record.ground, record, white, rng)
    return k_over_s(at_nm(INDIGO_NM.value, wavelength_nm=_nm(record.ground), reflectance_frac=draws))


def _three(values: Floats) -> tuple[float, float, float]:
    one, two, three = (significant(float(value)) for value in values)
    return one, two, three


def _cautions(record: ReflectanceRecord, least_factor: float, deep: float) -> Iterator[Caution]:
    at_peak = float(at_nm(INDIGO_NM.value, wavelength_nm=_nm(record.points), reflectance_frac=_read(record.points)))
    if at_peak < SURFACE_FACTOR.value:
        most = float(k_over_s(LEAST_REFLECTANCE.value))
        yield caution(
            "depth-hidden",
            f"Only {100 * at_peak:.1f}% comes back at {INDIGO_NM.value:.0f} nm, some of it from the bare surface: the "
            f"depth of {deep:.0f} is the least it can be, and none above {most:.0f} is told.",
        )
    if max(point.reflectance_factor for point in record.points) > 1.0:
        yield caution(
            "brightened",
            "It sends back more than white at some wavelength: brightener glows in it, or the instrument's white is "
            "off. Its colour changes with the light.",
        )
    if least_factor == 0.0:
        yield caution(
            "reads-nothing",
            "The instrument reads nothing at some wavelength, which no cloth does: was its black taken with light on?",
        )
