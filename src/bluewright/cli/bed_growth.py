"""`bluewright bed growth`: when the next cut is ready, and what it will give."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.bed.growth import growth
from bluewright.science.bed.growth_record import GrowthRecord
from bluewright.words.growth import QUESTION, said

COMMAND = RecordCommand(
    words="bed growth",
    question=QUESTION,
    record=GrowthRecord,
    compute=growth,
    said=said,
    example="bed-growth",
)
run = COMMAND.run
