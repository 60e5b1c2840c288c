"""`bluewright assay dyeing`: indigo by comparative test dyeing."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.assay.dyeing import dyeing
from bluewright.science.assay.dyeing_record import DyeingRecord
from bluewright.words.assay_dyeing import QUESTION, dyeing_said

COMMAND = RecordCommand(
    words="assay dyeing",
    question=QUESTION,
    record=DyeingRecord,
    compute=dyeing,
    said=dyeing_said,
    example="assay-dyeing",
)
run = COMMAND.run
