"""The records and answers whose JSON Schemas are published in the package, by name."""

from __future__ import annotations

from bluewright.science.leaf.record import PotentialAnswer, PotentialRecord
from bluewright.science.strain.record import StrainAnswer, StrainRecord

PUBLISHED: dict[str, type] = {
    "leaf-potential-record": PotentialRecord,
    "leaf-potential-answer": PotentialAnswer,
    "strain-record": StrainRecord,
    "strain-answer": StrainAnswer,
}
