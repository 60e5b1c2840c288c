"""How much precursor does a kilogram of leaf hold when it goes into the water?

Content of ordinary leaf in season, by plant, times factors for leaf age, season, damage and the hours since picking.
Sources disagree up to tenfold (other accessions, other methods, another reckoning of 'indigo'), and no factor has been
measured well: all are wide, graded, and independent. Not here: what becomes of it (`steep`, `leaf.potential`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.media.basket import Age, LeafState, Plant

CONTENT: Final[dict[Plant, Prior]] = {
    "woad": Prior(
        kind="lognormal", centre=25.0, spread=0.7, unit="mmol/kg", source="bluewright-leaf", grade="fitted",
        note="isatans and indican together; between the sources in PUBLISHED_CONTENT and what yields allow",
    ),
    "japanese_indigo": Prior(
        kind="lognormal", centre=28.0, spread=0.6, unit="mmol/kg", source="bluewright-leaf", grade="fitted",
        note="indican; yields of 3-4 g/kg leaf and contents of 1-5 % of dry matter",
    ),
    "indigofera": Prior(
        kind="lognormal", centre=35.0, spread=0.7, unit="mmol/kg", source="bluewright-leaf", grade="memory",
        note="indican; leaf without stems, 20-60 g/kg of dry matter at 25 % dry matter",
    ),
}  # fmt: skip
"""Precursor in fresh leaf of mixed age in its season, millimoles of indoxyl units a kilogram."""

PUBLISHED_CONTENT: Final[dict[Plant, tuple[Sourced, ...]]] = {
    "woad": (
        Sourced(
            value=11.3, unit="mmol/kg", source="rocha-2011", low=4.0, high=32.0, grade="measured",
            note="11 accessions: isatan B 0.5-5.1 and indoxyl 0.3-2.0 g/kg fresh; value: geometric middle",
        ),
        Sourced(
            value=98.0, unit="mmol/kg", source="kokubun-1998", low=55.0, high=98.0, grade="measured",
            note="young leaf 24 % of dry matter at 3:1, old leaf up to 14 %; at 12.5 % dry matter; probably high",
        ),
        Sourced(
            value=32.0, unit="mmol/kg", source="comlekcioglu-2015", low=19.0, high=32.0, grade="measured",
            note="4.19 mg/g recovered as indigo (I. candolleana 2.53)",
        ),
    ),
    "japanese_indigo": (
        Sourced(
            value=5.3, unit="mmol/kg", source="hartl-vogl-2003", low=2.7, high=7.9, grade="measured",
            note="indican 0.50-1.45 % of dry matter (whole herb), at 16 % dry matter",
        ),
        Sourced(
            value=27.0, unit="mmol/kg", source="bluewright-leaf", low=23.0, high=31.0, grade="memory",
            note="3-4 g indigo from a kilogram of leaf, an encyclopaedia's figure, as if nothing were lost",
        ),
    ),
    "indigofera": (
        Sourced(
            value=35.0, unit="mmol/kg", source="bluewright-leaf", low=17.0, high=51.0, grade="memory",
            note="indican 20-60 g/kg of dry leaf at 25 % dry matter",
        ),
    ),
}  # fmt: skip
"""What single sources say of the content, mmol/kg fresh leaf: their disagreement is why the prior is wide."""

GOT_FRAC: Final = Prior(
    kind="logitnormal", centre=0.38, spread=0.55, unit="1", source="hu-2022", grade="fitted",
    note="22 and 52 % of theory from Strobilanthes, 14 % from medieval woad balls; 20 to 60 % with care",
)  # fmt: skip
"""Share of the potential that ends in the jar as pure indigo."""

AGE: Final[dict[Age, Prior]] = {
    "young": Prior(
        kind="lognormal", centre=1.2, spread=0.15, unit="1", source="kokubun-1998", grade="fitted",
        note="old to young about 0.6 in woad (14 against 24 % of dry matter); taken for the others too",
    ),
    "mixed": Prior(kind="lognormal", centre=1.0, spread=0.0, unit="1", source="kokubun-1998", grade="exact"),
    "old": Prior(kind="lognormal", centre=0.7, spread=0.2, unit="1", source="kokubun-1998", grade="fitted"),
}  # fmt: skip
"""Factor on the content by leaf age, against leaf of mixed age."""

SEASON_BEST: Final[dict[Plant, Sourced]] = {
    "woad": Sourced(
        value=190.0, unit="d", source="comlekcioglu-2015", low=166.0, high=235.0, grade="fitted",
        note="highest in mid June in Turkey; July and August in Britain (practice)",
    ),
    "japanese_indigo": Sourced(
        value=222.0, unit="d", source="bluewright-leaf", low=200.0, high=245.0, grade="fitted",
        note="August above July and October; falls once flowering has begun",
    ),
    "indigofera": Sourced(
        value=210.0, unit="d", source="bluewright-leaf", low=120.0, high=280.0, grade="guess", note="no source found"
    ),
}  # fmt: skip
"""Day of year at which the content is highest, northern hemisphere."""

SEASON_WIDTH_D: Final[dict[Plant, Prior]] = {
    "woad": Prior(
        kind="lognormal", centre=95.0, spread=0.25, unit="d", source="bluewright-leaf", grade="guess",
        note="picked from late June to the first of November in the old trade: still worth it at the end",
    ),
    "japanese_indigo": Prior(
        kind="lognormal", centre=65.0, spread=0.25, unit="d", source="bluewright-leaf", grade="guess",
        note="a third cut in autumn is very low (practice)",
    ),
    "indigofera": Prior(
        kind="lognormal", centre=150.0, spread=0.4, unit="d", source="bluewright-leaf", grade="guess"
    ),
}  # fmt: skip
"""Days from the best day to where the content has fallen to 0.61 of its best (a bell curve)."""
SEASON_UNKNOWN_D: Final = Sourced(
    value=45.0, unit="d", source="common-practice", low=30.0, high=70.0, grade="guess",
    note="with no day given, the picking is taken as this far from the best day, one standard deviation",
)  # fmt: skip
SEASON_STUDIED_D: Final = Sourced(
    value=120.0, unit="d", source="common-practice", low=90.0, high=150.0, grade="practice",
    note="beyond so many days from the best day nobody picks, and no source says anything",
)  # fmt: skip

DAMAGE: Final = Prior(
    kind="normal", centre=-0.1, spread=0.3, unit="1", source="bluewright-leaf", grade="guess",
    note="log of content, wholly damaged over sound leaf; no measurement on mildew, rust or feeding was found",
)  # fmt: skip
"""Natural log of the factor for leaf whose whole area is damaged; scaled by the damaged share."""

STORAGE_LOSS_PER_H: Final[dict[Plant, Prior]] = {
    "woad": Prior(
        kind="lognormal", centre=0.003, spread=0.7, unit="1/h", source="mocquard-2023", grade="fitted",
        note="'relatively stable until three days after harvest'",
    ),
    "japanese_indigo": Prior(
        kind="lognormal", centre=0.02, spread=0.6, unit="1/h", source="hu-2022", grade="guess",
        note="sensitive to storage; the rate is judged after Strobilanthes leaf",
    ),
    "indigofera": Prior(
        kind="lognormal", centre=0.02, spread=0.8, unit="1/h", source="hu-2022", grade="guess",
        note="as for Japanese indigo, for want of a figure",
    ),
}  # fmt: skip
"""Share lost in an hour between picking and water, leaf loose and cool at 20 C."""
STORAGE_Q10: Final = Prior(
    kind="lognormal", centre=2.2, spread=0.15, unit="1", source="bluewright-leaf", grade="guess",
    note="each 10 C warmer speeds the loss so many times",
)  # fmt: skip
WILTED: Final = Prior(
    kind="lognormal", centre=3.0, spread=0.3, unit="1", source="bluewright-leaf", grade="guess",
    note="loss is faster in leaf that is wilted, bruised or heaped until it warms",
)  # fmt: skip
STORAGE_STUDIED_H: Final[dict[Plant, Sourced]] = {
    "woad": Sourced(value=72.0, unit="h", source="mocquard-2023", low=48.0, high=96.0, grade="measured"),
    "japanese_indigo": Sourced(value=24.0, unit="h", source="common-practice", low=12.0, high=48.0, grade="guess"),
    "indigofera": Sourced(value=24.0, unit="h", source="common-practice", low=12.0, high=48.0, grade="guess"),
}
"""Hours from picking up to which anything is known of the loss."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PrecursorDraws:
    """Draws of the content and of each factor on it; all arrays have shape (n,)."""

    sound_mmol_per_kg: Floats
    """Ordinary sound leaf in season, just picked."""
    age_factor: Floats
    season_factor: Floats
    damage_factor: Floats
    kept_frac: Floats
    """Share still there after the hours held."""
    loss_per_h: Floats
    """Share lost with each further hour."""

    @property
    def mmol_per_kg(self) -> Floats:
        """Precursor in the leaf as it goes into the water."""
        whole = self.sound_mmol_per_kg * self.age_factor * self.season_factor
        return np.asarray(whole * self.damage_factor * self.kept_frac)


