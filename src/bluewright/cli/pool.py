"""`bluewright pool`: several gardens' shared files made into a better prior, here and nowhere else."""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from bluewright.cli.record_command import complain, read_bytes
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.records import dump, read
from bluewright.science.memory.pool import pool
from bluewright.science.memory.pool_record import PoolRecord, SharedGarden
from bluewright.words.memory import POOL_QUESTION, pool_said
from bluewright.words.said import text

WORDS: Final = "pool"


def run(arguments: Sequence[str]) -> int:
    """Parse `arguments`, pool, print; returns the exit code."""
    asked = _parser().parse_args(arguments)
    try:
        found = pool(PoolRecord(gardens=tuple(_garden(name) for name in asked.files)))
        if asked.prior is not None:
            Path(asked.prior).write_text(json.dumps(dump(found.prior)), encoding="utf-8")
    except InputError as error:
        return complain(WORDS, str(error))
    except OSError as error:
        return complain(WORDS, f"{error.filename}: {error.strerror}")
    except BluewrightError as error:
        return complain(WORDS, str(error), code=3)
    print(json.dumps(dump(found), indent=1, ensure_ascii=False) if asked.json else text(pool_said(found)))
    return 0


def _garden(name: str) -> SharedGarden:
    """One file; an InputError says which."""
    try:
        return read(SharedGarden, read_bytes(name))
    except InputError as error:
        raise error.inside(name) from None


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog=f"bluewright {WORDS}", description=POOL_QUESTION, allow_abbrev=False)
    parser.add_argument("files", nargs="+", metavar="FILE", help="what gardens gave, as `bluewright share` prints it")
    parser.add_argument("--prior", metavar="FILE", help="write the pooled prior here, for the field `prior`")
    parser.add_argument("--json", action="store_true", help="print the answer as JSON")
    return parser
