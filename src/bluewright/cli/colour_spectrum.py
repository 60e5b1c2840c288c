"""`bluewright colour spectrum`: colour and depth of a spectrum of reflectance, as a record or a table."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any, Final

from bluewright.cli.record_command import RecordCommand, read_bytes
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump
from bluewright.science.base.spectrum_table import decoded
from bluewright.science.colour.reflectance import reflectance
from bluewright.science.colour.reflectance_record import ReflectanceRecord
from bluewright.science.colour.reflectance_text import points
from bluewright.words.colour import SPECTRUM, spectrum_said

TABLES: Final = (".csv", ".tsv", ".txt")
"""How the name of a table ends."""


def add_options(parser: argparse.ArgumentParser) -> None:
    """What a table does not say."""
    group = parser.add_argument_group(
        "instead of a record, a table",
        "FILE.csv with the columns wavelength_nm,reflectance (white 1, or per cent), and:",
    )
    group.add_argument("--ground", metavar="FILE.csv", help="table of the same cloth undyed")


def as_record(text: bytes, asked: argparse.Namespace) -> bytes | str:
    """The record as it stands, or one made of a table; raises InputError where it is none."""
    if asked.ground is None and not asked.record.lower().endswith(TABLES):
        return text
    if text.lstrip().startswith(b"{"):
        raise InputError(where="file", what="it is a record, which says all that itself", right="leave --ground out")
    made: dict[str, Any] = {"id": Path(asked.record).stem[:200], "points": _table(text)}
    if asked.ground is not None:
        try:
            made["ground"] = _table(read_bytes(asked.ground))
        except InputError as error:
            raise error.inside("--ground") from None
    return json.dumps(made)


def _table(text: bytes) -> list[dict[str, Any]]:
    return [dump(point) for point in points(decoded(text))]


COMMAND = RecordCommand(
    words="colour spectrum",
    question=SPECTRUM,
    record=ReflectanceRecord,
    compute=reflectance,
    said=spectrum_said,
    example="colour-spectrum",
    options=add_options,
    prepare=as_record,
)
run = COMMAND.run
