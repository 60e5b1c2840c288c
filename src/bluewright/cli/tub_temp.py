"""`bluewright tub temp`: how warm the tub was, is and will be."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.media.tub_temp import tub_temp
from bluewright.science.media.tub_temp_record import TubTempRecord
from bluewright.words.tub_temp import QUESTION, said

COMMAND = RecordCommand(
    words="tub temp",
    question=QUESTION,
    record=TubTempRecord,
    compute=tub_temp,
    said=said,
    example="tub-temp",
)
run = COMMAND.run
