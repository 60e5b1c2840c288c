"""`bluewright assay titration`: indigo by titration or nitrogen."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.assay.titration import titration
from bluewright.science.assay.titration_record import TitrationRecord
from bluewright.words.assay import TITRATION_QUESTION, titration_said

COMMAND = RecordCommand(
    words="assay titration",
    question=TITRATION_QUESTION,
    record=TitrationRecord,
    compute=titration,
    said=titration_said,
    example="assay-titration",
)
run = COMMAND.run
