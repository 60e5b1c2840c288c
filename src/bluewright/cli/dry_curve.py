"""`bluewright dry curve`: how dry the paste is, how long it still takes, and what will be left."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.settle.drying import dry
from bluewright.science.settle.drying_record import DryRecord
from bluewright.words.dry import QUESTION, said

COMMAND = RecordCommand(
    words="dry curve",
    question=QUESTION,
    record=DryRecord,
    compute=dry,
    said=said,
    example="dry-curve",
)
run = COMMAND.run
