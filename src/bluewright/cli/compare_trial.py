"""`bluewright compare trial`: what a trial of few tubs says."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.learn.trial import trial
from bluewright.science.learn.trial_record import TrialRecord
from bluewright.words.trial import QUESTION, said

COMMAND = RecordCommand(
    words="compare trial",
    question=QUESTION,
    record=TrialRecord,
    compute=trial,
    said=said,
    example="compare-trial",
)
run = COMMAND.run
