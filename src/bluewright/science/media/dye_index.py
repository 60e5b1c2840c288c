"""How blue liquor with indigo in it looks in a jar: the dye index of a photo for what stands in a litre.

    D = gain * indigo + base        for each centimetre of undiluted liquor

D is the light lost in red minus that lost in green, as logarithms, against water (`photo`). Particles of indigo in
water take far less light than dissolved indigo, by how fine they are: the gain is known to a factor of
two or three only. So the height of D says little; its course says much.
"""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.media.stoichiometry import MOLAR_MASS_G_PER_MOL

DYE_L_PER_G_CM: Final = Prior(
    kind="lognormal", centre=7.5, spread=0.9, unit="L/(g cm)", source="common-practice", grade="guess",
    note="dissolved indigo takes 84 L/(g cm) at 610 nm, three quarters of it beyond green; particles in water about "
    "an eighth of that, more or less by their size",
)  # fmt: skip
BASE_PER_CM: Final = Prior(
    kind="normal", centre=-0.03, spread=0.03, unit="1/cm", source="common-practice", grade="guess",
    note="brown, yellow and haze of a liquor without blue: D of -0.1 to -0.3 in a jar of 6 cm (simulated spectra)",
)  # fmt: skip
READING_SD_PER_CM: Final = Sourced(
    value=0.02, unit="1/cm", source="common-practice", low=0.003, high=0.2, grade="guess",
    note="of one photo of a jar of 6 cm without its own spread; times the dilution where it was thinned",
)  # fmt: skip
READING_SD_FRAC: Final = Sourced(
    value=0.15, unit="1", source="common-practice", low=0.05, high=0.3, grade="guess",
    note="of the blue part: what was dipped out, and how long it stood before the photo",
)  # fmt: skip
INDIGO_G_PER_MMOL_INDOXYL: Final = MOLAR_MASS_G_PER_MOL["indigo"] / 2000.0
"""Two indoxyls make one indigo."""


def dye_index_per_cm(indigo_g_per_l: Floats, *, gain_z: Floats, base_z: Floats) -> Floats:
    """Dye index of undiluted liquor for each centimetre, with so much indigo formed and afloat in a litre.

    Formula: D = gain g + base, at the standard-normal scores of both. Shapes: those of the arguments together.
    """
    return DYE_L_PER_G_CM.from_z(gain_z) * indigo_g_per_l + BASE_PER_CM.from_z(base_z)
