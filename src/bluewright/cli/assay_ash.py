"""`bluewright assay ash`: the most indigo by moisture, ash and acid wash."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.assay.ash import ash
from bluewright.science.assay.ash_record import AshRecord
from bluewright.words.assay import ASH_QUESTION, ash_said

COMMAND = RecordCommand(
    words="assay ash",
    question=ASH_QUESTION,
    record=AshRecord,
    compute=ash,
    said=ash_said,
    example="assay-ash",
)
run = COMMAND.run
