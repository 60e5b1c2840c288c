"""`bluewright cost blue`: what a gram of pure blue costs, in hours, water, alkali and money."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.cost.call import cost
from bluewright.science.cost.cost_record import CostRecord
from bluewright.words.cost import QUESTION, said

COMMAND = RecordCommand(
    words="cost blue",
    question=QUESTION,
    record=CostRecord,
    compute=cost,
    said=said,
    example="cost-blue",
)
run = COMMAND.run
