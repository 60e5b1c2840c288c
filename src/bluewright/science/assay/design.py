"""How many swatches a test dyeing needs to be as sure as wanted."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from bluewright.science.assay.design_record import Design, DesignAnswer, DesignRecord
from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.base.t_and_f import t_quantile

DRAWS = 2000
AMOUNTS: Final = (3, 4)
"""Two amounts would show no bend, five reach beyond the depths that tell strength."""
REPEATS: Final = (1, 2, 3, 4, 6)
NORMAL_Z: Final = 1.959964
SCATTER_SD: Final = Prior(
    kind="lognormal", centre=0.10, spread=0.3, unit="1", source="common-practice", grade="guess",
    note="of ln(K/S) among swatches of one amount, dyed with care",
)  # fmt: skip
SLOPE: Final = Prior(
    kind="normal", centre=0.85, spread=0.05, unit="1", source="common-practice", grade="guess",
    note="depth against mass on logarithms, where vats exhaust alike",
)  # fmt: skip


def design(record: DesignRecord, *, rng: np.random.Generator) -> DesignAnswer:
    """Expected precision of plans by amounts and repeats, and the smallest that is good enough.

    Formula: var(ln strength) = (s / b)^2 (2 / n + d^2 / Sxx), with n = amounts times repeats of each pigment, Sxx the
    sum of squares of ln(mass) about its mean within both, and d how far the two sets of masses are from dyeing to the
    same depths (0 if matched). The interval takes Student's t for 2 n - 3 degrees of freedom, and the scatter that
    such a study finds, which is itself drawn (chi-square).
    """
    ratio = _scatter_over_slope(record, rng)
    plans = [
        _design(record, amounts, repeats, ratio, rng)
        for amounts in AMOUNTS
        for repeats in REPEATS
        if 2 * amounts * repeats <= record.most_swatches
    ]
    ranked = sorted(plans, key=lambda one: (one.swatches, one.half_range_pct.p50))
    advised = next((one for one in ranked if one.half_range_pct.p50 <= record.wanted_pct), None)
    amounts = (advised or ranked[-1]).amounts
    standard = [significant(record.least_mg * record.step_factor**k, 3) for k in range(amounts)]
    more = 1 / record.guess_factor if record.matched else 1.0
    return DesignAnswer(
        id=record.id, designs=tuple(ranked), advised=advised, standard_mg=tuple(standard),
        sample_mg=tuple(significant(one * more, 3) for one in standard), basis="prior", inputs=record,
        cautions=_cautions(record, advised), sources=("common-practice", "fieller-1954"),
    )  # fmt: skip


def _scatter_over_slope(record: DesignRecord, rng: np.random.Generator) -> Floats:
    """Scatter of ln(mass) for one swatch, shape (DRAWS,)."""
    scatter = SCATTER_SD.draw(rng, DRAWS) if record.scatter_sd is None else np.full(DRAWS, record.scatter_sd)
    slope = np.maximum(SLOPE.draw(rng, DRAWS), 0.2) if record.slope is None else np.full(DRAWS, record.slope)
    return scatter / slope


def _design(record: DesignRecord, amounts: int, repeats: int, ratio: Floats, rng: np.random.Generator) -> Design:
    dof = 2 * amounts * repeats - 3
    spread = ratio * _spread(record, amounts, repeats)
    seen = spread * np.sqrt(rng.chisquare(dof, DRAWS) / dof)
    return Design(
        amounts=amounts, repeats=repeats, swatches=2 * amounts * repeats,
        half_range_pct=band(100 * _half(t_quantile(0.975, dof=dof) * seen), digits=3),
        spread_pct=significant(100 * NORMAL_Z * float(np.median(spread)), 3),
    )  # fmt: skip


def _spread(record: DesignRecord, amounts: int, repeats: int) -> float:
    """Standard deviation of ln(strength) for a swatch that scatters by 1 in ln(mass)."""
    each = amounts * repeats
    steps = math.log(record.step_factor) * (np.arange(amounts) - (amounts - 1) / 2)
    about = 2 * repeats * float(np.sum(steps**2))
    apart = 0.0 if record.matched else math.log(record.guess_factor)
    return math.sqrt(2 / each + apart**2 / about)


def _half(width: Floats) -> Floats:
    """Half of an interval from exp(-width) to exp(+width), cut where it has become meaningless."""
    return np.asarray(np.sinh(np.minimum(width, 5.0)))


def _cautions(record: DesignRecord, advised: Design | None) -> tuple[Caution, ...]:
    order = caution(
        "random-order",
        "Dye in random order, all cloth of one piece and one weight, the same vat recipe and the same dips or full "
        "exhaustion for all; measure all swatches in one photo, dry.",
    )
    if advised is not None:
        return (order,)
    text = (
        f"No plan of at most {record.most_swatches} swatches gets to {record.wanted_pct:g}%: lower the scatter first "
        "(weigh finer, stir alike, even cloth), or take more swatches."
    )
    return (order, caution("not-reached", text))
