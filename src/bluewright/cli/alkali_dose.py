"""`bluewright alkali dose`: how much alkali, in which parts, and what it does."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.alkali.dose import dose
from bluewright.science.alkali.record import LiquorRecord
from bluewright.words.alkali import QUESTION, said

COMMAND = RecordCommand(
    words="alkali dose",
    question=QUESTION,
    record=LiquorRecord,
    compute=dose,
    said=said,
    example="alkali-dose",
)
run = COMMAND.run
