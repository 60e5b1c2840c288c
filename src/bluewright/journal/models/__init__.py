"""All models, by noun."""

from bluewright.journal.models.bed import Bed
from bluewright.journal.models.garden import AirTemp, Garden
from bluewright.journal.models.kept import Change, Kept
from bluewright.journal.models.picking import PickedFrom, Picking
from bluewright.journal.models.steep import CallSeen, Reading, Steep, SteepLeaf, Strain

__all__ = [
    "AirTemp",
    "Bed",
    "CallSeen",
    "Change",
    "Garden",
    "Kept",
    "PickedFrom",
    "Picking",
    "Reading",
    "Steep",
    "SteepLeaf",
    "Strain",
]
