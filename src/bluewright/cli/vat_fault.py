"""`bluewright vat fault`: what ails a vat."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.vat.faults import faults
from bluewright.science.vat.faults_record import FaultRecord
from bluewright.words.vat_faults import QUESTION, said

COMMAND = RecordCommand(
    words="vat fault",
    question=QUESTION,
    record=FaultRecord,
    compute=faults,
    said=said,
    example="vat-fault",
)
run = COMMAND.run