def draw_precursor(
    plant: Plant,
    *,
    leaf: LeafState,
    day_of_year: int | None,
    held_temp_c: float,
    rng: np.random.Generator,
    n: int,
    wilted: bool = False,
) -> PrecursorDraws:
    """`n` draws of the content of the leaf and of what bears on it.

    Formula: content * age * exp(-(d/w)^2 / 2) * exp(damaged_frac * D) * exp(-k h), with d the days from the
    best day, w the width of the season, D the log factor of damage, k = k20 * Q10^((T - 20)/10) and h the hours
    held at `held_temp_c`. `day_of_year` is that of the northern hemisphere (None: in season, day not known).
    """
    z = rng.standard_normal((8, n))
    loss_per_h = STORAGE_LOSS_PER_H[plant].from_z(z[0]) * STORAGE_Q10.from_z(z[1]) ** ((held_temp_c - 20.0) / 10.0)
    if wilted:
        loss_per_h = loss_per_h * WILTED.from_z(z[2])
    away_d = SEASON_UNKNOWN_D.value * z[3] if day_of_year is None else days_from_best(plant, day_of_year=day_of_year)
    return PrecursorDraws(
        sound_mmol_per_kg=CONTENT[plant].from_z(z[4]),
        age_factor=AGE[leaf.age].from_z(z[5]),
        season_factor=np.exp(-0.5 * (away_d / SEASON_WIDTH_D[plant].from_z(z[6])) ** 2),
        damage_factor=np.exp(leaf.damaged_frac * DAMAGE.from_z(z[7])),
        kept_frac=np.exp(-loss_per_h * leaf.held_h),
        loss_per_h=1.0 - np.exp(-loss_per_h),
    )


def draw_mmol_per_kg(
    plant: Plant,
    *,
    leaf: LeafState,
    day_of_year: int | None,
    held_temp_c: float,
    rng: np.random.Generator,
    n: int,
) -> Floats:
    """`n` draws of the precursor in the leaf as it goes into the water, mmol/kg fresh, shape (n,).

    Formula and arguments as in `draw_precursor`.
    """
    found = draw_precursor(plant, leaf=leaf, day_of_year=day_of_year, held_temp_c=held_temp_c, rng=rng, n=n)
    return found.mmol_per_kg


def days_from_best(plant: Plant, *, day_of_year: int) -> float:
    """Days between `day_of_year` and the plant's best day, the shorter way round the year."""
    apart = abs(day_of_year - SEASON_BEST[plant].value) % 365.25
    return min(apart, 365.25 - apart)
