"""What one does with a tub: begin it, look at it, strain it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db import transaction

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Picking, Reading, Steep, SteepLeaf, Strain


@dataclass(frozen=True, slots=True, kw_only=True)
class LeafIn:
    """Leaf of one picking that goes into a tub, as typed and in kilograms."""

    picking: Picking
    leaf_kg: float
    leaf_typed: str


def begin_steep(steep: Steep, *, leaf: Sequence[LeafIn], by: Any) -> Steep:
    """Write a tub with the leaf that went into it."""
    with transaction.atomic():
        keep(steep, by=by)
        for part in leaf:
            SteepLeaf.objects.create(
                steep=steep, picking=part.picking, leaf_kg=part.leaf_kg, leaf_typed=part.leaf_typed
            )
    return steep


def add_reading(reading: Reading, *, by: Any) -> Reading:
    """Write a look at a tub."""
    return keep(reading, by=by)


def strain(straining: Strain, *, by: Any) -> Strain:
    """Write the straining of a tub."""
    return keep(straining, by=by)
