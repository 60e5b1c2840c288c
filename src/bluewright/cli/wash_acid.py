"""`bluewright wash acid`: the acid that frees limed pigment of lime and calcite."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.settle.acid import acid_wash
from bluewright.science.settle.acid_record import AcidRecord
from bluewright.words.acid import QUESTION, said

COMMAND = RecordCommand(
    words="wash acid",
    question=QUESTION,
    record=AcidRecord,
    compute=acid_wash,
    said=said,
    example="wash-acid",
)
run = COMMAND.run
