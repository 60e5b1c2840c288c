"""`bluewright steep call`: the strain call for a steep."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.steep.record import SteepRecord
from bluewright.science.thread import strain_call
from bluewright.words.steep import QUESTION, said

COMMAND = RecordCommand(
    words="steep call",
    question=QUESTION,
    record=SteepRecord,
    compute=strain_call,
    said=said,
    example="steep-call",
)
run = COMMAND.run
