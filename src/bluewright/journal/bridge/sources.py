"""Where a batch's liquor came from, flattened through joins and forks down to the strainings."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby

import numpy as np

from bluewright.journal.models import Batch, Poured, Strain
from bluewright.science.base.errors import InputError
from bluewright.science.strain.balance import balance
from bluewright.science.strain.record import StrainAnswer, StrainRecord

DEEPEST = 12
"""Batches joined to batches beyond which a loop is feared rather than followed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A straining and the share of its liquor that is in a batch."""

    strain: Strain
    share_frac: float


def sources(batch: Batch) -> list[Source]:
    """Every straining that a batch holds liquor of, each once."""
    found = sorted(_flat(batch, 1.0, DEEPEST), key=lambda one: str(one.strain.pk))
    return [
        Source(strain=same[0].strain, share_frac=min(1.0, sum(one.share_frac for one in same)))
        for _, group in groupby(found, key=lambda one: one.strain.pk)
        for same in [list(group)]
    ]


def liquor_l(batch: Batch, *, depth: int = DEEPEST) -> float:
    """Liquor in a batch: what was poured in as measured, or all that its sources had. Raises InputError if none."""
    if depth == 0:
        raise InputError(where="came_from", what=f"{batch} is joined to itself", right="take the joining out")
    total = sum(part.liquor_l if part.liquor_l is not None else _had_l(part, depth) for part in batch.came_from.all())
    if total <= 0:
        raise InputError(where="liquor_l", what="no liquor is in this batch", right="pour a straining into it")
    return total


def leaf_kg(batch: Batch) -> float:
    """Leaf that the liquor of a batch was steeped from."""
    return sum(one.share_frac * _leaf_kg(one.strain) for one in sources(batch))


def strain_record(strain: Strain) -> StrainRecord:
    """The record of a straining. Raises InputError where no leaf is known."""
    return StrainRecord(
        id=strain.steep.name,
        leaf_kg=_leaf_kg(strain),
        water_l=strain.steep.water_l,
        squeeze=strain.squeeze,  # type: ignore[arg-type]
        rinse_l=strain.rinse_l,
        liquor_out_l=strain.liquor_out_l,
        seed=strain.steep.seed,
    )


@lru_cache(maxsize=512)
def strain_balance(record: StrainRecord) -> StrainAnswer:
    """Where the liquor and the blue of a straining are; kept, for many pages ask the same."""
    return balance(record, rng=np.random.default_rng(record.seed))


def strained_l(strain: Strain) -> float:
    """Liquor of a straining with its rinse: measured, or else as the balance expects it."""
    out_l = strain.liquor_out_l
    return (strain_balance(strain_record(strain)).liquor_out_l.p50 if out_l is None else out_l) + strain.rinse_l


def _flat(batch: Batch, share: float, depth: int) -> list[Source]:
    if depth == 0:
        raise InputError(where="came_from", what=f"{batch} is joined to itself", right="take the joining out")
    found = []
    for part in batch.came_from.all():
        taken = share * _share(part, depth)
        if part.strain is not None:
            found.append(Source(strain=part.strain, share_frac=taken))
        elif part.batch is not None:
            found += _flat(part.batch, taken, depth - 1)
    return found


def _share(part: Poured, depth: int) -> float:
    """The share of its source that a part is: all where no volume was given."""
    return 1.0 if part.liquor_l is None else min(1.0, part.liquor_l / _had_l(part, depth))


def _had_l(part: Poured, depth: int) -> float:
    if part.strain is not None:
        return strained_l(part.strain)
    return 0.0 if part.batch is None else liquor_l(part.batch, depth=depth - 1)


def _leaf_kg(strain: Strain) -> float:
    return sum(part.leaf_kg for part in strain.steep.leaf.all())
