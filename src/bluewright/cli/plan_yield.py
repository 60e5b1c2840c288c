"""`bluewright plan yield`: what the beds that stand will probably give, and whether it is enough."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.plan.chain_record import ClothPlanRecord
from bluewright.science.thread import plan_cloth
from bluewright.words.plan_cloth import FORWARD, said_of_beds

COMMAND = RecordCommand(
    words="plan yield",
    question=FORWARD,
    record=ClothPlanRecord,
    compute=plan_cloth,
    said=said_of_beds,
    example="plan-yield",
)
run = COMMAND.run
