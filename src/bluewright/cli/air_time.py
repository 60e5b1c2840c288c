"""`bluewright air time`: how long to air, how many pours, done yet."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.air.finish import airing
from bluewright.science.air.record import AirRecord
from bluewright.words.air import QUESTION, said

COMMAND = RecordCommand(
    words="air time",
    question=QUESTION,
    record=AirRecord,
    compute=airing,
    said=said,
    example="air-time",
)
run = COMMAND.run
