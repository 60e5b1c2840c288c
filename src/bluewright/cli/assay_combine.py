"""`bluewright assay combine`: several results put together, if they agree."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.assay.combine import combine
from bluewright.science.assay.combine_record import CombineRecord
from bluewright.words.assay import COMBINE_QUESTION, combine_said

COMMAND = RecordCommand(
    words="assay combine",
    question=COMBINE_QUESTION,
    record=CombineRecord,
    compute=combine,
    said=combine_said,
    example="assay-combine",
)
run = COMMAND.run
