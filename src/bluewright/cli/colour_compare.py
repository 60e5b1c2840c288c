"""`bluewright colour compare`: how colours differ, in words and in numbers."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.colour.compare import compare
from bluewright.science.colour.compare_record import CompareRecord
from bluewright.words.colour import COMPARE, compared

COMMAND = RecordCommand(
    words="colour compare",
    question=COMPARE,
    record=CompareRecord,
    compute=compare,
    said=compared,
    example="colour-compare",
)
run = COMMAND.run
