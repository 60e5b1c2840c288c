"""The records and answers whose JSON Schemas are published in the package, by name."""

from __future__ import annotations

from bluewright.science.leaf.record import PotentialAnswer, PotentialRecord
from bluewright.science.steep.answer import SteepAnswer
from bluewright.science.steep.record import SteepRecord
from bluewright.science.strain.record import StrainAnswer, StrainRecord

PUBLISHED: dict[str, type] = {
    "leaf-potential-record": PotentialRecord,
    "leaf-potential-answer": PotentialAnswer,
    "steep-record": SteepRecord,
    "steep-answer": SteepAnswer,
    "strain-record": StrainRecord,
    "strain-answer": StrainAnswer,
}
