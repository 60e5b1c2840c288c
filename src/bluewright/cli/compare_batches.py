"""`bluewright compare batches`: what many batches say of their causes, as a record or a table."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any, Final, get_args

from bluewright.cli.record_command import RecordCommand
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump
from bluewright.science.base.spectrum_table import decoded
from bluewright.science.learn.mixed import batches
from bluewright.science.learn.mixed_record import BatchesRecord
from bluewright.science.learn.mixed_text import FIELDS, batches_of
from bluewright.science.learn.trial_record import Outcome
from bluewright.words.batches import QUESTION, said

TABLES: Final = (".csv", ".tsv", ".txt")
"""How the name of a table ends."""


def add_options(parser: argparse.ArgumentParser) -> None:
    """What a table does not say."""
    group = parser.add_argument_group(
        "instead of a record, a table",
        f"FILE.csv with the columns way,value and any of {', '.join(FIELDS)}; and:",
    )
    group.add_argument("--usual", metavar="WAY", help="the way that the others are compared with")
    group.add_argument("--outcome", choices=get_args(Outcome), help="what is measured (default pure_blue)")


def as_record(text: bytes, asked: argparse.Namespace) -> bytes | str:
    """The record as it stands, or one made of a table; raises InputError where it is none."""
    options = {name: value for name in ("usual", "outcome") if (value := getattr(asked, name)) is not None}
    if not asked.record.lower().endswith(TABLES):
        if options:
            raise InputError(
                where="file", what="a record says all that itself", right="leave --usual and --outcome out"
            )  # fmt: skip
        return text
    made: dict[str, Any] = {"id": Path(asked.record).stem[:200], **options}
    made["batches"] = [dump(batch) for batch in batches_of(decoded(text))]
    return json.dumps(made)


COMMAND = RecordCommand(
    words="compare batches",
    question=QUESTION,
    record=BatchesRecord,
    compute=batches,
    said=said,
    example="compare-batches",
    options=add_options,
    prepare=as_record,
)
run = COMMAND.run
