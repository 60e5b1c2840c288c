"""`bluewright jar look`: whether a jar of liquor holds blue dye or only haze, and whether more is forming."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.photo.jar import jar_look
from bluewright.science.photo.jar_record import JarRecord
from bluewright.words.jar_look import QUESTION, said

COMMAND = RecordCommand(
    words="jar look",
    question=QUESTION,
    record=JarRecord,
    compute=jar_look,
    said=said,
    example="jar-look",
)
run = COMMAND.run
