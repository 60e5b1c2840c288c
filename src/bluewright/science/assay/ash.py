"""Moisture, ash and acid wash: a mass balance that bounds the indigo from above."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.assay.ash_record import AshAnswer, AshRecord
from bluewright.science.assay.factors import CALCIUM_G_PER_MOL
from bluewright.science.base.bands import Band, band
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.media.calcite import CALCITE_G_PER_MOL
from bluewright.science.media.dry_pigment import MOISTURE_FRAC

DRAWS = 4000
CHALK_PER_CALCIUM: Final = CALCITE_G_PER_MOL.value / CALCIUM_G_PER_MOL.value
"""Grams of calcium carbonate for a gram of calcium: 2.497."""
LIME_PER_CHALK: Final = Sourced(
    value=0.5603, unit="1", source="iupac-atomic-weights-2021", low=0.560, high=0.561, grade="exact",
    note="quicklime that is left of burnt chalk: 56.08 / 100.09, a loss of 44 %",
)  # fmt: skip
CALCIUM_SD: Final = Sourced(
    value=0.03, unit="1", source="common-practice", low=0.01, high=0.1, grade="practice",
    note="how far a laboratory's calcium may be off, as a share of it",
)  # fmt: skip
WASH_TAKES_BLUE: Final = Prior(
    kind="normal", centre=0.01, spread=0.01, unit="1", source="common-practice", grade="guess",
    note="pigment that goes off with the rinses, as a share; cut at none",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """Shares of the dry pigment, shape (DRAWS,); None where nothing tells them."""

    mineral: Floats
    chalk: Floats | None


def ash(record: AshRecord, *, rng: np.random.Generator) -> AshAnswer:
    """Most indigo = 100 - mineral matter, of dry pigment; after an acid wash that takes the share f, purity / (1 - f).

    Ash burnt bright red is counted back to chalk by 1 / 0.56. Raises InputError (from the record, or where chalk and
    ash contradict each other). Source: mass balance.
    """
    dry_g = _dry_g(record, rng)
    drawn = _Drawn(mineral=np.zeros(DRAWS), chalk=_chalk(record, rng))
    if record.ash_g is not None:
        drawn = _Drawn(mineral=_ash(record, dry_g, drawn.chalk, rng), chalk=drawn.chalk)
    elif drawn.chalk is not None:
        drawn = _Drawn(mineral=drawn.chalk, chalk=drawn.chalk)
    if np.median(drawn.mineral) >= 1:
        raise InputError(
            where="ash_g" if record.ash_g is not None else "washed", what="all of it would be mineral",
            right="check the weighings, and whether the dish was counted",
        )  # fmt: skip
    mineral = np.clip(drawn.mineral, 0.0, 1.0)
    before, factor = _enriched(record, drawn.chalk, rng)
    return AshAnswer(
        id=record.id, most_pct=band(100 * (1 - mineral)), mineral_pct=band(100 * mineral),
        chalk_pct=None if drawn.chalk is None else band(100 * np.clip(drawn.chalk, 0.0, 1.0)),
        after_wash_pct=before, enriched_factor=factor, basis="readings", inputs=record, cautions=_cautions(record),
        sources=("common-practice", "iupac-atomic-weights-2021"),
    )  # fmt: skip


def _weighed(grams: float, sd_g: float, rng: np.random.Generator) -> Floats:
    return grams * np.exp(min(sd_g / max(grams, sd_g / 10), 0.5) * rng.standard_normal(DRAWS))


def _dry_g(record: AshRecord, rng: np.random.Generator) -> Floats:
    """Dry matter of the sample, never more than was weighed."""
    if record.dried_g is None:
        return record.sample_g * (1 - MOISTURE_FRAC.draw(rng, DRAWS))
    return np.minimum(_weighed(record.dried_g, record.scale_sd_g, rng), record.sample_g)


def _chalk(record: AshRecord, rng: np.random.Generator) -> Floats | None:
    """Calcium carbonate in the dry pigment: by calcium, else by what acid took away; None where neither is known."""
    if record.calcium_frac is not None:
        return record.calcium_frac * CHALK_PER_CALCIUM * np.exp(CALCIUM_SD.value * rng.standard_normal(DRAWS))
    if record.washed is None:
        return None
    before_g = _weighed(record.washed.before_g, record.scale_sd_g, rng)
    lost = 1 - _weighed(record.washed.after_g, record.scale_sd_g, rng) / before_g
    return np.maximum(lost - np.maximum(WASH_TAKES_BLUE.draw(rng, DRAWS), 0.0), 0.0)


def _ash(record: AshRecord, dry_g: Floats, chalk: Floats | None, rng: np.random.Generator) -> Floats:
    """Mineral matter as it was before burning, as a share of the dry pigment.

    Bright red, chalk has become quicklime: what of the ash is quicklime is counted back. Where the chalk is not known,
    nothing up to all of the ash may be.
    """
    share = _weighed(record.ash_g or 0.0, record.scale_sd_g, rng) / dry_g
    if record.ashed == "dull_red":
        return share
    if chalk is None:
        lime = share * rng.random(DRAWS)
        return share - lime + lime / LIME_PER_CHALK.value
    if np.median(chalk) * LIME_PER_CHALK.value > 1.15 * np.median(share) + 0.02:
        raise InputError(
            where="ash_g", what="there is less ash than the quicklime of its chalk",
            right="check ash and calcium (or the acid wash), and that it was burnt to the end",
        )  # fmt: skip
    return share + chalk * (1 - LIME_PER_CHALK.value)


def _enriched(record: AshRecord, chalk: Floats | None, rng: np.random.Generator) -> tuple[Band | None, Band | None]:
    """Purity after the wash, and how many times purer."""
    if chalk is None or np.median(chalk) >= 0.98:
        return None, None
    factor = 1 / (1 - np.minimum(chalk, 0.98))
    if record.before_frac is None:
        return None, band(factor)
    spread = min(record.before_sd_frac / (record.before_frac * (1 - record.before_frac)), 2.0)
    prior = Prior(
        kind="logitnormal", centre=record.before_frac, spread=spread, unit="1", source="common-practice",
        grade="measured", note="given in the record",
    )  # fmt: skip
    after = 100 * prior.draw(rng, DRAWS) * factor
    if np.median(after) > 100:
        raise InputError(
            where="before_frac", what="after the wash there would be more indigo than pigment",
            right="check the purity before, and the chalk",
        )  # fmt: skip
    return band(np.minimum(after, 100.0)), band(factor)


def _cautions(record: AshRecord) -> tuple[Caution, ...]:
    found = []
    if record.ash_g is not None:
        found.append(
            caution(
                "ashing-fumes",
                "Burning pigment gives choking, poisonous fumes: only in a furnace or crucible out of doors or in a "
                "hood; stand to windward, and let it cool before you move it.",
            )
        )
    if record.washed is not None:
        found.append(
            caution(
                "acid-foams",
                "Chalk foams over when acid comes on it: add it in small parts in a tall vessel, with goggles, "
                "in the open.",
            )
        )
    found.append(
        caution(
            "upper-bound",
            "This is a bound: plant matter, starch and gum are neither ash nor indigo. It takes no part where results "
            "are combined, but no result may lie above it.",
        )
    )
    return tuple(found)
