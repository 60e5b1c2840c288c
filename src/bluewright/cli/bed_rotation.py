"""`bluewright bed rotation`: whether a plant may follow what grew here."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.bed.rotation import rotation
from bluewright.science.bed.rotation_record import RotationRecord
from bluewright.words.rotation import QUESTION, said

COMMAND = RecordCommand(
    words="bed rotation",
    question=QUESTION,
    record=RotationRecord,
    compute=rotation,
    said=said,
    example="bed-rotation",
)
run = COMMAND.run
