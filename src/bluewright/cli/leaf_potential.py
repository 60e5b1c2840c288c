"""`bluewright leaf potential`: the most blue that a basket can give."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.leaf.potential import potential
from bluewright.science.leaf.record import PotentialRecord
from bluewright.words.leaf import QUESTION, said

COMMAND = RecordCommand(
    words="leaf potential",
    question=QUESTION,
    record=PotentialRecord,
    compute=potential,
    said=said,
    example="leaf-potential",
)
run = COMMAND.run
