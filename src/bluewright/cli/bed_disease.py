"""`bluewright bed disease`: how much of the leaf is damaged, and what it costs."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.bed.disease import disease
from bluewright.science.bed.disease_record import DiseaseRecord
from bluewright.words.disease import QUESTION, said

COMMAND = RecordCommand(
    words="bed disease",
    question=QUESTION,
    record=DiseaseRecord,
    compute=disease,
    said=said,
    example="bed-disease",
)
run = COMMAND.run
