"""Which jars to mix for a job, so that its indigo is known best; and whether they hold enough.

Take x_i of each jar, 0 to what is in it, with sum p_i x_i what the job needs (and, if a purity p is wanted, sum
(p_i - p) x_i = 0): the mix whose variance sum (s_i x_i)^2 is least. That is a quadratic programme with bounds; with few
jars its answer is found exactly, by trying which jars are emptied, which are used in part and which stay shut, and
solving for the parts.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations, product
from typing import Final

import numpy as np

from bluewright.science.base.bands import NINETY_Z, Band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.dyeing.lots_record import LotJar, LotsAnswer, LotsRecord, Part

ENOUGH_FRAC: Final = Sourced(
    value=0.9, unit="1", source="common-practice", low=0.8, high=0.95, grade="guess",
    note="Share of what a job needs with which it does not yet come out visibly paler",
)  # fmt: skip
CRUMB: Final = 1e-9
"""A share so small that it is rounding."""


def lots(record: LotsRecord, *, rng: np.random.Generator) -> LotsAnswer:  # noqa: ARG001 - called as all are
    """The mix of least spread, exactly, and what the jars hold beside what the job needs.

    Purities are independent normals: jars assayed with one standard share its error, which no mixing takes away.
    """
    p, s, m = (np.array([getattr(jar, name) for jar in record.jars]) for name in _COLUMNS)
    held, off = float(p @ m), float(np.sqrt(np.sum((s * m) ** 2)))
    amounts = mix(record)
    found = None if amounts is None else _figures(amounts, p, s)
    return LotsAnswer(
        id=record.id,
        held_g=_normal(held, off),
        missing_g=significant(max(0.0, record.pure_g - held)),
        mixed=amounts is not None,
        parts=() if amounts is None else tuple(_parts(record.jars, amounts)),
        pure_g=None if found is None else _normal(found[0], found[1]),
        purity_pct=None if found is None else _normal(100 * found[0] / found[2], 100 * found[1] / found[2], most=100.0),
        spread_pct=None if found is None else significant(100 * found[1] / found[0], 3),
        single_spread_pct=_single(record, p, s, m),
        short_chance=None
        if found is None
        else significant(_below(ENOUGH_FRAC.value * record.pure_g, found[0], found[1]), 3),
        basis="readings",
        inputs=record,
        cautions=tuple(_cautions(record, held, mixed=amounts is not None)),
        sources=("common-practice",),
    )


_COLUMNS: Final = ("purity_frac", "purity_sd_frac", "mass_g")


def mix(record: LotsRecord) -> Floats | None:
    """What to take of each jar, grams, shape (jars,); None if no mix gives what is needed."""
    if record.oldest_first:
        return _oldest(record)
    best, least = None, math.inf
    for size in range(1, min(record.most_jars, len(record.jars)) + 1):
        for chosen in combinations(range(len(record.jars)), size):
            found = _best_of(record, chosen)
            if found is not None and found[1] < least * (1.0 - 1e-12):
                best, least = found
    return best


def _oldest(record: LotsRecord) -> Floats | None:
    """Jars emptied from the oldest on, the last in part; only so many as may be opened."""
    order = sorted(range(len(record.jars)), key=lambda k: (record.jars[k].filled, k))
    amounts, need = np.zeros(len(record.jars)), record.pure_g
    for k in order[: record.most_jars]:
        jar = record.jars[k]
        amounts[k] = min(jar.mass_g, need / jar.purity_frac)
        need -= amounts[k] * jar.purity_frac
        if need <= CRUMB * record.pure_g:
            return amounts
    return None


def _best_of(record: LotsRecord, chosen: Sequence[int]) -> tuple[Floats, float] | None:
    """The mix of least variance in which each chosen jar is either emptied or used in part, and its variance."""
    p, s, m = (np.array([getattr(record.jars[k], name) for k in chosen]) for name in _COLUMNS)
    rows, wants = [p], [record.pure_g]
    if record.wanted_purity_frac is not None:
        rows.append(p - record.wanted_purity_frac)
        wants.append(0.0)
    best: tuple[Floats, float] | None = None
    for emptied in product((False, True), repeat=len(chosen)):
        full = np.array(emptied)
        x = _solved(np.array(rows), np.array(wants), s, np.where(full, m, 0.0), ~full)
        if x is None or np.any(x < -CRUMB) or np.any(x > m * (1.0 + CRUMB)):
            continue
        variance = float(np.sum((s * x) ** 2))
        if best is None or variance < best[1]:
            whole = np.zeros(len(record.jars))
            whole[list(chosen)] = np.clip(x, 0.0, m)
            best = whole, variance
    return best


def _solved(rows: Floats, wants: Floats, s: Floats, fixed: Floats, free: Floats) -> Floats | None:
    """Amounts of the free jars by Lagrange's conditions, the others as given; None where they cannot meet the wants."""
    rest, a = wants - rows @ fixed, rows[:, free]
    x = fixed.copy()
    if a.shape[1]:
        spread = a / s[free] ** 2
        system = spread @ a.T
        multipliers = np.linalg.lstsq(system, rest, rcond=None)[0]
        x[free] = spread.T @ multipliers
    met = np.abs(rows @ x - wants) <= 1e-7 * max(float(np.abs(wants).max()), CRUMB)
    return x if np.all(met) else None


def _figures(amounts: Floats, p: Floats, s: Floats) -> tuple[float, float, float]:
    return float(p @ amounts), float(np.sqrt(np.sum((s * amounts) ** 2))), float(np.sum(amounts))


def _parts(jars: Sequence[LotJar], amounts: Floats) -> Iterator[Part]:
    for k in sorted(range(len(jars)), key=lambda k: -amounts[k]):
        if amounts[k] > CRUMB:
            take = float(amounts[k])
            yield Part(
                name=jars[k].name, take_g=significant(take), pure_g=significant(take * jars[k].purity_frac),
                left_g=significant(max(0.0, jars[k].mass_g - take)),
            )  # fmt: skip


def _single(record: LotsRecord, p: Floats, s: Floats, m: Floats) -> float | None:
    enough = p * m >= record.pure_g * (1.0 - CRUMB)
    return significant(float(100 * np.min((s / p)[enough])), 3) if np.any(enough) else None


def _normal(mean: float, sd: float, most: float = math.inf) -> Band:
    """The range of a normal, its ends cut at 0 and at the most that can be."""
    low, high = max(0.0, mean - NINETY_Z * sd), min(most, mean + NINETY_Z * sd)
    return Band(p5=significant(low), p50=significant(mean), p95=significant(high))


def _below(limit: float, mean: float, sd: float) -> float:
    return 0.5 * math.erfc((mean - limit) / (sd * math.sqrt(2.0)))


def _cautions(record: LotsRecord, held: float, *, mixed: bool) -> Iterator[Caution]:
    yield caution(
        "pigment-dust",
        "Blue powder stains and is not to be breathed in: weigh and mix it without draught, with a mask, lids on.",
    )
    if mixed:
        yield caution(
            "mix-well", "Grind the parts together and stir until no streak is left; weigh out of that, not of the jars."
        )
    if not mixed and held >= record.pure_g:
        yield caution(
            "no-mix",
            "The jars hold enough together, but not in so few of them, or not at that purity: allow one more, or "
            "another purity.",
        )
