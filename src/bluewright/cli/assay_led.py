"""`bluewright assay led`: indigo by a one-band meter and one's own standards."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.assay.led import led
from bluewright.science.assay.led_record import LedRecord
from bluewright.words.assay import LED_QUESTION, led_said

COMMAND = RecordCommand(
    words="assay led",
    question=LED_QUESTION,
    record=LedRecord,
    compute=led,
    said=led_said,
    example="assay-led",
)
run = COMMAND.run
