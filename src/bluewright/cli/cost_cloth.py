"""`bluewright cost cloth`: what a dyed piece costs."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.cost.cloth import cloth_cost
from bluewright.science.cost.cloth_record import ClothCostRecord
from bluewright.words.cost_cloth import QUESTION, said

COMMAND = RecordCommand(
    words="cost cloth",
    question=QUESTION,
    record=ClothCostRecord,
    compute=cloth_cost,
    said=said,
    example="cost-cloth",
)
run = COMMAND.run
