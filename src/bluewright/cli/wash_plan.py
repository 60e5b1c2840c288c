"""`bluewright wash plan`: how many washes, how much water, and when to stop."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.settle.wash import plan
from bluewright.science.settle.wash_record import WashRecord
from bluewright.words.wash import QUESTION, said

COMMAND = RecordCommand(
    words="wash plan",
    question=QUESTION,
    record=WashRecord,
    compute=plan,
    said=said,
    example="wash-plan",
)
run = COMMAND.run
