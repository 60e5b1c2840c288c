"""`bluewright filter time`: how long until the rest has run through."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.settle.filtering import filter_time
from bluewright.science.settle.filtering_record import FilterRecord
from bluewright.words.filter import QUESTION, said

COMMAND = RecordCommand(
    words="filter time",
    question=QUESTION,
    record=FilterRecord,
    compute=filter_time,
    said=said,
    example="filter-time",
)
run = COMMAND.run
