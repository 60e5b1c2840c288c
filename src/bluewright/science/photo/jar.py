"""The jar test and the two-light test: light lost in red, green and blue against a jar of water in the same photo.

    A_c = -log10(light_c of the liquor / light_c of the water)
    dye index D = A_R - A_G          yellow index = A_B - A_R

Brown tails, yellow bands and the scatter of any haze all fall with the wavelength, so that D <= 0; only a blue dye
takes more red than green. A_R / A_B is not used: a grey haze brings it to 1 without any dye. A haze without dye is blue
before black when lit from the side (Tyndall): that look alone is no evidence of blue.
"""

from __future__ import annotations

from typing import Any, Final

import numpy as np

from bluewright.science.base.bands import Band, band
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.spaces import chroma_of_lab, hue_deg_of_lab, lab_of_linear
from bluewright.science.photo.jar_course import Course, course_of, turbid_frac
from bluewright.science.photo.jar_light import LEAST_LINEAR, STRAY_LINEAR, Drawn, drawn, linear_of
from bluewright.science.photo.jar_record import CHANNELS, JarAnswer, JarFound, JarRecord, JarSeen
from bluewright.science.photo.jar_verdict import cautions, verdict

DRAWS: Final = 2000


def jar_look(record: JarRecord, *, rng: np.random.Generator) -> JarAnswer:
    """What a jar of liquor says against a jar of water, look by look.

    Formula: A = -log10(light through the liquor / light through water) in each channel, D = A_R - A_G. The spread is
    that of two jars in one photo (light, tint, stray light), not that of points within a box.

    Raises InputError (from the record) for colours that cannot be. Source: Lambert and Beer, in the wide channels of a
    camera (so a pseudo-absorbance); the decision rules are judgements from simulated spectra (docs/method/jar-test.md).
    """
    stray = STRAY_LINEAR.draw(rng, DRAWS)
    seen = [drawn(look, record.colours, stray_linear=stray, rng=rng) for look in record.looks]
    along = course_of(seen)
    found = tuple(_found(one, record.colours) for one in seen)
    said, blue_chance = verdict(seen, found, along)
    return JarAnswer(
        id=record.id,
        verdict=said,
        blue_chance=round(blue_chance, 3),
        looks=found,
        **_series(along),
        turbid_frac=_band(turbid_frac(seen)),
        inputs=record,
        cautions=cautions(record, found, said, along),
        sources=("common-practice", "iec-61966-2-1"),
    )


def _found(one: Drawn, notation: str) -> JarFound:
    look, dark = one.seen, one.dark
    red, green, blue = (None if dark[k] else band(one.absorbance[:, k]) for k in range(3))
    per_cm = look.dilution_factor / look.path_cm
    return JarFound(
        after_min=look.after_min,
        stood=look.stood,
        too_dark=tuple(name for name, is_dark in zip(CHANNELS, dark, strict=True) if is_dark),
        red=red,
        green=green,
        blue=blue,
        dye_index=_band(one.dye),
        yellow_index=_band(one.yellow),
        dye_index_per_cm=None if one.dye is None else band(one.dye * per_cm),
        hue_deg=None if any(dark[:2]) else around(one.hue_deg),
        **_over_black(look, notation),
        **_foam(look, notation),
    )


def around(hue_deg: Floats) -> Band:
    """The band of an angle: unrolled about its mean direction, so that 359 and 1 lie beside each other."""
    turn = np.radians(hue_deg)
    middle = float(np.degrees(np.arctan2(np.mean(np.sin(turn)), np.mean(np.cos(turn)))) % 360.0)
    return band(middle + (hue_deg - middle + 180.0) % 360.0 - 180.0)


def _over_black(look: JarSeen, notation: str) -> dict[str, Any]:
    if look.over_black is None:
        return {}
    light = np.maximum(linear_of(look.over_black, notation), LEAST_LINEAR)
    return {
        "over_black_hue_deg": round(float(hue_deg_of_lab(lab_of_linear(light))), 1),
        "over_black_blue_factor": round(float(light[2] / light[0]), 3),
    }


def _foam(look: JarSeen, notation: str) -> dict[str, Any]:
    if look.foam is None:
        return {"foam_blue_frac": look.foam_blue_frac}
    lab = lab_of_linear(linear_of(look.foam, notation))
    return {
        "foam_hue_deg": round(float(hue_deg_of_lab(lab)), 1),
        "foam_chroma": round(float(chroma_of_lab(lab)), 1),
        "foam_blue_frac": look.foam_blue_frac,
    }


def _series(along: Course) -> dict[str, Any]:
    """The fields about how it went after the dose."""
    return {
        "turn_to_yellow": _band(along.turn_to_yellow),
        "dye_rise": _band(along.dye_rise),
        "dye_rise_per_h": _band(along.dye_rise_per_h),
        "course": along.course,
        "level_chance": None if along.level_chance is None else round(along.level_chance, 3),
    }


def _band(samples: Floats | None) -> Band | None:
    return None if samples is None else band(samples)
