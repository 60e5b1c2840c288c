"""`bluewright learned`: what a garden's finished batches have taught, begun from what others taught if wanted."""

from __future__ import annotations

import argparse
import json

from bluewright.cli.record_command import RecordCommand, read_bytes
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from bluewright.science.memory.garden import learn_garden
from bluewright.science.memory.pool_record import Prepared
from bluewright.science.memory.record import GardenRecord
from bluewright.words.memory import QUESTION, said


def _options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--prior", metavar="FILE", help="begin from what `bluewright pool --prior FILE` wrote")


def _with_prior(text: bytes, asked: argparse.Namespace) -> bytes | str:
    """The record with the pooled prior of the file asked for, in place of its own."""
    if asked.prior is None:
        return text
    try:
        prior = read(Prepared, read_bytes(asked.prior))
    except OSError as error:
        raise InputError(where=asked.prior, what=str(error.strerror), right="name a file that is there") from None
    except InputError as error:
        raise error.inside(asked.prior) from None
    return json.dumps(dump(read(GardenRecord, text)) | {"prior": dump(prior)})


COMMAND = RecordCommand(
    words="learned",
    question=QUESTION,
    record=GardenRecord,
    compute=learn_garden,
    said=said,
    example="learned",
    options=_options,
    prepare=_with_prior,
)
run = COMMAND.run
