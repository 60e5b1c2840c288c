"""Comparative test dyeing: how much of the standard dyes as deep as a given mass of the sample."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.assay.common import check_method, dry_frac, possible
from bluewright.science.assay.dyeing_record import DyeingAnswer, DyeingRecord, Line, Verdict
from bluewright.science.assay.parallel_lines import ParallelLines, parallel_lines
from bluewright.science.assay.priors import CHECK_ABOVE_PCT
from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.cautions import Caution, caution, those_that_hold
from bluewright.science.base.sourced import Floats, Prior, Sourced

DRAWS = 4000
SURPRISING: Final = 0.05
"""Chance below which slopes count as different, or lines as bent."""

BEST_FROM: Final = Sourced(
    value=2.0, unit="1", source="common-practice", low=1.0, high=3.0, grade="guess",
    note="K/S from which a doubling shows clearly; from a run of our own over a drawn spectrum",
)  # fmt: skip
BEST_TO: Final = Sourced(
    value=8.0, unit="1", source="common-practice", low=6.0, high=15.0, grade="guess",
    note="K/S up to which it does; beyond, depth hardly rises with dye",
)  # fmt: skip


def dyeing(record: DyeingRecord, *, rng: np.random.Generator) -> DyeingAnswer:
    """The sample's strength beside the standard by parallel lines of ln(K/S) on ln(mass), and from it its indigo.

    Formula: y = level + slope x, lifted by d for the sample; ln(strength) = d / slope, its interval by Fieller;
    indigo = strength times that of the standard, of dry matter. No strength is told where the slopes differ (F test at
    1 in 20) or the slope cannot be told from none. Raises InputError (from the record; for an impossible strength).
    """
    lines = _fitted(record)
    ratios = lines.ratios(rng.standard_t(lines.dof, DRAWS))
    interval = lines.fieller(0.95)
    verdict = _verdict(lines, ratios)
    pct = strength = None
    if verdict == "one_strength" and ratios is not None:
        factor = np.exp(np.clip(ratios, -20, 20))
        strength = band(factor)
        pct = band(100.0 * factor * _standard_frac(record, rng) / dry_frac(record.moisture_frac, rng=rng, draws=DRAWS))
        possible(pct, where="swatches")
    told = interval if verdict == "one_strength" else None
    return DyeingAnswer(
        id=record.id, verdict=verdict, indigo_pct=pct, strength_factor=strength,
        strength_low_factor=None if told is None else significant(float(np.exp(max(told[0], -20)))),
        strength_high_factor=None if told is None else significant(float(np.exp(min(told[1], 20)))),
        slope=significant(lines.slope), scatter_sd=significant(lines.scatter_sd, 3),
        parallel_chance=significant(lines.parallel_chance, 3),
        straight_chance=None if lines.straight_chance is None else significant(lines.straight_chance, 3),
        lines=_lines(record, lines), basis="readings", inputs=record,
        cautions=_cautions(record, lines, pct),
        sources=("common-practice", "fieller-1954", CHECK_ABOVE_PCT.source, "ph-eur-5-3"),
    )  # fmt: skip


def _fitted(record: DyeingRecord) -> ParallelLines:
    x = np.log([one.pigment_mg for one in record.swatches])
    y = np.log([one.k_over_s for one in record.swatches])
    return parallel_lines(x, y, np.array([one.of == "sample" for one in record.swatches]))


def _verdict(lines: ParallelLines, ratios: Floats | None) -> Verdict:
    if ratios is None or lines.slope <= 0 or lines.fieller(0.95) is None:
        return "flat"
    return "not_parallel" if lines.parallel_chance < SURPRISING else "one_strength"


def _standard_frac(record: DyeingRecord, rng: np.random.Generator) -> Floats:
    """Indigo in the standard, never all and more."""
    if record.standard_frac >= 1:
        return np.ones(DRAWS)
    spread = min(record.standard_sd_frac / (record.standard_frac * (1 - record.standard_frac)), 2.0)
    prior = Prior(
        kind="logitnormal", centre=record.standard_frac, spread=spread, unit="1", source="common-practice",
        grade="practice", note="as its seller states it",
    )  # fmt: skip
    return prior.draw(rng, DRAWS)


def _lines(record: DyeingRecord, lines: ParallelLines) -> tuple[Line, ...]:
    counts = [sum(one.of == of for one in record.swatches) for of in ("standard", "sample")]
    return (
        Line(
            of="standard", swatches=counts[0], slope=significant(lines.apart_slope[0]), level=significant(lines.level)
        ),
        Line(
            of="sample", swatches=counts[1], slope=significant(lines.apart_slope[1]),
            level=significant(lines.level + lines.lift),
        ),
    )  # fmt: skip


def _cautions(record: DyeingRecord, lines: ParallelLines, pct: Band | None) -> tuple[Caution, ...]:
    depths = {of: [one.k_over_s for one in record.swatches if one.of == of] for of in ("standard", "sample")}
    low, high = min(map(min, depths.values())), max(map(max, depths.values()))
    apart = max(map(min, depths.values())) > min(map(max, depths.values()))
    said = {
        (
            "no-overlap",
            "No depth of the sample lies between depths of the standard: the lines are drawn on beyond what was dyed. "
            "Dye the sample with other amounts.",
        ): apart,
        (
            "depth-window",
            f"K/S runs from {low:.2g} to {high:.2g}; between {BEST_FROM.value:g} and {BEST_TO.value:g} depth tells "
            "strength best: deeper, it hardly rises with dye.",
        ): low < BEST_FROM.value / 4 or high > 2 * BEST_TO.value,
        (
            "bent-lines",
            f"The lines bend (chance {lines.straight_chance or 0:.2g} were they straight): did all vats exhaust alike? "
            "Leave out the deepest amount of each and see.",
        ): lines.straight_chance is not None and lines.straight_chance < SURPRISING,
        (
            "few-swatches",
            f"{len(record.swatches)} swatches leave {lines.dof} degrees of freedom: three amounts of each, twice, "
            "tell far more.",
        ): lines.dof < 6,
    }  # fmt: skip
    vat = caution(
        "vat-chemicals",
        "Vats for test dyeing need lye or lime and a reducing agent: goggles and gloves, out of doors or at an open "
        "window, and what their labels say.",
    )
    return (vat, *those_that_hold(said), *(check_method(pct) if pct else ()))
