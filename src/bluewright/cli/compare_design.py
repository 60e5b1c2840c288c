"""`bluewright compare design`: a fair layout, its lots, and what it can show."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.learn.design import trial_plan
from bluewright.science.learn.design_record import TrialPlanRecord
from bluewright.words.trial_plan import QUESTION, said

COMMAND = RecordCommand(
    words="compare design",
    question=QUESTION,
    record=TrialPlanRecord,
    compute=trial_plan,
    said=said,
    example="compare-design",
)
run = COMMAND.run
