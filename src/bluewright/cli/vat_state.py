"""`bluewright vat state`: how a vat stands and what to do."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.vat.state import state
from bluewright.science.vat.state_record import VatRecord
from bluewright.words.vat_state import QUESTION, said

COMMAND = RecordCommand(
    words="vat state",
    question=QUESTION,
    record=VatRecord,
    compute=state,
    said=said,
    example="vat-state",
)
run = COMMAND.run
