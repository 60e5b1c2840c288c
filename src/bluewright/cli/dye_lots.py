"""`bluewright dye lots`: which jars to mix for a job, and whether they hold enough."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.dyeing.lots import lots
from bluewright.science.dyeing.lots_record import LotsRecord
from bluewright.words.dye_lots import QUESTION, said

COMMAND = RecordCommand(
    words="dye lots",
    question=QUESTION,
    record=LotsRecord,
    compute=lots,
    said=said,
    example="dye-lots",
)
run = COMMAND.run
