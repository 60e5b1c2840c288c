"""`bluewright dye ladder`: what a ladder of dips teaches, and which rung would teach most."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.dyeing.ladder import ladder
from bluewright.science.dyeing.ladder_record import LadderRecord
from bluewright.words.dye_ladder import QUESTION, said

COMMAND = RecordCommand(
    words="dye ladder",
    question=QUESTION,
    record=LadderRecord,
    compute=ladder,
    said=said,
    example="dye-ladder",
)
run = COMMAND.run
