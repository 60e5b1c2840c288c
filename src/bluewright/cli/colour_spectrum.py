"""`bluewright colour spectrum`: colour and depth of a spectrum of reflectance."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.colour.reflectance import reflectance
from bluewright.science.colour.reflectance_record import ReflectanceRecord
from bluewright.words.colour import SPECTRUM, spectrum_said

COMMAND = RecordCommand(
    words="colour spectrum",
    question=SPECTRUM,
    record=ReflectanceRecord,
    compute=reflectance,
    said=spectrum_said,
    example="colour-spectrum",
)
run = COMMAND.run
