"""`bluewright strain balance`: where the liquor and the blue are after straining."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.strain.balance import balance
from bluewright.science.strain.record import StrainRecord
from bluewright.words.strain import QUESTION, said

COMMAND = RecordCommand(
    words="strain balance",
    question=QUESTION,
    record=StrainRecord,
    compute=balance,
    said=said,
    example="strain-balance",
)
run = COMMAND.run
