"""`bluewright settle time`: when to look, when to decant, and how much."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.settle.interface import settle
from bluewright.science.settle.interface_record import SettleRecord
from bluewright.words.settle import QUESTION, said

COMMAND = RecordCommand(
    words="settle time",
    question=QUESTION,
    record=SettleRecord,
    compute=settle,
    said=said,
    example="settle-time",
)
run = COMMAND.run
