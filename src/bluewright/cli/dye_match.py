"""`bluewright dye match`: dips and strength to a swatch, and the chance to hit it."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.dyeing.match import match
from bluewright.science.dyeing.match_record import MatchRecord
from bluewright.words.dye_match import QUESTION, said

COMMAND = RecordCommand(
    words="dye match",
    question=QUESTION,
    record=MatchRecord,
    compute=match,
    said=said,
    example="dye-match",
)
run = COMMAND.run
