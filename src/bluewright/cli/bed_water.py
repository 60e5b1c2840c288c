"""`bluewright bed water`: when a bed wants water, and how much."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.watering.call import bed_water
from bluewright.science.watering.record import BedWaterRecord
from bluewright.words.watering import QUESTION, said

COMMAND = RecordCommand(
    words="bed water",
    question=QUESTION,
    record=BedWaterRecord,
    compute=bed_water,
    said=said,
    example="bed-water",
)
run = COMMAND.run
