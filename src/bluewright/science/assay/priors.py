"""What is taken as known of indigo in solution, of weighing and diluting, and of how pure pigment gets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.media.stoichiometry import MOLAR_MASS_G_PER_MOL

Solvent = Literal["dmf", "dmso", "chloroform", "pyridine", "sulphuric_acid", "other"]

INDIGO_G_PER_MOL: Final = MOLAR_MASS_G_PER_MOL["indigo"]
CARMINE_G_PER_MOL: Final = Sourced(
    value=466.36, unit="g/mol", source="jecfa-indigotine", low=466.3, high=466.4, grade="measured",
    note="disodium salt of indigo disulphonic acid (indigo carmine)",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class InSolvent:
    """Indigo in one solvent: where it absorbs most, and how much; None where no figure was found."""

    peak_nm: Sourced
    l_per_g_cm: Prior | None


def _peak(value: float, source: str, note: str = "") -> Sourced:
    return Sourced(value=value, unit="nm", source=source, low=value - 6, high=value + 6, grade="memory", note=note)


def _absorptivity(centre: float, spread: float, source: str, note: str) -> Prior:
    return Prior(
        kind="lognormal", centre=centre, spread=spread, unit="L/(g cm)", source=source, grade="memory", note=note
    )


LITERATURE: Final[dict[Solvent, InSolvent]] = {
    "dmf": InSolvent(
        peak_nm=_peak(610.0, "seixas-2004"),
        l_per_g_cm=_absorptivity(22140.0 / INDIGO_G_PER_MOL, 0.10, "seixas-2004", "22 140 in a mole; not re-read"),
    ),
    "dmso": InSolvent(
        peak_nm=_peak(619.5, "common-practice"),
        l_per_g_cm=_absorptivity(80.0, 0.12, "common-practice", "19 000 to 22 500 in a mole"),
    ),
    "chloroform": InSolvent(
        peak_nm=_peak(604.0, "common-practice"),
        l_per_g_cm=_absorptivity(64.0, 0.12, "common-practice", "16 600 to 17 000 in a mole"),
    ),
    "pyridine": InSolvent(peak_nm=_peak(613.0, "common-practice"), l_per_g_cm=None),
    "sulphuric_acid": InSolvent(
        peak_nm=_peak(610.0, "eu-231-2012", "sulphonated, diluted with water"),
        l_per_g_cm=_absorptivity(
            48.0 * CARMINE_G_PER_MOL.value / INDIGO_G_PER_MOL, 0.10, "eu-231-2012",
            "480 for 1 % of indigo carmine; published figures of sulphonated indigo run from 20 000 to 23 800",
        ),
    ),
    "other": InSolvent(peak_nm=_peak(610.0, "common-practice"), l_per_g_cm=None),
}  # fmt: skip
"""Absorptivity of indigo by solvent, litres for a gram and a centimetre. A standard of one's own is better."""

INDIRUBIN_L_PER_G_CM: Final = Prior(
    kind="lognormal", centre=40.0, spread=0.5, unit="L/(g cm)", source="common-practice", grade="memory",
    note="about 10 000 in a mole; no figure was found: of the order of it only",
)  # fmt: skip
INDIRUBIN_PEAK_NM: Final = Prior(
    kind="normal", centre=545.0, spread=4.0, unit="nm", source="common-practice", grade="memory",
    note="540 to 551 in DMF and DMSO",
)  # fmt: skip


def _width(centre: float, note: str) -> Prior:
    return Prior(
        kind="lognormal", centre=centre, spread=0.08, unit="nm", source="common-practice", grade="guess", note=note
    )


INDIGO_WIDTHS_NM: Final = (
    _width(45.0, "towards the violet: leaves 0.30 of the peak at 70 nm"),
    _width(27.0, "towards the red"),
)
INDIRUBIN_WIDTHS_NM: Final = (
    _width(50.0, "towards the violet"),
    _width(27.0, "towards the red: leaves 0.05 of the peak under indigo's"),
)
"""Half widths (standard deviations) of a band drawn as two halves of a bell, before a standard has shown its shape."""
PEAK_SD_NM: Final = Sourced(
    value=2.0, unit="nm", source="common-practice", low=1.0, high=4.0, grade="practice",
    note="how far the wavelength of an instrument, and the top of a broad band, may be off",
)  # fmt: skip

SCATTER_SHARE: Final = Prior(
    kind="logitnormal", centre=0.5, spread=1.5, unit="1", source="common-practice", grade="guess",
    note="haze goes by wavelength to the power -n: n as a share of 4, which the finest grains have; coarse ones 0",
)  # fmt: skip
MOST_EXPONENT: Final = Sourced(
    value=4.0, unit="1", source="common-practice", low=4.0, high=4.0, grade="exact",
    note="no grains scatter more steeply than those far smaller than the wavelength",
)  # fmt: skip


def _error(value: float, note: str) -> Sourced:
    return Sourced(
        value=value, unit="1", source="common-practice", low=0.3 * value, high=3 * value, grade="practice", note=note
    )


VOLUME_SD: Final = _error(0.01, "a measured volume, or one dilution, with pipette and flask")
PHOTOMETER_SD: Final = _error(0.01, "scale of absorbance of a bench instrument")
DISSOLVED_SD: Final = _error(0.03, "indigo that did not dissolve, or fell out again")
DISSOLVED_BESIDE_SD: Final = _error(0.02, "the same beside a standard that was treated alike")
BACKGROUND_SD: Final = _error(0.03, "other coloured matter under the band that no haze curve follows")
BACKGROUND_BESIDE_SD: Final = _error(0.02, "the same with a standard's own spectrum as the shape")
BEER_FROM: Final = Sourced(
    value=0.2, unit="1", source="common-practice", low=0.1, high=0.3, grade="practice", note="absorbance at the peak"
)
BEER_TO: Final = Sourced(
    value=0.9, unit="1", source="common-practice", low=0.8, high=1.2, grade="practice", note="absorbance at the peak"
)
HALVES_WITHIN: Final = Sourced(
    value=0.02, unit="1", source="common-practice", low=0.01, high=0.05, grade="practice",
    note="a solution diluted to half must read half, give or take this",
)  # fmt: skip

CHECK_ABOVE_PCT: Final = Sourced(
    value=60.0, unit="%", source="hartl-2024", low=56.0, high=65.0, grade="measured",
    note="the best plant indigo found there held 56 %: beyond 60 the method is asked first",
)  # fmt: skip
