"""The most blue that a basket can give."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.bands import band
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.published import figure_of
from bluewright.science.base.sourced import Sourced
from bluewright.science.leaf.record import Effect, PotentialAnswer, PotentialRecord
from bluewright.science.leaf.yields import PUBLISHED_YIELDS
from bluewright.science.media.air_temp import northern_day
from bluewright.science.media.precursor import (
    GOT_FRAC,
    PUBLISHED_CONTENT,
    SEASON_STUDIED_D,
    STORAGE_STUDIED_H,
    PrecursorDraws,
    days_from_best,
    draw_mmol_per_kg,
    draw_precursor,
)
from bluewright.science.media.stoichiometry import INDIGO_G_PER_MMOL_PRECURSOR

__all__ = ["draw_mmol_per_kg", "potential"]

DRAWS = 8000
SPENT_G_PER_KG: Final = Sourced(
    value=1e-6, unit="g/kg", source="bluewright-leaf", low=1e-9, high=1e-3, grade="guess",
    note="leaf that may hold less than this has spoiled: no mass of it gives a wanted gram",
)  # fmt: skip


def potential(record: PotentialRecord, *, rng: np.random.Generator) -> PotentialAnswer:
    """The most pure indigo that the basket can give, what waiting and damage cost, and what others got.

    Formula: grams = leaf_kg * precursor_mmol_per_kg * 0.1311 (two molecules of precursor to one of indigo).
    Sources: `media.precursor` for the content, `media.stoichiometry` for the factor, `leaf.yields` for the share got.
    """
    drawn = draw_precursor(
        record.plant,
        leaf=record.leaf,
        day_of_year=_northern_day(record),
        held_temp_c=record.held_temp_c,
        wilted=record.wilted,
        rng=rng,
        n=DRAWS,
    )
    per_kg = INDIGO_G_PER_MMOL_PRECURSOR * drawn.mmol_per_kg
    got_per_kg = GOT_FRAC.draw(rng, DRAWS) * per_kg
    spent = bool(np.min(per_kg) < SPENT_G_PER_KG.value)
    return PotentialAnswer(
        id=record.id,
        potential_g=band(record.leaf_kg * per_kg),
        potential_g_per_kg=band(per_kg),
        precursor_mmol_per_kg=band(drawn.mmol_per_kg),
        realistic_g=band(record.leaf_kg * got_per_kg),
        loss_per_h=band(drawn.loss_per_h),
        loss_next_h_g=band(record.leaf_kg * per_kg * drawn.loss_per_h),
        damage_cost_frac=band(1.0 - drawn.damage_factor),
        leaf_for_wanted_kg=None if record.wanted_g is None or spent else band(record.wanted_g / got_per_kg),
        effects=_effects(drawn),
        published_content=tuple(figure_of(found) for found in PUBLISHED_CONTENT[record.plant]),
        published_yields=tuple(figure_of(found) for found in PUBLISHED_YIELDS[record.plant]),
        basis="prior",
        inputs=record,
        cautions=_cautions(record, spent=spent),
        sources=_sources(record),
    )


def _northern_day(record: PotentialRecord) -> int | None:
    return None if record.picked_on is None else northern_day(record.picked_on, hemisphere=record.hemisphere)


def _effects(drawn: PrecursorDraws) -> tuple[Effect, ...]:
    return (
        Effect(name="age", factor=band(drawn.age_factor)),
        Effect(name="season", factor=band(drawn.season_factor)),
        Effect(name="damage", factor=band(drawn.damage_factor)),
        Effect(name="held", factor=band(drawn.kept_frac)),
    )


def _sources(record: PotentialRecord) -> tuple[str, ...]:
    cited = [found.source for table in (PUBLISHED_CONTENT, PUBLISHED_YIELDS) for found in table[record.plant]]
    return tuple(sorted({*cited, "bluewright-leaf", "iupac-atomic-weights-2021", GOT_FRAC.source}))


def _cautions(record: PotentialRecord, *, spent: bool) -> tuple[Caution, ...]:
    """What these figures should not be trusted for."""
    found = []
    if spent:
        text = "Leaf held so long and so warm may hold nothing at all; no mass of it is sure to give what is wanted."
        found.append(caution("spent-leaf", text, source="bluewright-leaf"))
    studied_h = STORAGE_STUDIED_H[record.plant].value
    if record.leaf.held_h > studied_h:
        text = f"Held for {record.leaf.held_h:g} h: nothing is known of this leaf beyond {studied_h:g} h after picking."
        found.append(caution("outside-range", text, source="bluewright-leaf"))
    if not 0 <= record.held_temp_c <= 40:
        text = f"Leaf held at {record.held_temp_c:g} C is frozen or cooked: these figures are for 0 to 40 C."
        found.append(caution("outside-range", text, source="bluewright-leaf"))
    day = _northern_day(record)
    if day is not None and days_from_best(record.plant, day_of_year=day) > SEASON_STUDIED_D.value:
        text = "This is far from the picking season; no source says what the leaf holds then."
        found.append(caution("outside-range", text, source="bluewright-leaf"))
    return tuple(found)
