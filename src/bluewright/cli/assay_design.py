"""`bluewright assay design`: how many swatches a test dyeing needs."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.assay.design import design
from bluewright.science.assay.design_record import DesignRecord
from bluewright.words.assay_dyeing import DESIGN_QUESTION, design_said

COMMAND = RecordCommand(
    words="assay design",
    question=DESIGN_QUESTION,
    record=DesignRecord,
    compute=design,
    said=design_said,
    example="assay-design",
)
run = COMMAND.run
