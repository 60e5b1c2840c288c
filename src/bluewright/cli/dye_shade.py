"""`bluewright dye shade`: how deep cloth gets, dip by dip."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.dyeing.shade import shade
from bluewright.science.dyeing.shade_record import ShadeRecord
from bluewright.words.dyeing import QUESTION, said

COMMAND = RecordCommand(
    words="dye shade",
    question=QUESTION,
    record=ShadeRecord,
    compute=shade,
    said=said,
    example="dye-shade",
)
run = COMMAND.run
