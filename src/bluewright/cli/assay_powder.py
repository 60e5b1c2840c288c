"""`bluewright assay powder`: indigo by the colour of the powder."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.assay.powder import powder
from bluewright.science.assay.powder_record import PowderRecord
from bluewright.words.assay import POWDER_QUESTION, powder_said

COMMAND = RecordCommand(
    words="assay powder",
    question=POWDER_QUESTION,
    record=PowderRecord,
    compute=powder,
    said=powder_said,
    example="assay-powder",
)
run = COMMAND.run
