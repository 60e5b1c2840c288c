"""A fair layout for the tubs and days there are: pairs of one picking, lots drawn, and what it can show beforehand."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterator
from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.errors import InputError
from bluewright.science.learn.design_power import found_chance, half_width_log, least_factor, spread_points
from bluewright.science.learn.design_record import (
    Differs,
    Equal,
    Layout,
    Power,
    Setting,
    TrialPlanAnswer,
    TrialPlanRecord,
)
from bluewright.science.learn.trial_beliefs import noise_before

MOST_BLOCKS: Final = 100
ENOUGH_CHANCE: Final = 0.8
STEPS: Final = (2, 3, 4, 5, 6, 8, 10, 12)
"""Pairs that the table tells, besides those that there are."""
_WORK: Final[tuple[Equal, ...]] = (
    "picking", "mixing", "mass", "held", "cut", "vessel", "water", "place", "start", "hours", "strain", "alkali", "air",
    "wash", "dry", "assay", "order",
)  # fmt: skip
_DIFFERENT: Final[dict[Differs, tuple[Equal, ...]]] = {
    "leaf": ("mixing",), "held": ("held", "start"), "cut": ("cut",), "hours": ("hours",), "warmth": ("place",),
    "water": ("water",), "alkali": ("alkali",), "air": ("air",), "wash": ("wash",), "other": (),
}  # fmt: skip
"""What cannot be kept equal, since it is the question."""


def trial_plan(record: TrialPlanRecord, *, rng: np.random.Generator) -> TrialPlanAnswer:
    """Layout, lots, and what the blocks can show.

    Formula: a block is one picking in as many tubs as there are ways; lots by `rng` block by block, or by a Latin
    square of vessels where they differ; power by the noncentral t on the log ratio. Raises InputError where more ways
    are compared than tubs can be filled on a day, but for two.
    """
    ways, sets = len(record.ways), record.tubs // len(record.ways)
    if not sets and (ways > 2 or record.tubs > 1):
        raise InputError(
            where="tubs", what=f"{record.tubs} on a day are fewer than the {ways} ways",
            right="compare fewer ways, or fill as many tubs on one day",
        )  # fmt: skip
    layout: Layout = "by_day" if not sets else "sorted_picking" if record.assigned == "leaf" else "split_picking"
    blocks = min(sets * record.days, MOST_BLOCKS) if sets else record.days // 2
    if blocks < 1:
        raise InputError(where="days", what="one day and one tub make no comparison", right="give a second day or tub")
    settings = tuple(_settings(record, blocks, rng))
    noise = noise_before(in_blocks=bool(sets), earlier=record.earlier)
    pair_sd = math.sqrt(2.0) * noise.tub_sd
    table = tuple(_power(record, count, pair_sd) for count in sorted({*STEPS, blocks}))
    low, mid, high = spread_points(dof=noise.dof, spread_sd=pair_sd)
    return TrialPlanAnswer(
        id=record.id, layout=layout, blocks=blocks,
        pair_sd=Band(p5=significant(low, 3), p50=significant(mid, 3), p95=significant(high, 3)),
        found_chance=next(row.found_chance for row in table if row.blocks == blocks),
        blocks_for_chance=_enough(record, pair_sd), table=table, settings=settings, seal=seal(settings),
        keep_equal=tuple(one for one in _WORK if one not in _DIFFERENT[record.differs]),
        leaf_needed_kg=None if record.leaf_kg is None else significant(record.leaf_kg * len(settings)),
        basis="prior" if record.earlier is None or not sets else "readings", inputs=record,
        cautions=tuple(_cautions(record, layout, blocks, table)),
        sources=("bluewright-learn", "fisher-1935", "johnson-welch-1940"),
    )  # fmt: skip


def seal(settings: tuple[Setting, ...]) -> str:
    """A fingerprint of the lots: sixteen figures of the SHA-256 of envelope, block, vessel and way, line by line."""
    lines = "\n".join(f"{one.number} {one.block} {one.tub} {one.way}" for one in settings)
    return hashlib.sha256(lines.encode()).hexdigest()[:16]


def _settings(record: TrialPlanRecord, blocks: int, rng: np.random.Generator) -> Iterator[Setting]:
    """Block by block; within a block the vessels in their order."""
    ways, sets = len(record.ways), record.tubs // len(record.ways)
    if not sets:
        order = rng.permutation(np.repeat(np.arange(2), blocks))
        for day, way in enumerate(order, start=1):
            yield Setting(number=day, day=day, block=str(day), tub=1, way=record.ways[way].name)
        return
    days = -(-blocks // sets)
    in_turn = [_squares(days, ways, rng) for _ in range(sets)] if record.vessels_differ else None
    lots = [
        rng.permutation(ways) if in_turn is None else in_turn[block % sets][block // sets] for block in range(blocks)
    ]
    number = 0
    for block, lot in enumerate(lots):
        day, part = divmod(block, sets)
        name = str(day + 1) if sets == 1 else f"{day + 1}{chr(ord('a') + part)}"
        for place, way in enumerate(lot):
            number += 1
            yield Setting(
                number=number, day=day + 1, block=name, tub=part * ways + place + 1, way=record.ways[int(way)].name
            )  # fmt: skip


def _squares(blocks: int, ways: int, rng: np.random.Generator) -> list[np.ndarray[tuple[int], np.dtype[np.int64]]]:
    """Rows of Latin squares, each square with rows, columns and ways in random order: each way once in each vessel."""
    rows: list[np.ndarray[tuple[int], np.dtype[np.int64]]] = []
    while len(rows) < blocks:
        square = (np.arange(ways)[:, None] + np.arange(ways)[None, :]) % ways
        square = rng.permutation(ways)[square[rng.permutation(ways)][:, rng.permutation(ways)]]
        rows += list(square)
    return rows[:blocks]


def _layout_error(record: TrialPlanRecord, blocks: int, pair_sd: float) -> tuple[int, float]:
    """Degrees of freedom, and standard error of a log ratio: s sqrt(1 / n) with s of a pair, in blocks or alone."""
    in_blocks = record.tubs >= len(record.ways)
    dof = (len(record.ways) - 1) * (blocks - 1) if in_blocks else 2 * (blocks - 1)
    return dof, pair_sd / math.sqrt(blocks)


def _power(record: TrialPlanRecord, blocks: int, pair_sd: float) -> Power:
    dof, error_sd = _layout_error(record, blocks, pair_sd)
    in_blocks = record.tubs >= len(record.ways)
    worth = 1.0 + record.worth_finding_frac
    least = least_factor(dof=dof, error_sd=error_sd)
    half = math.exp(half_width_log(dof=dof, error_sd=error_sd)) if dof else None
    return Power(
        blocks=blocks,
        found_chance=significant(found_chance(blocks, dof=dof, ratio_factor=worth, error_sd=error_sd), 3),
        least_factor=None if least is None else significant(least, 3),
        either_way_factor=None if half is None else significant(half, 3),
        least_flip_chance=significant(2.0 ** (1 - blocks), 3) if in_blocks else None,
    )


def _enough(record: TrialPlanRecord, pair_sd: float) -> int | None:
    """The fewest blocks with which a difference worth finding shows four times in five, by halving."""

    def found(blocks: int) -> float:
        dof, error_sd = _layout_error(record, blocks, pair_sd)
        return found_chance(blocks, dof=dof, ratio_factor=1.0 + record.worth_finding_frac, error_sd=error_sd)

    low, high = 1, MOST_BLOCKS
    if found(high) < ENOUGH_CHANCE:
        return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if found(middle) < ENOUGH_CHANCE else (low, middle)
    return high


def _cautions(record: TrialPlanRecord, layout: Layout, blocks: int, table: tuple[Power, ...]) -> Iterator[Caution]:
    own = next(row for row in table if row.blocks == blocks)
    if layout == "by_day":
        yield caution(
            "no-rivals",
            "One tub a day has no rival of the same picking: weather, bed and day are in the difference too. "
            "Half of one picking in each of two smaller tubs tells as much with far fewer.",
        )
    if layout == "sorted_picking":
        yield caution(
            "sorted-leaf",
            "Leaf that is sorted is compared as it came: what goes with the kind, like age or shade, is in the "
            "difference too. Note how much of it is damaged. Which vessel it goes into is still drawn by lot.",
        )
    if own.found_chance < 0.5:
        yield caution(
            "may-not-show",
            f"A difference of {100 * record.worth_finding_frac:.0f}% would show clearly in "
            f"{100 * own.found_chance:.0f} of "
            "100 such trials. It still narrows what you believe; but do not read silence as no difference.",
        )
    if len(record.ways) > 2:
        yield caution(
            "many-comparisons",
            f"{len(record.ways) - 1} ways beside the usual one: the best of several looks better than it is. "
            f"Say now which comparison matters most.",
        )
    yield caution(
        "lay-down-first",
        "Write down before the first tub: the question, what is measured, how many, and what makes a tub "
        "spoilt. Nothing is dropped afterwards; a spoilt tub stays in the list with its reason.",
    )
