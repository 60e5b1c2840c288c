"""`bluewright jar yield`: what the jar holds and where the rest probably went."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.pigment.jar_yield import jar_yield
from bluewright.science.pigment.yield_record import YieldRecord
from bluewright.words.jar import QUESTION, said

COMMAND = RecordCommand(
    words="jar yield",
    question=QUESTION,
    record=YieldRecord,
    compute=jar_yield,
    said=said,
    example="jar-yield",
)
run = COMMAND.run
