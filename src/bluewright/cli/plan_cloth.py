"""`bluewright plan cloth`: from wanted cloth and pigment back to leaf, bed and dates."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.plan.chain_record import ClothPlanRecord
from bluewright.science.thread import plan_cloth
from bluewright.words.plan_cloth import QUESTION, said

COMMAND = RecordCommand(
    words="plan cloth",
    question=QUESTION,
    record=ClothPlanRecord,
    compute=plan_cloth,
    said=said,
    example="plan-cloth",
)
run = COMMAND.run
