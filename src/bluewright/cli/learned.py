"""`bluewright learned`: what a garden's finished batches have taught."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.memory.garden import learn_garden
from bluewright.science.memory.record import GardenRecord
from bluewright.words.memory import QUESTION, said

COMMAND = RecordCommand(
    words="learned",
    question=QUESTION,
    record=GardenRecord,
    compute=learn_garden,
    said=said,
    example="learned",
)
run = COMMAND.run
