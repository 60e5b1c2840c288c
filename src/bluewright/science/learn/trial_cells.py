"""Which tubs count, with which rivals."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from bluewright.science.learn.trial_fit import Cell
from bluewright.science.learn.trial_record import TrialRecord, TrialTub


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """The cells that count, and how many tubs do."""

    cells: tuple[Cell, ...]
    in_blocks: bool
    """Whether tubs are compared within blocks; else each stands alone."""
    tubs_of: tuple[int, ...]
    """Tubs that count, way by way."""
    doubled: bool
    """Whether a block holds several tubs of one way."""
    left_out: int
    """Tubs with a value that have no rival in their block."""


def counted(record: TrialRecord) -> Counted:
    """Blocks in which at least two ways have a value; where there is none, every tub with a value by itself."""
    place = {way.name: k for k, way in enumerate(record.ways)}
    valued = [tub for tub in record.tubs if tub.value is not None and not tub.spoilt]
    grouped: defaultdict[str, defaultdict[int, list[TrialTub]]] = defaultdict(lambda: defaultdict(list))
    for tub in valued:
        if tub.block:
            grouped[tub.block][place[tub.way]].append(tub)
    whole = {block: ways for block, ways in grouped.items() if len(ways) > 1}
    if whole:
        groups = [(way, block, tubs) for block, ways in whole.items() for way, tubs in ways.items()]
    else:
        groups = [(place[tub.way], "", [tub]) for tub in valued]
    of_way = [0] * len(record.ways)
    for way, _block, tubs in groups:
        of_way[way] += len(tubs)
    return Counted(
        cells=tuple(_cell(way, block, tubs) for way, block, tubs in groups),
        in_blocks=bool(whole), tubs_of=tuple(of_way), doubled=any(len(tubs) > 1 for _way, _block, tubs in groups),
        left_out=len(valued) - sum(of_way),
    )  # fmt: skip


def alone(record: TrialRecord) -> tuple[Cell, ...]:
    """Every tub that has a value by itself, for what a way gives from picking to picking."""
    place = {way.name: k for k, way in enumerate(record.ways)}
    return tuple(
        _cell(place[tub.way], "", [tub]) for tub in record.tubs if tub.value is not None and not tub.spoilt
    )  # fmt: skip


def _cell(way: int, block: str, tubs: Sequence[TrialTub]) -> Cell:
    part = 1.0 / len(tubs)
    return Cell(
        way=way, block=block, mean_log=part * sum(math.log(tub.value or 1.0) for tub in tubs),
        own_sd=part * math.sqrt(sum(tub.sd_frac**2 for tub in tubs)),
        assays=tuple((tub.assay, tub.assay_sd_frac, part) for tub in tubs if tub.assay),
    )  # fmt: skip
