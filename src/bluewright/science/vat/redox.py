"""What gives electrons to indigo and to oxygen: half reactions, written so that atoms and charges can be counted.

    indigo + 2 e -> leuco ion (2-)            O2 + 2 H2O + 4 e -> 4 OH-

A reductant that meets indigo stops at sulphite, a sugar acid or ferric hydroxide; the same, meeting oxygen, may go
further.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from bluewright.science.base.sourced import Prior
from bluewright.science.media.stoichiometry import molar_mass_g_per_mol

ReductantName = Literal["dithionite", "thiourea_dioxide", "fructose", "ferrous_sulphate"]
Opened = Literal["sealed", "opened", "old"]
"""`sealed` until now, `opened` and closed well for weeks, `old`: damp, lumpy, or open for a year."""

SPECIES: Final[dict[str, tuple[str, int]]] = {
    "indigo": ("C16H10N2O2", 0),
    "leuco": ("C16H10N2O2", -2),
    "oxygen": ("O2", 0),
    "water": ("H2O", 0),
    "hydroxide": ("OH", -1),
    "dithionite": ("S2O4", -2),
    "sulphite": ("SO3", -2),
    "sulphate": ("SO4", -2),
    "thiourea_dioxide": ("CH4N2O2S", 0),
    "urea": ("CH4N2O", 0),
    "fructose": ("C6H12O6", 0),
    "sugar_acid": ("C6H11O7", -1),
    "ferrous": ("Fe", 2),
    "ferric_hydroxide": ("FeO3H3", 0),
}
"""Formula without charge, and charge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """One half reaction: counts of what it uses and makes; `electrons` are made (given) if positive."""

    uses: dict[str, int]
    makes: dict[str, int]
    electrons: int


TO_LEUCO: Final = Half(uses={"indigo": 1}, makes={"leuco": 1}, electrons=-2)
TO_WATER: Final = Half(uses={"oxygen": 1, "water": 2}, makes={"hydroxide": 4}, electrons=-4)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reductant:
    """One reductant as data.

    `sold` is the formula as sold, with its sodium or its water; `to_indigo` and `to_air` what a molecule does when it
    meets indigo and when it meets oxygen; `kept`: the share that still reduces, by how it was kept.
    """

    words: str
    sold: str
    to_indigo: Half
    to_air: Half
    kept: dict[Opened, Prior]

    @property
    def molar_g_per_mol(self) -> float:
        """Grams of a mole as sold, if it were pure."""
        return molar_mass_g_per_mol(self.sold)

    @property
    def mol_per_indigo(self) -> float:
        """Moles that reduce a mole of indigo, no more (no unit)."""
        return -TO_LEUCO.electrons / self.to_indigo.electrons

    @property
    def mol_per_oxygen(self) -> float:
        """Moles that a mole of oxygen uses up (no unit)."""
        return -TO_WATER.electrons / self.to_air.electrons


def _kept(centre: float, spread: float, note: str) -> Prior:
    return Prior(
        kind="logitnormal",
        centre=centre,
        spread=spread,
        unit="1",
        source="common-practice",
        grade="practice",
        note=note,
    )


_SUGAR: Final = Half(uses={"fructose": 1, "hydroxide": 3}, makes={"sugar_acid": 1, "water": 2}, electrons=2)
_IRON: Final = Half(uses={"ferrous": 1, "hydroxide": 3}, makes={"ferric_hydroxide": 1}, electrons=1)

REDUCTANTS: Final[dict[ReductantName, Reductant]] = {
    "dithionite": Reductant(
        words="sodium dithionite", sold="Na2S2O4",
        to_indigo=Half(uses={"dithionite": 1, "hydroxide": 4}, makes={"sulphite": 2, "water": 2}, electrons=2),
        to_air=Half(
            uses={"dithionite": 1, "hydroxide": 6}, makes={"sulphite": 1, "sulphate": 1, "water": 3}, electrons=4
        ),
        kept={
            "sealed": _kept(0.87, 0.2, "sold as 85 to 90 %"),
            "opened": _kept(0.75, 0.5, "draws water from damp air"),
            "old": _kept(0.45, 1.0, "anything from dead to usable: try it on a cup of vat"),
        },
    ),
    "thiourea_dioxide": Reductant(
        words="thiourea dioxide", sold="CH4N2O2S",
        to_indigo=Half(
            uses={"thiourea_dioxide": 1, "hydroxide": 4}, makes={"urea": 1, "sulphite": 1, "water": 2}, electrons=2
        ),
        to_air=Half(
            uses={"thiourea_dioxide": 1, "hydroxide": 6}, makes={"urea": 1, "sulphate": 1, "water": 3}, electrons=4
        ),
        kept={
            "sealed": _kept(0.98, 0.4, "sold as 98 % or more"),
            "opened": _kept(0.95, 0.5, "keeps well if dry and cool"),
            "old": _kept(0.80, 0.8, "damp or warm for a year"),
        },
    ),
    "fructose": Reductant(
        words="fructose", sold="C6H12O6", to_indigo=_SUGAR, to_air=_SUGAR,
        kept={
            "sealed": _kept(0.99, 0.3, "food grade"),
            "opened": _kept(0.98, 0.4, "cakes, but keeps"),
            "old": _kept(0.96, 0.5, "cakes, but keeps"),
        },
    ),
    "ferrous_sulphate": Reductant(
        words="ferrous sulphate crystals", sold="FeSO11H14", to_indigo=_IRON, to_air=_IRON,
        kept={
            "sealed": _kept(0.98, 0.4, "green crystals with seven waters"),
            "opened": _kept(0.93, 0.5, "yellow crust: some has rusted"),
            "old": _kept(0.75, 0.8, "brown or white: rusted, or dried and then stronger by weight"),
        },
    ),
}  # fmt: skip
"""By name. As sold: sodium salt, plain, plain, heptahydrate."""
