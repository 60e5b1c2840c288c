"""`bluewright bed stand`: how thick a stand grows, and whether to thin it."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.bed.stand import stand
from bluewright.science.bed.stand_record import StandRecord
from bluewright.words.stand import QUESTION, said

COMMAND = RecordCommand(
    words="bed stand",
    question=QUESTION,
    record=StandRecord,
    compute=stand,
    said=said,
    example="bed-stand",
)
run = COMMAND.run
